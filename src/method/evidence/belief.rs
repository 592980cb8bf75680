//! What is believed of the chance at one moment, and what a repetition adds to it.

use crate::method::{
    evidence::{
        grid::{CHANCE, GridValues, POINTS, logit_at},
        kernel::Kernel,
        tails::Tails,
    },
    step::Verdict,
};
use std::array;

/// A probability density of the chance of a clean repetition, as the mass at each grid point.
#[derive(Clone, Debug, PartialEq)]
pub struct Belief {
    pub(super) mass: GridValues,
}

impl Belief {
    /// A logit that is normal with this mean and variance (> 0, in squared logits).
    pub fn normal(mean: f64, variance: f64) -> Self {
        let mut belief = Belief { mass: array::from_fn(|i| (-(logit_at(i) - mean).powi(2) / (2.0 * variance)).exp()) };
        belief.normalise();
        belief
    }

    /// The weighted mixture of several beliefs; weights are ≥ 0, at least one is positive.
    pub fn mixture<'a>(parts: impl IntoIterator<Item = (f64, &'a Belief)>) -> Self {
        let mut belief = Belief { mass: [0.0; POINTS] };
        for (weight, part) in parts {
            belief.mass.iter_mut().zip(&part.mass).for_each(|(sum, mass)| *sum += weight * mass);
        }
        belief.normalise();
        belief
    }

    /// The belief after the chance has moved by a step drawn from `kernel`. What leaves the grid is
    /// left out: nobody is clean more surely than 22,000 times in a row.
    pub fn moved(&self, kernel: &Kernel) -> Self {
        let mut belief = Belief { mass: kernel.spread(&self.mass) };
        belief.normalise();
        belief
    }

    /// The belief after one repetition, and how likely its verdict was beforehand.
    pub fn told(&self, verdict: Verdict) -> (Self, f64) {
        let mut belief = Belief { mass: array::from_fn(|i| self.mass[i] * likelihood(verdict, i)) };
        let likely = belief.normalise();
        (belief, likely)
    }

    /// The chance that the next repetition is clean.
    pub fn mean(&self) -> f64 {
        self.mass.iter().zip(CHANCE.iter()).map(|(mass, chance)| mass * chance).sum()
    }

    /// The tails and quantiles of this belief.
    pub fn tails(&self) -> Tails {
        Tails::of(&self.mass)
    }

    pub(super) fn normalise(&mut self) -> f64 {
        let total: f64 = self.mass.iter().sum();
        self.mass.iter_mut().for_each(|mass| *mass /= total);
        total
    }
}

/// How likely `verdict` is where the chance is that of grid point `i`.
pub(super) fn likelihood(verdict: Verdict, i: usize) -> f64 {
    match verdict {
        Verdict::Clean => CHANCE[i],
        Verdict::NotYet => 1.0 - CHANCE[i],
    }
}
