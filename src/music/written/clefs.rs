//! Clefs, and the place of the lines that they name.

use crate::music::{Quarters, pitch::Letter, written::diatonic::Diatonic};

/// A clef: its sign, the line it names (1 is the lowest) and the octaves it is moved by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clef {
    /// Its shape.
    pub sign: ClefSign,
    /// The line it names: 1 is the lowest, at most 5.
    pub line: u8,
    /// 1 sounds an octave higher than printed, -1 an octave lower.
    pub octaves: i8,
}

/// The shape of a clef, named after the letter whose line it marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClefSign {
    /// G above middle C.
    G,
    /// F below middle C.
    F,
    /// Middle C.
    C,
    /// Two upright strokes: no pitches.
    Percussion,
}

impl Clef {
    /// The usual clef of the right hand.
    pub const TREBLE: Clef = Clef { sign: ClefSign::G, line: 2, octaves: 0 };
    /// The usual clef of the left hand.
    pub const BASS: Clef = Clef { sign: ClefSign::F, line: 4, octaves: 0 };
    /// The clef of instruments without pitch.
    pub const PERCUSSION: Clef = Clef { sign: ClefSign::Percussion, line: 3, octaves: 0 };

    /// The diatonic place of the lowest line.
    pub fn lowest_line(self) -> Diatonic {
        let named = match self.sign {
            ClefSign::G | ClefSign::Percussion => Diatonic::of(Letter::G, 4),
            ClefSign::F => Diatonic::of(Letter::F, 3),
            ClefSign::C => Diatonic::of(Letter::C, 4),
        };
        // Without pitches the middle line is the middle line of the treble clef.
        let line = if self.sign == ClefSign::Percussion { 2 } else { self.line };
        Diatonic(named.0 + 7 * i16::from(self.octaves) - 2 * (i16::from(line) - 1))
    }
}

/// A clef that stands in a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClefChange {
    /// From the start of the bar.
    pub at: Quarters,
    /// 1 is the uppermost.
    pub staff: u8,
    /// In force from there.
    pub clef: Clef,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lowest_lines_are_those_of_the_common_clefs() {
        let line = |sign, line, octaves| Clef { sign, line, octaves }.lowest_line();
        assert_eq!(line(ClefSign::G, 2, 0), Diatonic::of(Letter::E, 4));
        assert_eq!(line(ClefSign::F, 4, 0), Diatonic::of(Letter::G, 2));
        assert_eq!(line(ClefSign::C, 3, 0), Diatonic::of(Letter::F, 3));
        assert_eq!(line(ClefSign::C, 4, 0), Diatonic::of(Letter::D, 3));
        assert_eq!(line(ClefSign::G, 2, -1), Diatonic::of(Letter::E, 3));
    }
}
