//! The repetitions of one step since it was taken up, and what was believed of it after each.

use crate::method::Verdict;

/// The repetitions of the present step.
#[derive(Clone, Debug, Default)]
pub struct Tries {
    clean: u32,
    missed: u32,
    /// Clean ones since the last miss.
    in_a_row: u32,
    /// The chance that was believed before the first and after each.
    chances: Vec<f64>,
}

impl Tries {
    /// Before the first repetition of a step with this believed chance of a clean one.
    pub fn none(chance: f64) -> Self {
        Tries { clean: 0, missed: 0, in_a_row: 0, chances: vec![chance] }
    }

    /// One repetition, and the chance that is believed after it.
    pub fn hear(&mut self, verdict: Verdict, chance: f64) {
        match verdict {
            Verdict::Clean => (self.clean, self.in_a_row) = (self.clean + 1, self.in_a_row + 1),
            Verdict::NotYet => (self.missed, self.in_a_row) = (self.missed + 1, 0),
        }
        self.chances.push(chance);
    }

    /// The chance that the next repetition is clean.
    pub fn chance(&self) -> f64 {
        self.chances.last().copied().unwrap_or(0.5)
    }

    /// The chances that were believed after each repetition, the latest first.
    pub fn chances_back(&self) -> impl Iterator<Item = f64> {
        self.chances[1.min(self.chances.len())..].iter().rev().copied()
    }

    /// Clean repetitions since the step was taken up.
    pub fn clean(&self) -> u32 {
        self.clean
    }

    /// Clean repetitions in a row up to now.
    pub fn in_a_row(&self) -> u32 {
        self.in_a_row
    }

    /// Repetitions that were not clean since the step was taken up.
    pub fn missed(&self) -> u32 {
        self.missed
    }

    /// All repetitions since the step was taken up.
    pub fn repetitions(&self) -> u32 {
        self.clean + self.missed
    }
}
