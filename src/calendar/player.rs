//! What one snippet tells about the others: how long this player keeps things.
//!
//! The logarithm of a snippet's first half-life is normal around the player's level, and the level is normal around what
//! is common. Given the level, snippets tell nothing about each other, so what is known of it is the product of how likely
//! it makes each trace, in whatever order they come.

use crate::calendar::{
    half_life::{self, Density, Grid, POINTS},
    trace::Trace,
};
use std::{array, sync::LazyLock};

/// The half-life that is expected beforehand, in days: a night costs 7 %. Chosen: after a night notes were as right as
/// before or better (Walker et al. 2002; Simmons 2012); no published half-life exists for a played passage.
pub const COMMON_HALF_LIFE: f64 = 10.0;
/// How players differ: the standard deviation of the logarithm of their level. One in six keeps things 2.2 times as long
/// as is common, one in six less than half as long. Chosen, no published value exists.
pub const BETWEEN_PLAYERS: f64 = 0.8;
/// How the snippets of a player differ: the same of the logarithm of half-lives, a factor of two. Chosen, no published
/// value exists.
pub const BETWEEN_SNIPPETS: f64 = 0.7;

/// Levels that are told apart, five standard deviations to each side.
const LEVELS: usize = 41;
/// From one to the next, in logarithms.
const LEVEL_PITCH: f64 = BETWEEN_PLAYERS / 4.0;

type Levels = [f64; LEVELS];

/// In standard deviations from what is common.
fn deviation(level: usize) -> f64 {
    (level as f64 - (LEVELS / 2) as f64) * LEVEL_PITCH / BETWEEN_PLAYERS
}

/// What is expected of a snippet at each level.
static AT_LEVEL: LazyLock<Vec<Density>> = LazyLock::new(|| {
    let median = |level| COMMON_HALF_LIFE * (BETWEEN_PLAYERS * deviation(level)).exp();
    (0..LEVELS).map(|level| Density::log_normal(median(level), BETWEEN_SNIPPETS)).collect()
});

/// How likely each level makes what was heard of a snippet, as a logarithm.
fn evidence(trace: &Trace) -> Levels {
    let likely = |expected: &Density| -> f64 { expected.0.iter().zip(&trace.likelihood).map(|(a, b)| a * b).sum() };
    array::from_fn(|level| likely(&AT_LEVEL[level]).max(f64::MIN_POSITIVE).ln())
}

/// What is known of how long this player keeps things.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    /// Logarithms of the density at each level, up to a constant.
    levels: Levels,
}

impl Player {
    /// What all traces of a player tell together.
    pub fn of<'a>(traces: impl IntoIterator<Item = &'a Trace>) -> Self {
        let mut levels = array::from_fn(|level| -0.5 * deviation(level).powi(2));
        for trace in traces {
            levels.iter_mut().zip(evidence(trace)).for_each(|(sum, likely)| *sum += likely);
        }
        Player { levels }
    }

    /// What is expected of a snippet's first half-life before it is practised.
    pub fn expects(&self) -> Density {
        expected(&self.levels)
    }

    /// What all other snippets make one expect of the snippet of `trace`, which is one of those the player is known by.
    pub fn expects_beside(&self, trace: &Trace) -> Density {
        let own = evidence(trace);
        expected(&array::from_fn(|level| self.levels[level] - own[level]))
    }
}

/// The half-lives of a snippet at all levels, by how likely each is.
fn expected(levels: &Levels) -> Density {
    let most = levels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let mut mass: Grid = [0.0; POINTS];
    for (level, at_level) in levels.iter().zip(AT_LEVEL.iter()) {
        let weight = (level - most).exp();
        mass.iter_mut().zip(&at_level.0).for_each(|(sum, mass)| *sum += weight * mass);
    }
    half_life::Density::normalised(mass)
}
