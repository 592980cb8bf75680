//! What is believed about the chance of a clean repetition: the state-space learning curve of
//! Smith et al. 2004, exactly, on a grid.
//!
//! The model (J Neurosci 24(2):447–461, doi 10.1523/JNEUROSCI.2908-03.2004): the logit of the chance
//! walks at random from repetition to repetition, xₖ = xₖ₋₁ + N(0, σ²), and a repetition is clean with
//! chance 1/(1 + e⁻ˣ). The paper follows x with Gaussian approximations; here the whole density is
//! kept, so that nothing is approximated but the grid itself.

mod curve;
mod kernel;
mod tails;

pub use curve::{LearningCurve, learning_curve, learning_curve_by, learning_trial};
pub use kernel::Kernel;
pub use tails::Tails;

use crate::method::Verdict;
use std::array;
use std::sync::LazyLock;

/// Distance of two grid points, in logits. Sums over so smooth a density converge so fast that means
/// are exact to 1e-8; tails and quantiles, which cut it, are good to 1e-6 (see the tests).
const PITCH: f64 = 0.125;
/// The grid reaches from −10 to +10 logits: chances from 0.000045 to 0.999955.
const REACH: f64 = 10.0;
/// GridValues points.
const POINTS: usize = 161;

/// Something told at every grid point.
type GridValues = [f64; POINTS];

/// The chance of a clean repetition at each grid point.
static CHANCE: LazyLock<GridValues> = LazyLock::new(|| array::from_fn(|i| logistic(logit_at(i))));

fn logit_at(i: usize) -> f64 {
    i as f64 * PITCH - REACH
}

fn logistic(logit: f64) -> f64 {
    1.0 / (1.0 + (-logit).exp())
}

/// The logit of a chance strictly between 0 and 1.
fn logit(chance: f64) -> f64 {
    (chance / (1.0 - chance)).ln()
}

/// A probability density of the chance of a clean repetition, as the mass at each grid point.
#[derive(Clone, Debug, PartialEq)]
pub struct Belief {
    mass: GridValues,
}

impl Belief {
    /// A logit that is normal with this mean and variance (> 0, in squared logits).
    pub fn normal(mean: f64, variance: f64) -> Self {
        let mut belief = Belief { mass: array::from_fn(|i| (-(logit_at(i) - mean).powi(2) / (2.0 * variance)).exp()) };
        belief.normalise();
        belief
    }

    /// Of several beliefs, each with a weight (≥ 0, at least one above), what is believed in all.
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

    /// The same belief, ready to be asked for tails and quantiles.
    pub fn tails(&self) -> Tails {
        Tails::of(&self.mass)
    }

    fn normalise(&mut self) -> f64 {
        let total: f64 = self.mass.iter().sum();
        self.mass.iter_mut().for_each(|mass| *mass /= total);
        total
    }
}

/// How likely `verdict` is where the chance is that of grid point `i`.
fn likelihood(verdict: Verdict, i: usize) -> f64 {
    match verdict {
        Verdict::Clean => CHANCE[i],
        Verdict::NotYet => 1.0 - CHANCE[i],
    }
}
