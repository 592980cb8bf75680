//! Many stories summed up: medians with their intervals, shares, calibration.

use super::family::Family;
use super::policy::Policy;
use super::practice::{LEVEL, Story, practise};
use std::{rc::Rc, thread};
use tailfirst::method::Snippet;

/// Processors used at a time.
const AT_A_TIME: u64 = 2;

/// The stories of players `0..players` of `family`, each by a policy of its own.
pub fn stories<F>(family: Family, players: u64, begin: F) -> Vec<Story>
where
    F: Fn(&Rc<Snippet>) -> Box<dyn Policy> + Sync,
{
    let part = |first: u64| -> Vec<Story> {
        (first..players).step_by(AT_A_TIME as usize).map(|number| practise(family, number, &begin)).collect()
    };
    thread::scope(|scope| {
        let parts: Vec<_> = (0..AT_A_TIME).map(|first| scope.spawn(move || part(first))).collect();
        parts.into_iter().flat_map(|part| part.join().expect("a part ends")).collect()
    })
}

/// A median and an interval that holds it with a probability of at least 95 %.
#[derive(Clone, Copy, Debug)]
pub struct Median {
    pub value: f64,
    pub low: f64,
    pub high: f64,
}

impl Median {
    /// The interval ends at the values whose ranks are as far from the middle as a fair coin's heads may be
    /// (the sign test's interval, in its normal approximation).
    pub fn of(values: impl Iterator<Item = f64>) -> Self {
        let mut values: Vec<f64> = values.collect();
        values.sort_by(f64::total_cmp);
        let (middle, reach) = (values.len() as f64 / 2.0, 0.98 * (values.len() as f64).sqrt());
        let ranked = |rank: f64| values[(rank.max(0.0) as usize).min(values.len() - 1)];
        Median { value: ranked(middle), low: ranked(middle - reach), high: ranked(middle + reach) }
    }
}

/// What came of one way to practise for one family.
#[derive(Clone, Debug)]
pub struct Tally {
    pub minutes: Median,
    pub repetitions: Median,
    pub days: Median,
    /// Share of the players who got there.
    pub arrived: f64,
    /// Means per player.
    pub missed: f64,
    pub overdone: f64,
    /// How many steps were held to be secure, and the share of them that truly were not.
    pub declared: usize,
    pub wrong: f64,
    pub calibration: Calibration,
}

impl Tally {
    pub fn of(stories: &[Story]) -> Self {
        let mean = |value: &dyn Fn(&Story) -> u32| {
            stories.iter().map(|story| f64::from(value(story))).sum::<f64>() / stories.len() as f64
        };
        let declared: Vec<f64> = stories.iter().flat_map(|story| story.declared.iter().copied()).collect();
        let wrong = declared.iter().filter(|truth| **truth < LEVEL).count();
        Tally {
            minutes: Median::of(stories.iter().map(Story::minutes_to_cold)),
            repetitions: Median::of(stories.iter().map(|story| f64::from(story.repetitions))),
            days: Median::of(stories.iter().map(|story| f64::from(story.days))),
            arrived: mean(&|story| u32::from(story.arrived)),
            missed: mean(&|story| story.missed),
            overdone: mean(&|story| story.overdone),
            declared: declared.len(),
            wrong: wrong as f64 / declared.len().max(1) as f64,
            calibration: Calibration::of(stories.iter().flat_map(|story| story.expected.iter().copied())),
        }
    }
}

/// How what was expected compares with what came.
#[derive(Clone, Debug, Default)]
pub struct Calibration {
    /// For each tenth of the expected chance: repetitions, the mean that was expected, the share that came.
    pub tenths: [(f64, f64, f64); 10],
    /// Mean square of the difference between the expected chance and what came, as 1 or 0 (Brier 1950).
    pub brier: f64,
}

impl Calibration {
    /// The Brier score of whoever always expects the share of clean repetitions that there was in the end.
    pub fn without_looking(&self) -> f64 {
        let seen = || self.tenths.iter().filter(|tenth| tenth.0 > 0.0);
        let all: f64 = seen().map(|tenth| tenth.0).sum();
        let clean = seen().map(|(count, _, came)| count * came).sum::<f64>() / all;
        clean * (1.0 - clean)
    }

    fn of(expected: impl Iterator<Item = (f64, bool)>) -> Self {
        let mut sums = Calibration::default();
        for (chance, clean) in expected {
            let came = f64::from(u8::from(clean));
            let tenth = &mut sums.tenths[((chance * 10.0) as usize).min(9)];
            *tenth = (tenth.0 + 1.0, tenth.1 + chance, tenth.2 + came);
            sums.brier += (chance - came).powi(2);
        }
        let all: f64 = sums.tenths.iter().map(|tenth| tenth.0).sum();
        let means = sums.tenths.map(|(count, chance, came)| (count, chance / count, came / count));
        Calibration { tenths: means, brier: sums.brier / all }
    }
}
