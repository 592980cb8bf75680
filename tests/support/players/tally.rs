//! Many stories summed up: means with their intervals, whether the promise was kept, calibration.

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

/// A mean and the half width of an interval that holds it with a probability of 95 % (the normal approximation).
#[derive(Clone, Copy, Debug)]
pub struct Mean {
    pub value: f64,
    pub within: f64,
}

impl Mean {
    pub fn of(values: impl Iterator<Item = f64> + Clone) -> Self {
        let count = values.clone().count() as f64;
        let value = values.clone().sum::<f64>() / count;
        let variance = values.map(|one| (one - value).powi(2)).sum::<f64>() / (count - 1.0);
        Mean { value, within: 1.96 * (variance / count).sqrt() }
    }
}

/// What came of one way to practise for one family, per player. Whoever has not arrived counts with the days and
/// minutes spent in vain.
#[derive(Clone, Debug)]
pub struct Tally {
    pub minutes: Mean,
    pub repetitions: Mean,
    pub days: Mean,
    pub missed: Mean,
    pub overdone: Mean,
    /// Share of the players who got there.
    pub arrived: f64,
    /// How often the whole was held to be secure, and how often that was right.
    pub declared: u64,
    pub right: u64,
    pub calibration: Calibration,
}

impl Tally {
    pub fn of(stories: &[Story]) -> Self {
        let mean = |value: fn(&Story) -> f64| Mean::of(stories.iter().map(value));
        let declared = || stories.iter().flat_map(|story| story.declared.iter());
        Tally {
            minutes: mean(|story| story.minutes),
            repetitions: mean(|story| f64::from(story.repetitions)),
            days: mean(|story| f64::from(story.days)),
            missed: mean(|story| f64::from(story.missed)),
            overdone: mean(|story| f64::from(story.overdone)),
            arrived: mean(|story| f64::from(u8::from(story.arrived))).value,
            declared: declared().count() as u64,
            right: declared().filter(|truth| **truth >= LEVEL).count() as u64,
            calibration: Calibration::of(stories.iter().flat_map(|story| story.expected.iter().copied())),
        }
    }

    /// Nights before the cold clean whole.
    pub fn nights(&self) -> f64 {
        self.days.value - 1.0
    }

    /// The share of "the whole is secure" that was true.
    pub fn right_whole(&self) -> f64 {
        self.right as f64 / self.declared.max(1) as f64
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

    /// The largest difference between what was expected and what came, of the tenths that hold at least 2 % of the
    /// repetitions.
    pub fn worst(&self) -> f64 {
        let all: f64 = self.tenths.iter().map(|tenth| tenth.0).sum();
        let told = self.tenths.iter().filter(|tenth| tenth.0 >= 0.02 * all);
        told.map(|(_, expected, came)| (expected - came).abs()).fold(0.0, f64::max)
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
