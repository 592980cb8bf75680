//! MusicXML in: from the bytes of a file to a score, with a list of what was mended or left out.
//!
//! Reads MusicXML 4.0 and older, by part or by measure, plain or packed. Any bytes give either a score or a sentence
//! that says why not, in bounded time and memory. Pitches are kept as the file gives them: as written for instruments
//! that transpose, sounding under an octave sign.
//!
//! Source: W3C Music Notation Community Group, MusicXML 4.0 (final report, 2021).

mod attributes;
mod bar;
mod barlines;
mod clefs;
mod container;
mod counting;
mod cursor;
mod directions;
mod document;
mod error;
mod events;
mod lengths;
mod long_bars;
mod mended;
mod part;
mod printed;
mod signs;
mod spanners;
mod staff_text;
mod ties;
mod tuplets;
mod voices;

pub use error::{FileKind, LARGEST_FILE, LARGEST_TEXT, MOST_BARS, MOST_ELEMENTS, MOST_NOTES, ReadError};
pub use mended::{Mend, Mended};

use crate::music::score::Score;

/// A score as it was understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// What the file says, as far as it can be read.
    pub score: Score,
    /// What differs from the file, each kind once.
    pub mended: Vec<Mended>,
}

/// How many hundredths of the work are done when the text is there, and when it is a tree: what the middle of large
/// scores takes.
const UNPACKED: u8 = 10;
const PARSED: u8 = 45;

/// Reads a score from the bytes of a `.musicxml`, `.xml` or `.mxl` file.
///
/// # Errors
/// A [`ReadError`] that says where the reading stopped and what to do.
pub fn read(bytes: &[u8]) -> Result<Reading, ReadError> {
    read_telling(bytes, &mut |_| {})
}

/// Like [`read`], but reports progress in hundredths.
///
/// # Errors
/// As [`read`].
pub fn read_telling(bytes: &[u8], tell: &mut dyn FnMut(u8)) -> Result<Reading, ReadError> {
    let text = container::text(bytes)?;
    tell(UNPACKED);
    let document = document::parse(&text)?;
    tell(PARSED);
    let root = document.root_element();
    let measures = document::parts(root)?;
    let count = measures.iter().map(|part| part.measures.len()).sum::<usize>();
    if count > MOST_BARS {
        return Err(ReadError::TooManyBars);
    }
    let mut bars_read = 0;
    let mut tell_bar = || {
        bars_read += 1;
        tell(PARSED + (bars_read * usize::from(100 - PARSED) / count) as u8);
    };
    let (mut mending, mut notes_read) = (mended::Mending::default(), 0);
    let (mut parts, mut tempi) = (Vec::new(), part::TempoMarks::new());
    for measures in measures.iter().filter(|part| !part.measures.is_empty()) {
        parts.push(part::part(measures, &mut mending, &mut notes_read, &mut tempi, &mut tell_bar)?);
    }
    for part in &mut parts {
        part::set_tempi(&mut part.bars, &tempi);
        long_bars::divide(part, &mut mending);
    }
    if parts.iter().flat_map(|part| &part.bars).all(|bar| bar.attacks.is_empty()) {
        return Err(ReadError::NoNotes);
    }
    let score = Score { title: document::title(root), composer: document::composer(root), parts };
    Ok(Reading { score, mended: mending.finish() })
}
