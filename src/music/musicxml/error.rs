//! Why a file is no score that can be read.

/// What stopped the reading: each prints as one sentence that names the place and says what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "`words/errors.rs` has the sentence of each")]
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
#[expect(missing_docs, reason = "the names tell")]
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
pub const MOST_ELEMENTS: usize = 4_000_000;

impl std::error::Error for ReadError {}
