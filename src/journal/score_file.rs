//! Score files, kept as they came in so that more can be read from them later.
//!
//! Refuses to know what is in them.

use base64::{Engine, prelude::BASE64_STANDARD};
use flate2::{Compression, bufread::DeflateDecoder, bufread::DeflateEncoder};
use serde::{Deserialize, Serialize};
use std::{fmt, io::Read, rc::Rc};

/// The score file a piece came from: deflated (RFC 1951) and written in base 64 (RFC 4648).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScoreFile {
    /// As it was called on the device.
    pub name: String,
    pub deflated: Rc<str>,
}

/// Longest text that is kept of a file, in characters: the browser's store holds some five million
/// for everything.
const MOST_KEPT: usize = 600_000;
/// Longest file that is unpacked again, in bytes.
const MOST_UNPACKED: u64 = 10 << 20;

/// Why a score file is not to be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScoreFileError {
    TooLargeToKeep,
    Damaged,
}

impl fmt::Display for ScoreFileError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            ScoreFileError::TooLargeToKeep => "this score is too large to keep; export only the movement you play",
            ScoreFileError::Damaged => "the kept score is damaged; choose its file again",
        })
    }
}

impl std::error::Error for ScoreFileError {}

impl ScoreFile {
    /// Packs a file.
    ///
    /// # Errors
    /// [`ScoreFileError::TooLargeToKeep`] where even packed it would crowd out the journal.
    pub fn pack(name: String, bytes: &[u8]) -> Result<ScoreFile, ScoreFileError> {
        let mut packed = Vec::new();
        DeflateEncoder::new(bytes, Compression::best())
            .read_to_end(&mut packed)
            .map_err(|_| ScoreFileError::TooLargeToKeep)?;
        let deflated = BASE64_STANDARD.encode(packed);
        if deflated.len() > MOST_KEPT {
            return Err(ScoreFileError::TooLargeToKeep);
        }
        Ok(ScoreFile { name, deflated: deflated.into() })
    }

    /// The file as it came in.
    ///
    /// # Errors
    /// [`ScoreFileError::Damaged`] where it cannot be had back.
    pub fn unpack(&self) -> Result<Vec<u8>, ScoreFileError> {
        let packed = BASE64_STANDARD.decode(self.deflated.as_bytes()).map_err(|_| ScoreFileError::Damaged)?;
        let mut bytes = Vec::new();
        let read = DeflateDecoder::new(packed.as_slice()).take(MOST_UNPACKED + 1).read_to_end(&mut bytes);
        match read {
            Ok(length) if length as u64 <= MOST_UNPACKED => Ok(bytes),
            _ => Err(ScoreFileError::Damaged),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kept_score_comes_back_as_it_was() {
        let file = ScoreFile::pack("study.musicxml".into(), b"<score/>".repeat(1000).as_slice()).expect("small");
        assert_eq!(file.unpack(), Ok(b"<score/>".repeat(1000)));
        assert!(file.deflated.len() < 200);
    }
}
