//! From bytes to the text of a score: plain or packed (`.mxl`, a zip), in any of the usual encodings.
//!
//! The content of a file tells what it is, not its name.

use crate::music::musicxml::{
    document,
    error::{FileKind, LARGEST_FILE, LARGEST_TEXT, ReadError},
};
use crc::{CRC_32_ISO_HDLC, Crc};
use miniz_oxide::inflate::{DecompressError, TINFLStatus, decompress_to_vec_with_limit};
use rawzip::{CompressionMethod, ZipArchive, ZipFileHeaderRecord, ZipSliceArchive};
use std::borrow::Cow;

/// The checksum of a zip's entries.
const CHECKSUM: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);

/// Where a packed score names its main file (MusicXML 4.0, "Compressed .mxl files").
const CONTAINER: &str = "META-INF/container.xml";
/// Far more than a list of a few names needs, in bytes.
const LARGEST_CONTAINER: usize = 64 << 10;
/// Most entries of a packed file that are looked into for its score.
const MOST_CANDIDATES: usize = 64;
/// The first tag of a score stands within so many bytes.
const LONGEST_HEAD: usize = 16 << 10;

/// The text of the score in these bytes.
pub(super) fn text(bytes: &[u8]) -> Result<Cow<'_, str>, ReadError> {
    if bytes.len() > LARGEST_FILE {
        return Err(ReadError::FileTooLarge);
    }
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(ReadError::Empty);
    }
    if let Some(kind) = other_kind(bytes) {
        return Err(ReadError::OtherFile(kind));
    }
    if bytes.starts_with(b"PK") {
        let unpacked = unpack(bytes)?;
        return decode(&unpacked).map(|text| Cow::Owned(text.into_owned()));
    }
    decode(bytes)
}

/// What other kind of file this is, by the signature in its format's specification.
fn other_kind(bytes: &[u8]) -> Option<FileKind> {
    match bytes {
        [b'%', b'P', b'D', b'F', ..] => Some(FileKind::Pdf),
        [b'M', b'T', b'h', b'd', ..] => Some(FileKind::Midi),
        [0x1F, 0x8B, ..] => Some(FileKind::Gzip),
        // PNG, JPEG, GIF, TIFF in both byte orders, WebP, HEIF.
        [0x89, b'P', b'N', b'G', ..] | [0xFF, 0xD8, 0xFF, ..] | [b'G', b'I', b'F', b'8', ..] => Some(FileKind::Picture),
        [b'I', b'I', b'*', 0, ..] | [b'M', b'M', 0, b'*', ..] => Some(FileKind::Picture),
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Some(FileKind::Picture),
        [_, _, _, _, b'f', b't', b'y', b'p', b'h' | b'm' | b'a', b'e' | b'i' | b'v', b'i' | b'f', ..] => {
            Some(FileKind::Picture)
        }
        _ => None,
    }
}

fn unpack(bytes: &[u8]) -> Result<Vec<u8>, ReadError> {
    let archive = ZipArchive::from_slice(bytes).map_err(|_| ReadError::DamagedZip)?;
    let entries: Result<_, _> = archive.entries().collect();
    let zip = Packed { archive: &archive, entries: entries.map_err(|_| ReadError::DamagedZip)? };
    let mut candidates = zip.named_scores();
    candidates.extend(zip.likely_scores());
    candidates.truncate(MOST_CANDIDATES);
    let score = candidates.iter().find(|index| zip.begins_as_score(**index));
    let index = score.or(candidates.first()).ok_or(ReadError::NoScoreInZip)?;
    zip.entry(*index, LARGEST_TEXT)
}

/// A packed file and the list of its entries.
struct Packed<'a> {
    archive: &'a ZipSliceArchive<&'a [u8]>,
    entries: Vec<ZipFileHeaderRecord<'a>>,
}

impl Packed<'_> {
    fn name(&self, index: usize) -> Cow<'_, str> {
        String::from_utf8_lossy(self.entries[index].file_path().as_bytes())
    }

    fn index_for_name(&self, name: &str) -> Option<usize> {
        (0..self.entries.len()).rfind(|index| self.name(*index) == name)
    }

    /// The entries that the container names, as far as they exist.
    fn named_scores(&self) -> Vec<usize> {
        let container = self.index_for_name(CONTAINER).and_then(|index| self.entry(index, LARGEST_CONTAINER).ok());
        let Some(text) = container.as_deref().and_then(|container| decode(container).ok()) else { return Vec::new() };
        let Ok(document) = document::parse(&text) else { return Vec::new() };
        let rootfiles = document.descendants().filter(|node| node.has_tag_name("rootfile"));
        let scores = rootfiles.filter(|node| node.attribute("media-type").is_none_or(|kind| kind.contains("musicxml")));
        let paths = scores.filter_map(|node| node.attribute("full-path"));
        paths.filter_map(|path| self.index_for_name(path.replace('\\', "/").trim_start_matches(['.', '/']))).collect()
    }

    /// The entries that are named like a score: a guess for unusual programs.
    fn likely_scores(&self) -> impl Iterator<Item = usize> {
        (0..self.entries.len()).filter(|index| {
            let name = self.name(*index).to_ascii_lowercase();
            let named_so = name.ends_with(".musicxml") || name.ends_with(".xml");
            named_so && !name.starts_with("meta-inf/") && !name.contains("__macosx")
        })
    }

    /// Whether the head of an entry opens a score, in whatever encoding.
    fn begins_as_score(&self, index: usize) -> bool {
        // A damaged end is no matter here.
        let mut head = self.unpacked(index, LONGEST_HEAD).unwrap_or_else(|broken| broken.output);
        head.retain(|byte| *byte != 0);
        let head = String::from_utf8_lossy(&head);
        head.contains("<score-partwise") || head.contains("<score-timewise")
    }

    /// The bytes of one entry, checked. An entry that declares a larger size is not unpacked, and no entry is unpacked
    /// beyond the size that it declares.
    fn entry(&self, index: usize, largest: usize) -> Result<Vec<u8>, ReadError> {
        let record = &self.entries[index];
        let size = usize::try_from(record.uncompressed_size_hint()).ok().filter(|size| *size <= largest);
        let bytes =
            self.unpacked(index, size.ok_or(ReadError::UnpackedTooLarge)?).map_err(|_| ReadError::DamagedZip)?;
        let whole = size == Some(bytes.len()) && record.crc32() == CHECKSUM.checksum(&bytes);
        if whole { Ok(bytes) } else { Err(ReadError::DamagedZip) }
    }

    /// The bytes of one entry up to `largest`; an error where there are more, or where it is damaged, locked or
    /// packed in another way than MusicXML 4.0 knows.
    fn unpacked(&self, index: usize, largest: usize) -> Result<Vec<u8>, DecompressError> {
        let broken = |status, output: &[u8]| DecompressError { status, output: output.to_vec() };
        let record = &self.entries[index];
        let entry = self.archive.get_entry(record.wayfinder()).map_err(|_| broken(TINFLStatus::Failed, &[]))?;
        match (record.compression_method(), record.flags().is_encrypted()) {
            (CompressionMethod::DEFLATE, false) => decompress_to_vec_with_limit(entry.data(), largest),
            (CompressionMethod::STORE, false) => match entry.data().get(..largest + 1) {
                None => Ok(entry.data().to_vec()),
                Some(more) => Err(broken(TINFLStatus::HasMoreOutput, more)),
            },
            _ => Err(broken(TINFLStatus::Failed, &[])),
        }
    }
}

/// The bytes as text: UTF-8 or UTF-16 by their mark or their first sign, windows-1252 where it or Latin-1 is declared.
fn decode(bytes: &[u8]) -> Result<Cow<'_, str>, ReadError> {
    match bytes {
        [0xFF, 0xFE, rest @ ..] => utf16(rest, u16::from_le_bytes),
        [0xFE, 0xFF, rest @ ..] => utf16(rest, u16::from_be_bytes),
        [b'<', 0, ..] => utf16(bytes, u16::from_le_bytes),
        [0, b'<', ..] => utf16(bytes, u16::from_be_bytes),
        _ => match std::str::from_utf8(bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes)) {
            Ok(text) => Ok(text.into()),
            Err(_) if declares_latin1(bytes) => Ok(bytes.iter().map(|byte| windows_1252(*byte)).collect()),
            Err(_) => Err(ReadError::UnknownEncoding),
        },
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<Cow<'static, str>, ReadError> {
    let units = bytes.chunks_exact(2).map(|pair| unit([pair[0], pair[1]]));
    let text: Result<String, _> = char::decode_utf16(units).collect();
    text.map(Cow::Owned).map_err(|_| ReadError::UnknownEncoding)
}

/// The letter of a byte of windows-1252, which is Latin-1 except for its control codes. The Encoding Standard (WHATWG,
/// "Names and labels") reads what is labelled Latin-1 so, too.
fn windows_1252(byte: u8) -> char {
    const FROM_0X80: [char; 32] = [
        '€', '\u{81}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{8D}', 'Ž', '\u{8F}', '\u{90}', '‘',
        '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{9D}', 'ž', 'Ÿ',
    ];
    let control = byte.checked_sub(0x80).and_then(|index| FROM_0X80.get(usize::from(index)));
    control.copied().unwrap_or(char::from(byte))
}

fn declares_latin1(bytes: &[u8]) -> bool {
    let declaration = bytes.split(|byte| *byte == b'>').next().unwrap_or(bytes);
    let declaration = String::from_utf8_lossy(&declaration[..declaration.len().min(200)]).to_ascii_lowercase();
    ["iso-8859-1", "latin1", "latin-1", "windows-1252"].iter().any(|name| declaration.contains(name))
}
