//! Places in the row of letters.

use crate::music::{Pitch, pitch::Letter};

/// A place in the row of letters, counted from C0: middle C is 28. One more is one line or space higher.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Diatonic(pub i16);

impl Diatonic {
    /// The place of a letter in a scientific octave: middle C is C4.
    pub fn of(letter: Letter, octave: i8) -> Self {
        Diatonic(7 * i16::from(octave) + letter as i16)
    }
}

impl From<Pitch> for Diatonic {
    fn from(pitch: Pitch) -> Self {
        Diatonic::of(pitch.letter, pitch.octave)
    }
}
