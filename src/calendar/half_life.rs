//! The half-life of what was learned, as an unknown: densities on a grid of its logarithm.
//!
//! After a gap of one half-life the chance of a clean cold try is half of what it was in the evening. The grid is fine
//! and wide enough for sums over it to be the integrals, to a millionth; the tests say so.

use std::array;

/// Points of the grid.
pub(super) const POINTS: usize = 141;
/// Logarithm of the shortest half-life, in days: half an hour.
const SHORTEST: f64 = -4.0;
/// From point to point, in logarithms: a tenth longer. The longest half-life is 60 years.
const PITCH: f64 = 0.1;

/// One value for each point of the grid.
pub(super) type Grid = [f64; POINTS];

/// Logarithm of the half-life in days at a place of the grid; places between two points count.
pub(super) fn log_days(place: f64) -> f64 {
    SHORTEST + PITCH * place
}

/// The half-lives of the grid, in days.
pub(super) fn days() -> Grid {
    array::from_fn(|i| log_days(i as f64).exp())
}

/// What is left of a chance after a gap, as a share; `gap` and `half_life` in days.
pub(super) fn left_after(gap: f64, half_life: f64) -> f64 {
    (-gap / half_life).exp2()
}

/// What is believed of a half-life: the mass at each point of the grid, together 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Density(pub(super) Grid);

impl Density {
    /// A belief with this density of the logarithm of the half-life in days, up to a constant factor.
    pub fn of(density: impl Fn(f64) -> f64) -> Self {
        Density::normalised(array::from_fn(|i| density(log_days(i as f64))))
    }

    /// A half-life whose logarithm is normal around that of `median` days; `spread` is the standard deviation of the
    /// logarithm, > 0.
    pub fn log_normal(median: f64, spread: f64) -> Self {
        let centre = median.ln();
        Density::of(|log_days| (-0.5 * ((log_days - centre) / spread).powi(2)).exp())
    }

    /// The belief proportional to these masses, at least one of which is positive.
    pub(super) fn normalised(mut mass: Grid) -> Self {
        let total: f64 = mass.iter().sum();
        mass.iter_mut().for_each(|mass| *mass /= total);
        Density(mass)
    }

    /// The place of the grid below which this `share` of the belief lies. The mass of a point lies evenly between the
    /// middles to its neighbours.
    pub(super) fn quantile(&self, share: f64) -> f64 {
        let mut below = 0.0;
        for (i, mass) in self.0.iter().enumerate() {
            if below + mass >= share {
                return i as f64 - 0.5 + (share - below) / mass;
            }
            below += mass;
        }
        (POINTS - 1) as f64
    }
}
