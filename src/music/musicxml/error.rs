//! Why a file is no score that can be read.

use std::fmt;

/// What stopped the reading: each prints as one sentence that names the place and says what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadError {
    Empty,
    FileTooLarge,
    UnpackedTooLarge,
    DamagedZip,
    NoScoreInZip,
    UnknownEncoding,
    DamagedXml { line: u32 },
    OwnEntities { line: u32 },
    NotAScore,
    OtherFile(FileKind),
    NoNotes,
    TooManyBars,
    TooManyNotes,
    TooManyElements,
}

/// What a file is that is no score, told by its first bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    Pdf,
    Picture,
    Midi,
    Gzip,
}

/// Largest file that is opened, in bytes.
pub const LARGEST_FILE: usize = 10 << 20;
/// Largest text that is unpacked from a file, in bytes.
pub const LARGEST_TEXT: usize = 64 << 20;
/// Most bars that are read, all parts together.
pub const MOST_BARS: usize = 100_000;
/// Most notes and rests that are read, all parts together.
pub const MOST_NOTES: usize = 500_000;
/// Most elements and texts that are read: what the largest text needs if its elements are of the usual length.
pub(super) const MOST_ELEMENTS: usize = 4_000_000;

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            ReadError::Empty => f.write_str("the file is empty; export the score again and choose the new file"),
            ReadError::FileTooLarge => {
                write!(f, "the file is larger than {} MiB; export only the part you play", LARGEST_FILE >> 20)
            }
            ReadError::UnpackedTooLarge => {
                write!(f, "the score unpacks to more than {} MiB; export only the part you play", LARGEST_TEXT >> 20)
            }
            ReadError::DamagedZip => f.write_str(
                "the packed file is damaged or locked; export the score again, packed (.mxl) or not (.musicxml)",
            ),
            ReadError::NoScoreInZip => {
                f.write_str("the packed file holds no score; choose an .mxl file made from a score")
            }
            ReadError::UnknownEncoding => {
                f.write_str("the letters of the file cannot be told; export the score as MusicXML in UTF-8")
            }
            ReadError::DamagedXml { line } => {
                write!(f, "the score is damaged at line {line}; export it again from the program that wrote it")
            }
            ReadError::OwnEntities { line } => {
                write!(f, "line {line} declares entities, which no score needs; export it as plain MusicXML")
            }
            ReadError::NotAScore => {
                f.write_str("this is not a MusicXML score; choose a file that ends in .musicxml, .xml or .mxl")
            }
            ReadError::OtherFile(kind) => f.write_str(match kind {
                FileKind::Pdf => {
                    "this is a PDF, which shows pages and holds no notes; export the score as MusicXML from the program \
                     that wrote it"
                }
                FileKind::Picture => {
                    "this is a picture, which holds no notes; choose the score itself, exported as MusicXML"
                }
                FileKind::Midi => {
                    "this is a MIDI file, which holds keys and times and no notation; export the score as MusicXML"
                }
                FileKind::Gzip => "this file is packed with gzip; unpack it and choose the score inside",
            }),
            ReadError::NoNotes => f.write_str("the score holds no notes in any of its parts; choose another score"),
            ReadError::TooManyBars => {
                write!(f, "the score has more than {MOST_BARS} bars; export only the part you play")
            }
            ReadError::TooManyNotes => {
                write!(f, "the score has more than {MOST_NOTES} notes; export only the part you play")
            }
            ReadError::TooManyElements => {
                write!(f, "the file has more than {MOST_ELEMENTS} elements; export only the part you play")
            }
        }
    }
}

impl std::error::Error for ReadError {}
