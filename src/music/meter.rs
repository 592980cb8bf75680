//! Time signatures and the beats they are felt in.

use super::{BeatUnit, NoteValue, Quarters};
use std::{fmt, str::FromStr};

/// A time signature: `beats` over `unit`, as printed. Written as `6/8`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Meter {
    beats: u8,
    unit: u8,
}

impl Meter {
    /// Common time.
    pub const COMMON: Meter = Meter { beats: 4, unit: 4 };

    /// `beats` (1..=64) over `unit` (a power of two, 1..=64), or `None`.
    pub fn new(beats: u8, unit: u8) -> Option<Self> {
        ((1..=64).contains(&beats) && unit.is_power_of_two() && unit <= 64).then_some(Meter { beats, unit })
    }

    /// The upper figure.
    pub fn beats(self) -> u8 {
        self.beats
    }

    /// The lower figure: 4 stands for a quarter.
    pub fn unit(self) -> u8 {
        self.unit
    }

    /// The length of a whole bar.
    pub fn bar(self) -> Quarters {
        self.printed_unit() * i64::from(self.beats)
    }

    /// What the bar is felt in: three printed units together where the meter is compound (6, 9,
    /// 12, … over 8 or shorter), one printed unit otherwise.
    pub fn beat(self) -> BeatUnit {
        let compound = self.beats > 3 && self.beats.is_multiple_of(3) && self.unit >= 8;
        match (compound, self.unit) {
            (true, 8) => BeatUnit::new(NoteValue::Quarter, 1),
            (true, 16) => BeatUnit::new(NoteValue::Eighth, 1),
            (true, _) => BeatUnit::new(NoteValue::Sixteenth, 1),
            (false, 1) => BeatUnit::new(NoteValue::Whole, 0),
            (false, 2) => BeatUnit::new(NoteValue::Half, 0),
            (false, 4) => BeatUnit::new(NoteValue::Quarter, 0),
            (false, 8) => BeatUnit::new(NoteValue::Eighth, 0),
            (false, _) => BeatUnit::new(NoteValue::Sixteenth, 0),
        }
    }

    /// The beat of a bar whose tempo counts `unit`. The tempo's own unit, where whole units fill the
    /// bar and agree with how the meter is felt (either a part of [`Meter::beat`] or a multiple of it);
    /// the meter's beat otherwise. So 3/4 may go in dotted halves and 6/8 in eighths, but 6/8 never
    /// turns into three quarters and 5/8 is counted in eighths, which is right however it is grouped.
    pub fn felt_in(self, unit: BeatUnit) -> BeatUnit {
        let (counted, felt) = (unit.quarters(), self.beat().quarters());
        let fills = (self.bar() / counted).is_integer();
        let agrees = (felt / counted).is_integer() || (counted / felt).is_integer();
        if fills && agrees { unit } else { self.beat() }
    }

    fn printed_unit(self) -> Quarters {
        Quarters::new(4, i64::from(self.unit)).unwrap_or(Quarters::ONE)
    }
}

impl fmt::Display for Meter {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "{}/{}", self.beats, self.unit)
    }
}

/// A text that is no time signature.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAMeter(String);

impl fmt::Display for NotAMeter {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "“{}” is not a time signature; write it as 3/4 or 6/8", self.0)
    }
}

impl std::error::Error for NotAMeter {}

impl FromStr for Meter {
    type Err = NotAMeter;
    fn from_str(text: &str) -> Result<Self, NotAMeter> {
        text.split_once('/')
            .and_then(|(beats, unit)| Meter::new(beats.trim().parse().ok()?, unit.trim().parse().ok()?))
            .ok_or_else(|| NotAMeter(text.into()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn simple_meters_beat_in_their_unit_and_compound_ones_in_threes() {
        let beat = |text: &str| text.parse::<Meter>().expect("a meter").beat().quarters().to_string();
        assert_eq!(["3/4", "2/2", "3/8", "6/8", "9/16", "7/8"].map(beat), ["1", "2", "1/2", "3/2", "3/4", "1/2"]);
    }

    #[test]
    fn the_tempos_unit_is_the_beat_only_where_it_fits_the_bar() {
        let quarter = BeatUnit::QUARTER;
        let dotted_half = BeatUnit::new(NoteValue::Half, 1);
        let dotted_quarter = BeatUnit::new(NoteValue::Quarter, 1);
        let eighth = BeatUnit::new(NoteValue::Eighth, 0);
        let felt = |text: &str, unit| text.parse::<Meter>().expect("a meter").felt_in(unit);
        assert_eq!(felt("2/2", quarter), quarter);
        assert_eq!(felt("3/4", dotted_half), dotted_half);
        assert_eq!(felt("6/8", eighth), eighth);
        assert_eq!(felt("6/8", quarter), dotted_quarter);
        assert_eq!(felt("3/4", dotted_quarter), quarter);
        assert_eq!(felt("5/8", quarter), eighth);
    }
}
