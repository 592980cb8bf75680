//! How alike two passages are to the hands: the same hand, the same region of the keys, the same figure.
//!
//! A second melody like the first, played right after it, took away what the night would have added (Allen 2013), and
//! another sequence of keys in a rest made the rest's gain smaller (Simmons et al. 2019). The studies do not measure how
//! alike is too alike; the measure here is ours.

use crate::music::{Hand, Note, Onset, Passage, Quarters};

/// Passages at least so alike do not follow each other at once: half of the figure, in the same hand and region. Chosen.
pub const TOO_ALIKE: f64 = 0.5;
/// So many semitones apart two hands lie in different regions: an octave. Chosen.
const REGION: f64 = 12.0;

/// How alike two passages are, 0 to 1; a passage is like itself by 1.
pub fn likeness(one: &Passage, other: &Passage) -> f64 {
    let hands = [Hand::Left, Hand::Right, Hand::Line];
    hands.into_iter().map(|hand| Part::of(one, hand).likeness(&Part::of(other, hand))).sum()
}

/// How a hand gets from one onset to its next: by which interval, and after how long.
#[derive(Clone, Copy, PartialEq)]
struct Way {
    /// `None` where a pitch is not known.
    interval: Option<Interval>,
    after: Quarters,
}

/// Which way, and how far: 0 for the same key, ±1 a step, ±2 a third, ±3 up to a fifth, ±4 beyond.
#[derive(Clone, Copy, PartialEq)]
struct Interval(i16);

impl Interval {
    fn of(semitones: i16) -> Self {
        let size = match semitones.abs() {
            0 => 0,
            1..=2 => 1,
            3..=4 => 2,
            5..=7 => 3,
            _ => 4,
        };
        Interval(semitones.signum() * size)
    }
}

/// What one hand plays of a passage.
struct Part {
    /// Its share of all that hands play.
    share: f64,
    /// The mean of its keys, as a MIDI number, where all are known.
    region: Option<f64>,
    figure: Vec<Way>,
}

impl Part {
    fn of(passage: &Passage, hand: Hand) -> Part {
        let onsets: Vec<&Onset> = passage.onsets().iter().filter(|onset| onset.plays(hand)).collect();
        let all: usize = passage.onsets().iter().map(hands_at).sum();
        let keys: Option<Vec<i16>> = onsets.iter().map(|onset| highest(onset, hand)).collect();
        let way = |pair: &[&Onset]| {
            let keys = highest(pair[0], hand).zip(highest(pair[1], hand));
            Way { interval: keys.map(|(from, to)| Interval::of(to - from)), after: pair[1].at - pair[0].at }
        };
        let mean = |keys: Vec<i16>| keys.iter().copied().map(f64::from).sum::<f64>() / keys.len() as f64;
        Part {
            share: onsets.len() as f64 / all as f64,
            region: keys.filter(|keys| !keys.is_empty()).map(mean),
            figure: onsets.windows(2).map(way).collect(),
        }
    }

    fn likeness(&self, other: &Part) -> f64 {
        let region = match (self.region, other.region) {
            (Some(one), Some(other)) => (1.0 - (one - other).abs() / REGION).max(0.0),
            // Where only the rhythm is known, it alone tells.
            _ => 1.0,
        };
        self.share.min(other.share) * region * same_figure(&self.figure, &other.figure)
    }
}

fn hands_at(onset: &Onset) -> usize {
    [Hand::Left, Hand::Right, Hand::Line].into_iter().filter(|hand| onset.plays(*hand)).count()
}

/// The key on which a hand's line is heard; `None` where a pitch is not known.
fn highest(onset: &Onset, hand: Hand) -> Option<i16> {
    let notes = onset.notes.iter().filter(|note| note.hand == hand);
    notes.map(|Note { pitch, .. }| pitch.map(|pitch| pitch.midi())).max()?
}

/// How much of their ways two figures share, 0 to 1.
fn same_figure(one: &[Way], other: &[Way]) -> f64 {
    if one.is_empty() && other.is_empty() {
        return 1.0;
    }
    let share = |ways: &[Way], way: &Way| ways.iter().filter(|its| *its == way).count() as f64 / ways.len() as f64;
    let is_first = |index: usize| !one[..index].contains(&one[index]);
    let ways = one.iter().enumerate().filter(|(index, _)| is_first(*index)).map(|(_, way)| way);
    ways.filter(|way| other.contains(way)).map(|way| share(one, way).min(share(other, way))).sum()
}
