//! From bytes to the text of a score: plain or packed (`.mxl`, a zip), in any of the usual encodings.
//!
//! Refuses to know what the text means. What a file is, its content tells, not its name.

use super::{
    document,
    error::{LARGEST_FILE, LARGEST_TEXT, ReadError},
};
use std::{
    borrow::Cow,
    io::{Cursor, Read},
};
use zip::ZipArchive;

type Packed<'a> = ZipArchive<Cursor<&'a [u8]>>;

/// Where a packed score names its main file (MusicXML 4.0, "Compressed .mxl files").
const CONTAINER: &str = "META-INF/container.xml";
/// Far above what a list of a few names needs, in bytes.
const LARGEST_CONTAINER: usize = 64 << 10;
/// Most entries of a packed file that are looked into for its score.
const MOST_CANDIDATES: usize = 64;
/// The first tag of a score stands within so many bytes.
const LONGEST_HEAD: u64 = 16 << 10;

/// The text of the score in these bytes.
pub(super) fn text(bytes: &[u8]) -> Result<Cow<'_, str>, ReadError> {
    if bytes.len() > LARGEST_FILE {
        return Err(ReadError::FileTooLarge);
    }
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(ReadError::Empty);
    }
    if bytes.starts_with(b"PK") {
        let unpacked = unpack(bytes)?;
        return decode(&unpacked).map(|text| Cow::Owned(text.into_owned()));
    }
    decode(bytes)
}

fn unpack(bytes: &[u8]) -> Result<Vec<u8>, ReadError> {
    let mut zip = ZipArchive::new(Cursor::new(bytes)).map_err(|_| ReadError::DamagedZip)?;
    let mut candidates = named_scores(&mut zip);
    candidates.extend(likely_scores(&zip));
    candidates.truncate(MOST_CANDIDATES);
    let score = candidates.iter().copied().find(|index| begins_as_score(&mut zip, *index));
    let index = score.or(candidates.first().copied()).ok_or(ReadError::NoScoreInZip)?;
    entry(&mut zip, index, LARGEST_TEXT)
}

/// The entries that the container names and that are there.
fn named_scores(zip: &mut Packed) -> Vec<usize> {
    let container = zip.index_for_name(CONTAINER).and_then(|index| entry(zip, index, LARGEST_CONTAINER).ok());
    let Some(text) = container.as_deref().and_then(|container| decode(container).ok()) else { return Vec::new() };
    let Ok(document) = document::parse(&text) else { return Vec::new() };
    let rootfiles = document.descendants().filter(|node| node.has_tag_name("rootfile"));
    let scores = rootfiles.filter(|node| node.attribute("media-type").is_none_or(|kind| kind.contains("musicxml")));
    let paths = scores.filter_map(|node| node.attribute("full-path"));
    paths.filter_map(|path| zip.index_for_name(path.replace('\\', "/").trim_start_matches(['.', '/']))).collect()
}

/// The entries that are named like a score: what odd writers leave to be guessed.
fn likely_scores(zip: &Packed) -> impl Iterator<Item = usize> {
    (0..zip.len()).filter(|index| {
        let Some(Ok(name)) = zip.name_for_index(*index) else { return false };
        let name = name.to_ascii_lowercase();
        let named_so = name.ends_with(".musicxml") || name.ends_with(".xml");
        named_so && !name.starts_with("meta-inf/") && !name.contains("__macosx")
    })
}

/// Whether the head of an entry opens a score, in whatever encoding.
fn begins_as_score(zip: &mut Packed, index: usize) -> bool {
    let Ok(packed) = zip.by_index(index) else { return false };
    let mut head = Vec::new();
    // A damaged end is no matter here.
    let _ = packed.take(LONGEST_HEAD).read_to_end(&mut head);
    head.retain(|byte| *byte != 0);
    let head = String::from_utf8_lossy(&head);
    head.contains("<score-partwise") || head.contains("<score-timewise")
}

/// The unpacked bytes of one entry. Stops at `largest` bytes, whatever the entry says its size is.
fn entry(zip: &mut Packed, index: usize, largest: usize) -> Result<Vec<u8>, ReadError> {
    let packed = zip.by_index(index).map_err(|_| ReadError::DamagedZip)?;
    let mut bytes = Vec::new();
    packed.take(largest as u64 + 1).read_to_end(&mut bytes).map_err(|_| ReadError::DamagedZip)?;
    if bytes.len() > largest { Err(ReadError::UnpackedTooLarge) } else { Ok(bytes) }
}

/// The bytes as text: UTF-8 or UTF-16 by their mark or their first sign, Latin-1 where it is declared.
fn decode(bytes: &[u8]) -> Result<Cow<'_, str>, ReadError> {
    match bytes {
        [0xFF, 0xFE, rest @ ..] => utf16(rest, u16::from_le_bytes),
        [0xFE, 0xFF, rest @ ..] => utf16(rest, u16::from_be_bytes),
        [b'<', 0, ..] => utf16(bytes, u16::from_le_bytes),
        [0, b'<', ..] => utf16(bytes, u16::from_be_bytes),
        _ => match std::str::from_utf8(bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes)) {
            Ok(text) => Ok(text.into()),
            Err(_) if declares_latin1(bytes) => Ok(bytes.iter().map(|byte| char::from(*byte)).collect()),
            Err(_) => Err(ReadError::UnknownEncoding),
        },
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<Cow<'static, str>, ReadError> {
    let units = bytes.chunks_exact(2).map(|pair| unit([pair[0], pair[1]]));
    let text: Result<String, _> = char::decode_utf16(units).collect();
    text.map(Cow::Owned).map_err(|_| ReadError::UnknownEncoding)
}

fn declares_latin1(bytes: &[u8]) -> bool {
    let declaration = bytes.split(|byte| *byte == b'>').next().unwrap_or(bytes);
    let declaration = String::from_utf8_lossy(&declaration[..declaration.len().min(200)]).to_ascii_lowercase();
    ["iso-8859-1", "latin1", "latin-1", "windows-1252"].iter().any(|name| declaration.contains(name))
}
