//! Tempo: how many beats of which note value a minute holds, and the traditional metronome scale.

use crate::music::Quarters;
use std::fmt;

/// The undotted note values a beat can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names tell")]
pub enum NoteValue {
    Whole,
    Half,
    Quarter,
    Eighth,
    Sixteenth,
}

/// The note value that a tempo counts: ♩, ♩., ♪, …
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct BeatUnit {
    /// Without its dots.
    pub value: NoteValue,
    /// 0, 1 or 2 in practice; each dot adds half of what came before.
    pub dots: u8,
}

impl BeatUnit {
    /// The plain quarter note.
    pub const QUARTER: BeatUnit = BeatUnit::new(NoteValue::Quarter, 0);

    /// A note value with its dots.
    pub const fn new(value: NoteValue, dots: u8) -> Self {
        BeatUnit { value, dots }
    }

    /// The length of one beat. More than three dots count as three.
    pub fn quarters(self) -> Quarters {
        let sixteenths = match self.value {
            NoteValue::Whole => 16,
            NoteValue::Half => 8,
            NoteValue::Quarter => 4,
            NoteValue::Eighth => 2,
            NoteValue::Sixteenth => 1,
        };
        let dotted = 1i64 << self.dots.min(3);
        Quarters::new(sixteenths * (2 * dotted - 1), 4 * dotted).unwrap_or(Quarters::ONE)
    }
}

/// Beats per minute, a whole number from 10 to 400.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Bpm(u16);

/// The traditional metronome scale, 39 marks (a convention; no standard was found).
pub const MARKS: [u16; 39] = [
    40, 42, 44, 46, 48, 50, 52, 54, 56, 58, 60, 63, 66, 69, 72, 76, 80, 84, 88, 92, 96, 100, 104, 108, 112, 116, 120,
    126, 132, 138, 144, 152, 160, 168, 176, 184, 192, 200, 208,
];

impl Bpm {
    /// Slowest tempo that is accepted.
    pub const MIN: Bpm = Bpm(10);
    /// Fastest tempo that is accepted.
    pub const MAX: Bpm = Bpm(400);

    /// `beats` per minute, or `None` outside 10..=400.
    pub fn new(beats: u16) -> Option<Self> {
        (Self::MIN.0..=Self::MAX.0).contains(&beats).then_some(Bpm(beats))
    }

    /// The nearest tempo that is accepted to `beats` per minute.
    pub fn nearest(beats: f64) -> Self {
        Bpm(beats.round().clamp(f64::from(Self::MIN.0), f64::from(Self::MAX.0)) as u16)
    }

    /// Beats per minute.
    pub fn get(self) -> u16 {
        self.0
    }

    /// The next mark below on the traditional scale; below the scale, a tenth slower.
    pub fn slower(self) -> Bpm {
        let mark = MARKS.iter().rev().find(|mark| **mark < self.0).copied();
        Bpm(mark.unwrap_or(self.0 - self.0 / 10).max(Self::MIN.0))
    }

    /// The next mark above on the traditional scale; above the scale, a tenth faster.
    pub fn faster(self) -> Bpm {
        let mark = MARKS.iter().find(|mark| **mark > self.0).copied();
        Bpm(mark.unwrap_or(self.0 + self.0 / 10).min(Self::MAX.0))
    }
}

/// A text or number that is not a tempo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotATempo(u16);

impl fmt::Display for NotATempo {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "{} beats per minute is out of range; give a number from 10 to 400", self.0)
    }
}

impl std::error::Error for NotATempo {}

impl TryFrom<u16> for Bpm {
    type Error = NotATempo;
    fn try_from(beats: u16) -> Result<Self, NotATempo> {
        Bpm::new(beats).ok_or(NotATempo(beats))
    }
}

impl fmt::Display for Bpm {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A tempo mark: `bpm` beats of `beat` a minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tempo {
    /// The note value that is counted.
    pub beat: BeatUnit,
    /// How many of them a minute holds.
    pub bpm: Bpm,
}

impl Tempo {
    /// Seconds that `length` lasts at this tempo.
    pub fn seconds(self, length: Quarters) -> f64 {
        let beats = length / self.beat.quarters();
        60.0 * *beats.numer() as f64 / (*beats.denom() as f64 * f64::from(self.bpm.0))
    }

    /// The same beat at another pace.
    pub fn at(self, bpm: Bpm) -> Tempo {
        Tempo { bpm, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tempo(value: NoteValue, dots: u8, bpm: u16) -> Tempo {
        Tempo { beat: BeatUnit::new(value, dots), bpm: Bpm::new(bpm).expect("in range") }
    }

    /// Arithmetic: milliseconds = 60000 / (bpm × notes a beat).
    #[test]
    fn note_lengths_follow_from_the_tempo() {
        let ms = |tempo: Tempo, n, d| 1000.0 * tempo.seconds(Quarters::new(n, d).expect("in bounds"));
        let quarter_120 = tempo(NoteValue::Quarter, 0, 120);
        assert_eq!(ms(quarter_120, 1, 1), 500.0);
        assert_eq!(ms(quarter_120, 1, 2), 250.0);
        assert_eq!(ms(quarter_120, 1, 4), 125.0);
        assert!((ms(quarter_120, 1, 3) - 166.667).abs() < 1e-3);
        assert!((ms(tempo(NoteValue::Quarter, 0, 72), 1, 1) - 833.333).abs() < 1e-3);
        assert_eq!(ms(tempo(NoteValue::Quarter, 1, 60), 3, 2), 1000.0);
        assert_eq!(ms(tempo(NoteValue::Quarter, 1, 60), 1, 2), 1000.0 / 3.0);
    }

    /// The scale's step rule: +2 to 60, +3 to 72, +4 to 120, +6 to 144, +8 to 208.
    #[test]
    fn the_metronome_scale_climbs_by_its_traditional_steps() {
        let mut mark = Bpm::new(40).expect("in range");
        for (end, step) in [(60, 2), (72, 3), (120, 4), (144, 6), (208, 8)] {
            while mark.get() < end {
                let next = mark.faster();
                assert_eq!(next.get() - mark.get(), step);
                assert_eq!(next.slower(), mark);
                mark = next;
            }
        }
        assert_eq!(mark.get(), MARKS[38]);
    }

    #[test]
    fn slower_and_faster_never_leave_the_accepted_tempi() {
        let (mut slow, mut fast) = (Bpm::MIN, Bpm::MAX);
        (slow, fast) = (slow.slower(), fast.faster());
        assert_eq!((slow, fast), (Bpm::MIN, Bpm::MAX));
        assert!((10..400).all(|bpm| Bpm(bpm).faster() > Bpm(bpm)));
    }
}
