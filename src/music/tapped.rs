//! A rhythm tapped to the pulse, quantised to the grid that explains it best.

mod figures;

use crate::{
    music::{Bar, BeatUnit, Hand, Meter, Note, Onset, Passage, Quarters, Tempo},
    sort,
};
use figures::{Group, PARTS, Placed};

/// Taps of two hands this close, in seconds, begin together. Skilled pianists play the melody about
/// 30 ms ahead of what is written with it (Goebl 2001, abstract, at the strings).
const TOGETHER: f64 = 0.030;
/// Most taps that are quantised at once.
const MOST_TAPS: usize = 512;
/// Longest rhythm that is quantised, in seconds.
const LONGEST: f64 = 300.0;

/// One tap on the pad of one hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tap {
    /// From the pulse's first beat; negative for a pickup tapped in the count-in.
    pub seconds: f64,
    /// Whose pad it was.
    pub hand: Hand,
}

/// Why taps make no rhythm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TappedError {
    /// No tap at all.
    Nothing,
    /// More than 512 taps, or more than five minutes.
    TooLong,
    /// More onsets in a beat than the grid holds.
    TooFast,
}

impl std::error::Error for TappedError {}

/// Taps brought to the grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Tapped {
    passage: Passage,
    onsets: Vec<Placed>,
    meter: Meter,
    grid: DividedBeat,
    late: f64,
}

/// The beat that is divided.
#[derive(Clone, Copy, Debug, PartialEq)]
struct DividedBeat {
    beat: Quarters,
    /// What it lasts.
    seconds: f64,
}

/// Which way an onset is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nudge {
    /// To the place before.
    Earlier,
    /// To the place after.
    Later,
}

/// The rhythm that explains `taps` best in `meter` at `tempo`: every beat may be divided into 1, 2 or 4 or into 3 or 6,
/// the simpler the likelier; a constant lateness or earliness is taken into account. Bars before the first onset are
/// left out. Taps that are no time at all are ignored.
///
/// # Errors
/// A [`TappedError`] where there is nothing, more than 512 taps or five minutes, or more than the grid holds.
pub fn quantise(taps: &[Tap], meter: Meter, tempo: Tempo) -> Result<Tapped, TappedError> {
    let mut taps: Vec<Tap> = taps.iter().filter(|tap| tap.seconds.is_finite()).copied().collect();
    sort::by(&mut taps, |a, b| a.seconds.total_cmp(&b.seconds));
    let (first, last) = taps.first().zip(taps.last()).ok_or(TappedError::Nothing)?;
    if taps.len() > MOST_TAPS || first.seconds.abs().max(last.seconds.abs()) > LONGEST {
        return Err(TappedError::TooLong);
    }
    let grid = DividedBeat::new(meter, tempo);
    let fit = figures::fit(&groups(&taps), grid.seconds, grid.is_compound()).ok_or(TappedError::TooFast)?;
    Tapped::new(fit.onsets, meter, grid, fit.late).ok_or(TappedError::TooLong)
}

impl Tapped {
    fn new(mut onsets: Vec<Placed>, meter: Meter, grid: DividedBeat, late: f64) -> Option<Self> {
        let bar_of = |place: i64| (grid.at(place) / meter.bar()).floor().to_integer();
        let empty = meter.bar() * bar_of(onsets.first()?.place);
        let shift = (empty / grid.beat * PARTS).to_integer();
        onsets.iter_mut().for_each(|onset| onset.place -= shift);
        let bars = (0..=bar_of(onsets.last()?.place)).map(|n| Bar {
            number: (n + 1).to_string(),
            start: meter.bar() * n,
            length: meter.bar(),
            meter,
            missing: Quarters::ZERO,
        });
        let passage = Passage::new(bars.collect(), written(&onsets, grid)).ok()?;
        Some(Tapped { passage, onsets, meter, grid, late })
    }

    /// The rhythm as a passage: each note lasts until the next onset of its hand, the last a beat.
    pub fn passage(&self) -> &Passage {
        &self.passage
    }

    /// How late the player tapped throughout, in milliseconds; negative for early. It includes the latency of the
    /// device.
    pub fn late_ms(&self) -> f64 {
        1000.0 * self.late
    }

    /// How far each onset was from its place when that is taken off, in milliseconds, late positive.
    pub fn errors_ms(&self) -> Vec<f64> {
        self.onsets.iter().map(|onset| 1000.0 * onset.error).collect()
    }

    /// The root mean square of [`Tapped::errors_ms`].
    pub fn error_ms(&self) -> f64 {
        let errors = self.errors_ms();
        (errors.iter().map(|error| error * error).sum::<f64>() / errors.len() as f64).sqrt()
    }

    /// The same rhythm with one onset on the next place of the grid (quarters and sixths of a beat),
    /// or `None` where another onset or the beginning is in the way.
    pub fn nudged(&self, index: usize, nudge: Nudge) -> Option<Tapped> {
        let mut onsets = self.onsets.clone();
        let place = onsets.get(index)?.place;
        let moved = match nudge {
            Nudge::Earlier => (0..place).rev().find(|place| figures::on_grid(*place))?,
            Nudge::Later => (place + 1..).find(|place| figures::on_grid(*place))?,
        };
        if onsets.iter().any(|onset| onset.place == moved) {
            return None;
        }
        onsets[index].error -= (moved - place) as f64 / PARTS as f64 * self.grid.seconds;
        onsets[index].place = moved;
        Tapped::new(onsets, self.meter, self.grid, self.late)
    }
}

impl DividedBeat {
    /// The beat the meter is felt in, or a part of it where that is longer than a dotted quarter.
    fn new(meter: Meter, tempo: Tempo) -> Self {
        let longest = BeatUnit::new(crate::music::NoteValue::Quarter, 1).quarters();
        let felt = [meter.felt_in(tempo.beat), meter.beat()].map(BeatUnit::quarters);
        let beat = felt.into_iter().find(|beat| *beat <= longest).unwrap_or(Quarters::ONE);
        DividedBeat { beat, seconds: tempo.seconds(beat) }
    }

    /// Whether the beat divides into three by itself.
    fn is_compound(self) -> bool {
        self.beat.numerator() % 3 == 0
    }

    fn at(self, place: i64) -> Quarters {
        self.beat * place / PARTS
    }
}

/// Neighbouring taps that certainly begin together. A second tap of the same hand is a bounce.
fn groups(taps: &[Tap]) -> Vec<Group> {
    let mut groups: Vec<Vec<Tap>> = Vec::new();
    for tap in taps {
        match groups.last_mut() {
            Some(group) if tap.seconds - group[0].seconds <= TOGETHER => group.push(*tap),
            _ => groups.push(vec![*tap]),
        }
    }
    groups.into_iter().map(|taps| group(&taps)).collect()
}

fn group(taps: &[Tap]) -> Group {
    let mut hands: Vec<Hand> = taps.iter().map(|tap| tap.hand).collect();
    sort::by_key(&mut hands, |hand| *hand);
    hands.dedup();
    Group { seconds: taps.iter().map(|tap| tap.seconds).sum::<f64>() / taps.len() as f64, hands }
}

/// The onsets with their notes.
fn written(onsets: &[Placed], grid: DividedBeat) -> Vec<Onset> {
    let lasts = |index: usize, hand: &Hand| {
        let next = onsets[index + 1..].iter().find(|onset| onset.hands.contains(hand));
        grid.at(next.map_or(PARTS, |next| next.place - onsets[index].place))
    };
    let onset = |(index, placed): (usize, &Placed)| Onset {
        at: grid.at(placed.place),
        notes: placed.hands.iter().map(|hand| Note::unpitched(*hand, lasts(index, hand))).collect(),
        dynamic: None,
    };
    onsets.iter().enumerate().map(onset).collect()
}
