//! Score files, kept as they came in so that more can be read from them later.

use crate::journal::limits;
use base64::{Engine, prelude::BASE64_STANDARD};
use miniz_oxide::{deflate::compress_to_vec, inflate::decompress_to_vec_with_limit};
use std::rc::Rc;

/// The score file a piece came from: deflated (RFC 1951) and written in base 64 (RFC 4648).
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreFile {
    /// As it was called on the device.
    pub name: String,
    /// The file, at most [`limits::SCORE_CHARS`] characters.
    pub deflated: Rc<str>,
}

/// Longest file that is unpacked again, in bytes.
const MOST_UNPACKED: usize = 10 << 20;
/// Compression effort, from 0 to 9.
const EFFORT: u8 = 9;

/// Why a score file is not available.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScoreFileError {
    /// More than [`limits::SCORE_CHARS`] characters even when it is deflated.
    TooLargeToKeep,
    /// What was kept cannot be unpacked.
    Damaged,
}

impl std::error::Error for ScoreFileError {}

impl ScoreFile {
    /// Packs a file.
    ///
    /// # Errors
    /// [`ScoreFileError::TooLargeToKeep`] where even packed it would crowd out the journal.
    pub fn pack(name: String, bytes: &[u8]) -> Result<ScoreFile, ScoreFileError> {
        let deflated = BASE64_STANDARD.encode(compress_to_vec(bytes, EFFORT));
        if deflated.len() > limits::SCORE_CHARS {
            return Err(ScoreFileError::TooLargeToKeep);
        }
        Ok(ScoreFile { name, deflated: deflated.into() })
    }

    /// The file's name without its ending: what a score is called that names itself nothing.
    pub fn stem(&self) -> &str {
        match self.name.rsplit_once('.') {
            Some((stem, _)) if !stem.is_empty() => stem,
            _ => &self.name,
        }
    }

    /// The file as it came in.
    ///
    /// # Errors
    /// [`ScoreFileError::Damaged`] where it cannot be restored.
    pub fn unpack(&self) -> Result<Vec<u8>, ScoreFileError> {
        let packed = BASE64_STANDARD.decode(self.deflated.as_bytes()).map_err(|_| ScoreFileError::Damaged)?;
        decompress_to_vec_with_limit(&packed, MOST_UNPACKED).map_err(|_| ScoreFileError::Damaged)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_score_without_a_title_is_called_as_its_file() {
        let stem = |name: &str| ScoreFile { name: name.into(), deflated: "".into() }.stem().to_string();
        assert_eq!(["Evening Waltz.mxl", "waltz", ".mxl"].map(stem), ["Evening Waltz", "waltz", ".mxl"]);
    }

    #[test]
    fn a_kept_score_comes_back_as_it_was() {
        let file = ScoreFile::pack("study.musicxml".into(), b"<score/>".repeat(1000).as_slice()).expect("small");
        assert_eq!(file.unpack(), Ok(b"<score/>".repeat(1000)));
        assert!(file.deflated.len() < 200);
    }
}
