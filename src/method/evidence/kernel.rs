//! How the chance moves from one moment to another.

use crate::method::evidence::grid::{GridValues, PITCH, POINTS};

/// Standard deviations kept on either side: what is cut off weighs less than 1e-9.
const WIDTH: f64 = 6.2;

/// Sums kept at a time.
const LANES: usize = 8;

/// A normal step on the logit scale, sampled on the grid.
#[derive(Clone, Debug)]
pub struct Kernel {
    /// Grid points from where one stands to the first weight.
    offset: isize,
    weights: Vec<f64>,
}

impl Kernel {
    /// A step with this mean and variance, in logits. A standard deviation of at least 0.2 spans more than
    /// one and a half grid points, fine enough for sums to be exact to 1e-8.
    pub fn normal(mean: f64, variance: f64) -> Self {
        let reach = WIDTH * variance.sqrt();
        let first = ((mean - reach) / PITCH).floor() as isize;
        let last = ((mean + reach) / PITCH).ceil() as isize;
        let density = |i: isize| (-(i as f64 * PITCH - mean).powi(2) / (2.0 * variance)).exp();
        let total: f64 = (first..=last).map(density).sum();
        Kernel { offset: first, weights: (first..=last).map(|i| density(i) / total).collect() }
    }

    /// Every point's mass spread by the step. Eight sums are kept at a time, so that they stay in
    /// registers: this is where a repetition spends its time.
    pub(super) fn spread(&self, mass: &GridValues) -> GridValues {
        let last = self.offset + self.weights.len() as isize - 1;
        let beyond = self.weights.len() + self.offset.unsigned_abs();
        let mut padded = vec![0.0; beyond + POINTS + beyond + LANES];
        padded[beyond..beyond + POINTS].copy_from_slice(mass);
        let mut spread = [0.0; POINTS];
        for (nth, targets) in spread.chunks_mut(LANES).enumerate() {
            let from = (beyond + nth * LANES).wrapping_add_signed(-last);
            let mut sums = [0.0; LANES];
            for (sources, weight) in padded[from..].windows(LANES).zip(self.weights.iter().rev()) {
                for (sum, source) in sums.iter_mut().zip(sources) {
                    *sum += weight * source;
                }
            }
            targets.copy_from_slice(&sums[..targets.len()]);
        }
        spread
    }

    /// The step taken backward: what each point's mean of `value` is one step on.
    pub(super) fn expect(&self, value: &GridValues) -> GridValues {
        let reversed = Kernel {
            offset: 1 - self.offset - self.weights.len() as isize,
            weights: self.weights.iter().rev().copied().collect(),
        };
        reversed.spread(value)
    }
}
