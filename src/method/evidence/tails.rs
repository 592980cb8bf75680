//! Tails and quantiles of a density that is known on a grid.
//!
//! A plain sum over the grid is exact for a whole smooth density but not for a part of it, because the
//! cut falls between two points. So the mass of each cell is taken from the eight points around it
//! (the integral of the polynomial through them), summed, and the sums interpolated by a polynomial of
//! the same order.

use crate::method::evidence::grid::{GridValues, PITCH, POINTS, REACH, logistic, logit};
use std::array;

/// Points around a cell that say how the density runs in it.
const STENCIL: usize = 8;
/// Position of the stencil's first point, where the cell is 0..=1.
const FIRST: isize = 1 - STENCIL as isize / 2;
/// Integral over the middle cell of the polynomial through eight equidistant points (the central
/// formula of Gregory's family; recomputed in the tests).
const CELL: [f64; STENCIL] = {
    let whole = 120_960.0;
    [
        -191.0 / whole,
        1_879.0 / whole,
        -9_531.0 / whole,
        68_323.0 / whole,
        68_323.0 / whole,
        -9_531.0 / whole,
        1_879.0 / whole,
        -191.0 / whole,
    ]
};

/// For each grid point the chance that the truth lies above it.
pub struct Tails {
    above: GridValues,
}

impl Tails {
    pub(super) fn of(mass: &GridValues) -> Self {
        let point = |i: isize| usize::try_from(i).ok().and_then(|i| mass.get(i)).copied().unwrap_or(0.0);
        let mut above = [0.0; POINTS];
        let mut sum = 0.0;
        for i in (0..POINTS).rev() {
            sum += (i as isize + FIRST..).zip(CELL).map(|(k, weight)| weight * point(k)).sum::<f64>();
            above[i] = sum;
        }
        Tails { above }
    }

    /// The probability that the chance of a clean repetition is above `level`, which is strictly
    /// between 0 and 1. Good to 1e-6.
    pub fn chance_above(&self, level: f64) -> f64 {
        let position = ((logit(level) + REACH) / PITCH).clamp(0.0, (POINTS - 1) as f64);
        let cell = position.floor();
        self.around(cell as isize).at(position - cell).clamp(0.0, 1.0)
    }

    /// The chance of a clean repetition below which the truth lies with probability `share`
    /// (strictly between 0 and 1). Good to 1e-6.
    pub fn quantile(&self, share: f64) -> f64 {
        let wanted = 1.0 - share;
        let cell = self.above.partition_point(|above| *above >= wanted).saturating_sub(1);
        let tail = self.around(cell as isize);
        let (mut low, mut high) = (0.0, 1.0);
        // Thirty halvings of an eighth of a logit: 1e-10.
        for _ in 0..30 {
            let middle = 0.5 * (low + high);
            if tail.at(middle) >= wanted { low = middle } else { high = middle }
        }
        logistic((cell as f64 + low) * PITCH - REACH)
    }

    /// The tail as a polynomial around a cell; all of the mass lies right of the grid's
    /// left edge, none beyond its right one.
    fn around(&self, cell: isize) -> Polynomial {
        Polynomial::through(array::from_fn(|k| match usize::try_from(cell + FIRST + k as isize) {
            Ok(i) => self.above.get(i).copied().unwrap_or(0.0),
            Err(_) => self.above[0],
        }))
    }
}

/// The polynomial through equidistant values at the stencil's points, in Newton's form: the divided
/// differences.
struct Polynomial([f64; STENCIL]);

impl Polynomial {
    fn through(mut values: [f64; STENCIL]) -> Self {
        for order in 1..STENCIL {
            for k in (order..STENCIL).rev() {
                values[k] = (values[k] - values[k - 1]) / order as f64;
            }
        }
        Polynomial(values)
    }

    /// Its value at `t`, where the middle cell is 0..=1.
    fn at(&self, t: f64) -> f64 {
        let point = |k: usize| (k as isize + FIRST) as f64;
        self.0.iter().enumerate().rev().fold(0.0, |sum, (k, difference)| sum * (t - point(k)) + difference)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gauss–Legendre with five points (Abramowitz & Stegun 25.4.30, nodes and weights from memory)
    /// is exact for the basis polynomials, which have degree seven.
    #[test]
    fn the_cell_weights_are_the_integrals_of_the_interpolating_polynomial() {
        let rule = [
            (0.0, 0.568_888_888_888_888_9),
            (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
            (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
            (0.906_179_845_938_664, 0.236_926_885_056_189_1),
            (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
        ];
        for (k, weight) in CELL.into_iter().enumerate() {
            let basis = Polynomial::through(array::from_fn(|point| if point == k { 1.0 } else { 0.0 }));
            let integral: f64 = rule.iter().map(|(x, w)| 0.5 * w * basis.at(0.5 + 0.5 * x)).sum();
            assert!((integral - weight).abs() < 1e-14, "{k}: {integral} against {weight}");
        }
    }
}
