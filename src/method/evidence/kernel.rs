//! How the chance moves from one moment to another.
//!
//! Refuses to know why it moves.

use super::{Grid, PITCH, POINTS};

/// Standard deviations kept on either side: what is cut off weighs less than 1e-9.
const WIDTH: f64 = 6.2;

/// A normal step on the logit scale, sampled on the grid.
#[derive(Clone, Debug)]
pub struct Kernel {
    /// Grid points from where one stands to the first weight.
    offset: isize,
    weights: Vec<f64>,
}

impl Kernel {
    /// A step with this mean and variance, in logits. A standard deviation of at least 0.2 is two
    /// grid points, fine enough for sums to be exact to 1e-8.
    pub fn normal(mean: f64, variance: f64) -> Self {
        let reach = WIDTH * variance.sqrt();
        let first = ((mean - reach) / PITCH).floor() as isize;
        let last = ((mean + reach) / PITCH).ceil() as isize;
        let density = |i: isize| (-(i as f64 * PITCH - mean).powi(2) / (2.0 * variance)).exp();
        let total: f64 = (first..=last).map(density).sum();
        Kernel { offset: first, weights: (first..=last).map(|i| density(i) / total).collect() }
    }

    /// Every point's mass spread by the step.
    pub(super) fn spread(&self, mass: &Grid) -> Grid {
        let mut spread = [0.0; POINTS];
        for (shift, weight) in (self.offset..).zip(&self.weights) {
            let from = shift.min(0).unsigned_abs().min(POINTS);
            let to = shift.max(0).unsigned_abs().min(POINTS);
            for (target, source) in spread[to..].iter_mut().zip(&mass[from..]) {
                *target += weight * source;
            }
        }
        spread
    }

    /// The step taken backward: what each point's mean of `value` is one step on.
    pub(super) fn expect(&self, value: &Grid) -> Grid {
        let reversed = Kernel {
            offset: 1 - self.offset - self.weights.len() as isize,
            weights: self.weights.iter().rev().copied().collect(),
        };
        reversed.spread(value)
    }
}
