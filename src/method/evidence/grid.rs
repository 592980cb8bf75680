//! The grid on which a density is kept: equidistant logits.

use std::{array, sync::LazyLock};

/// Distance of two grid points, in logits. Sums over so smooth a density converge so fast that means
/// are exact to 1e-8; tails and quantiles, which cut it, are good to 1e-6 (see the tests).
pub(super) const PITCH: f64 = 0.125;
/// The grid reaches from −10 to +10 logits: chances from 0.000045 to 0.999955.
pub(super) const REACH: f64 = 10.0;
/// Grid points.
pub(super) const POINTS: usize = 161;

/// Something told at every grid point.
pub(super) type GridValues = [f64; POINTS];

/// The chance of a clean repetition at each grid point.
pub(super) static CHANCE: LazyLock<GridValues> = LazyLock::new(|| array::from_fn(|i| logistic(logit_at(i))));

pub(super) fn logit_at(i: usize) -> f64 {
    i as f64 * PITCH - REACH
}

pub(super) fn logistic(logit: f64) -> f64 {
    1.0 / (1.0 + (-logit).exp())
}

/// The logit of a chance strictly between 0 and 1.
pub(super) fn logit(chance: f64) -> f64 {
    (chance / (1.0 - chance)).ln()
}
