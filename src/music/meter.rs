//! Time signatures and the beats they are felt in.

use crate::music::{BeatUnit, Bpm, NoteValue, Quarters, Tempo};
use std::{fmt, str::FromStr};

/// A time signature as printed: beats over a unit. An additive one names its groups of beats one by one. Written as
/// `6/8` or `3+2/8`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Meter {
    /// Beats of each group, then zeros; a plain meter is one group.
    groups: [u8; MOST_GROUPS],
    unit: u8,
}

/// Most groups of an additive meter: far more than are printed.
const MOST_GROUPS: usize = 8;

impl Meter {
    /// Common time.
    pub const COMMON: Meter = Meter { groups: [4, 0, 0, 0, 0, 0, 0, 0], unit: 4 };

    /// `beats` (1..=64) over `unit` (a power of two, 1..=64), or `None`.
    pub fn new(beats: u8, unit: u8) -> Option<Self> {
        Meter::additive(&[beats], unit)
    }

    /// Groups of beats (1..=8 groups, 1..=64 beats in all) over `unit` (a power of two, 1..=64), or `None`.
    pub fn additive(groups: &[u8], unit: u8) -> Option<Self> {
        let mut padded = [0; MOST_GROUPS];
        padded.get_mut(..groups.len())?.copy_from_slice(groups);
        let beats: u32 = groups.iter().map(|beats| u32::from(*beats)).sum();
        let is_meter = (1..=64).contains(&beats) && !groups.contains(&0) && unit.is_power_of_two() && unit <= 64;
        is_meter.then_some(Meter { groups: padded, unit })
    }

    /// Beats of each group: one group except for an additive meter.
    pub fn groups(&self) -> &[u8] {
        let count = self.groups.iter().position(|beats| *beats == 0).unwrap_or(MOST_GROUPS);
        &self.groups[..count]
    }

    /// The upper figure; the sum of an additive meter.
    pub fn beats(self) -> u8 {
        self.groups.iter().sum()
    }

    /// The lower figure: 4 stands for a quarter.
    pub fn unit(self) -> u8 {
        self.unit
    }

    /// The length of a whole bar.
    pub fn bar(self) -> Quarters {
        self.printed_unit() * i64::from(self.beats())
    }

    /// Where each group begins, from the start of the bar: the bar's start except for an additive meter.
    pub fn group_starts(&self) -> impl Iterator<Item = Quarters> {
        let begins = |before: &mut i64, beats: &u8| {
            let begins = *before;
            *before += i64::from(*beats);
            Some(self.printed_unit() * begins)
        };
        self.groups().iter().scan(0, begins)
    }

    /// What the bar is felt in: three printed units together where the meter is compound (6, 9,
    /// 12, … over 8 or shorter), one printed unit otherwise, and in an additive meter always.
    pub fn beat(self) -> BeatUnit {
        let beats = self.beats();
        let compound = self.groups().len() == 1 && beats > 3 && beats.is_multiple_of(3) && self.unit >= 8;
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
    /// bar (each group of an additive one) and agree with how the meter is felt (either a part of [`Meter::beat`] or a multiple of it);
    /// the meter's beat otherwise. So 3/4 may go in dotted halves and 6/8 in eighths, but 6/8 never
    /// turns into three quarters and 5/8 is counted in eighths, which is right however it is grouped.
    pub fn felt_in(self, unit: BeatUnit) -> BeatUnit {
        let (counted, felt) = (unit.quarters(), self.beat().quarters());
        let ends = self.group_starts().skip(1).chain([self.bar()]);
        let fills = ends.into_iter().all(|end| (end / counted).is_integer());
        let agrees = (felt / counted).is_integer() || (counted / felt).is_integer();
        if fills && agrees { unit } else { self.beat() }
    }

    /// A tempo counted in the beat in which this meter is felt, to the nearest whole number: the pace stays, 108
    /// quarters in 6/8 are 72 dotted quarters.
    pub fn felt(self, tempo: Tempo) -> Tempo {
        let beat = self.felt_in(tempo.beat);
        let beats = tempo.beat.quarters() / beat.quarters();
        let bpm = f64::from(tempo.bpm.get()) * *beats.numer() as f64 / *beats.denom() as f64;
        Tempo { beat, bpm: Bpm::nearest(bpm) }
    }

    fn printed_unit(self) -> Quarters {
        Quarters::new(4, i64::from(self.unit)).unwrap_or(Quarters::ONE)
    }
}

impl fmt::Display for Meter {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        for (nth, beats) in self.groups().iter().enumerate() {
            write!(f, "{}{beats}", if nth > 0 { "+" } else { "" })?;
        }
        write!(f, "/{}", self.unit)
    }
}

/// A text that is no time signature.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAMeter(pub String);

impl std::error::Error for NotAMeter {}

impl FromStr for Meter {
    type Err = NotAMeter;
    fn from_str(text: &str) -> Result<Self, NotAMeter> {
        let meter = |(groups, unit): (&str, &str)| {
            let groups: Result<Vec<u8>, _> = groups.split('+').map(|beats| beats.trim().parse()).collect();
            Meter::additive(&groups.ok()?, unit.trim().parse().ok()?)
        };
        text.split_once('/').and_then(meter).ok_or_else(|| NotAMeter(text.into()))
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

    /// Arithmetic: 108 × 1 = 72 × 3/2.
    #[test]
    fn a_tempo_keeps_its_pace_in_the_beat_that_is_felt() {
        let tempo = |unit, bpm| Tempo { beat: unit, bpm: Bpm::nearest(bpm) };
        let dotted = BeatUnit::new(NoteValue::Quarter, 1);
        let felt = |text: &str, tempo| text.parse::<Meter>().expect("a meter").felt(tempo);
        assert_eq!(felt("6/8", tempo(BeatUnit::QUARTER, 108.0)), tempo(dotted, 72.0));
        assert_eq!(felt("6/8", tempo(dotted, 52.0)), tempo(dotted, 52.0));
        assert_eq!(felt("3/4", tempo(dotted, 60.0)), tempo(BeatUnit::QUARTER, 90.0));
        assert_eq!(felt("4/4", tempo(BeatUnit::QUARTER, 100.0)), tempo(BeatUnit::QUARTER, 100.0));
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

    #[test]
    fn an_additive_meter_keeps_its_groups_and_is_counted_in_its_unit() {
        let meter: Meter = "3+2/8".parse().expect("a meter");
        assert_eq!((meter.beats(), meter.groups(), meter.to_string()), (5, [3, 2].as_slice(), "3+2/8".into()));
        assert_eq!(meter.group_starts().map(|start| start.to_string()).collect::<Vec<_>>(), ["0", "3/2"]);
        let eighth = BeatUnit::new(NoteValue::Eighth, 0);
        assert_eq!([meter.beat(), meter.felt_in(BeatUnit::QUARTER), meter.felt_in(eighth)], [eighth; 3]);
        assert_eq!("3+3/8".parse().map(Meter::beat), Ok(eighth));
        let bad = ["3+/8", "+2/8", "0+3/8", "60+5/8", "1+1+1+1+1+1+1+1+1/8"];
        assert!(bad.iter().all(|text| text.parse::<Meter>().is_err()));
    }
}
