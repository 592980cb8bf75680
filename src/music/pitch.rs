//! Spelled pitches: F♯ and G♭ are one key and two notes.

use std::fmt;

/// The seven letters, C lowest within an octave.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the names tell")]
pub enum Letter {
    C,
    D,
    E,
    F,
    G,
    A,
    B,
}

/// A pitch as written: letter, alteration in semitones and scientific octave (middle C is C4).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pitch {
    /// The note's name.
    pub letter: Letter,
    /// Semitones up (sharps) or down (flats), -3..=3 in practice.
    pub alter: i8,
    /// Scientific: 4 from middle C up to the next B.
    pub octave: i8,
}

impl Pitch {
    /// MIDI key number: middle C is 60.
    pub fn midi(self) -> i16 {
        let natural = [0, 2, 4, 5, 7, 9, 11][self.letter as usize];
        (i16::from(self.octave) + 1) * 12 + natural + i16::from(self.alter)
    }
}

impl fmt::Display for Pitch {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let sign = if self.alter < 0 { "♭" } else { "♯" };
        write!(f, "{:?}{}{}", self.letter, sign.repeat(usize::from(self.alter.unsigned_abs())), self.octave)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn middle_c_is_sixty_and_enharmonics_share_a_key() {
        let midi = |letter, alter, octave| Pitch { letter, alter, octave }.midi();
        assert_eq!(midi(Letter::C, 0, 4), 60);
        assert_eq!(midi(Letter::B, 1, 3), 60);
        assert_eq!(midi(Letter::F, 1, 5), midi(Letter::G, -1, 5));
    }
}
