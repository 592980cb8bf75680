//! What practice has left of one snippet, and what its cold tries have told about how long that holds.
//!
//! The chance of a clean cold try is the evening's, times 2 to the power of minus the gap over the half-life. The unknown
//! is the half-life that the snippet had when it was first learned; how it grows from there is given, so that each point
//! of the grid has its own half-life now and the filter stays exact.

use crate::{
    calendar::{
        chance::Chance,
        half_life::{self, Grid},
    },
    clock::Moment,
};

/// How much longer the half-life is after a kept cold try, at most: it becomes three times as long where all but nothing
/// was left, and twice as long after a gap of one half-life, so that doubling gaps stay where they are on the curve.
/// Chosen: gaps that grow are best for facts (Cepeda et al. 2008), no published value exists for a played passage.
const GROWTH: f64 = 2.0;

/// How a cold try went.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ColdTry {
    /// It was clean.
    Kept,
    /// It was not.
    Missed,
}

/// When practice ended last and what it left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Evening {
    pub at: Moment,
    /// The chance that was expected right then.
    pub chance: Chance,
}

/// One snippet's practice and cold tries, as far as they tell how long it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// How likely each half-life makes all that was heard, up to a constant factor.
    pub(super) likelihood: Grid,
    /// What each half-life has become by now, in days; ascending.
    pub(super) half_lives: Grid,
    pub(super) evening: Option<Evening>,
    /// The gap of a cold try that was kept and not practised upon yet, in days.
    kept: Option<f64>,
}

impl Default for Trace {
    fn default() -> Self {
        Trace { likelihood: [1.0; half_life::POINTS], half_lives: half_life::days(), evening: None, kept: None }
    }
}

impl Trace {
    /// Practice has ended at `at`, and left this expected chance. The gap starts again. What is unsure about that chance
    /// does not matter to a cold try, which depends on its mean alone.
    pub fn practised(&mut self, at: Moment, chance: Chance) {
        if let Some(gap) = self.kept.take() {
            self.half_lives.iter_mut().for_each(|half_life| *half_life = renewed(*half_life, gap));
        }
        self.evening = Some(Evening { at, chance });
    }

    /// The first repetition after a night was heard at `at`. Before any practice it tells nothing.
    pub fn heard(&mut self, at: Moment, cold_try: ColdTry) {
        let Some(Evening { at: evening, chance }) = self.evening else { return };
        let gap = days_between(evening, at);
        let mut likelihood = self.likelihood;
        for (likely, half_life) in likelihood.iter_mut().zip(&self.half_lives) {
            let clean = chance.get() * half_life::left_after(gap, *half_life);
            *likely *= match cold_try {
                ColdTry::Kept => clean,
                ColdTry::Missed => 1.0 - clean,
            };
        }
        self.kept = (cold_try == ColdTry::Kept).then_some(gap);
        let most = likelihood.iter().copied().fold(0.0, f64::max);
        // What no half-life can explain tells nothing about it.
        if most > 0.0 {
            self.likelihood = likelihood.map(|likely| likely / most);
        }
    }

    /// When practice ended last.
    pub fn practised_at(&self) -> Option<Moment> {
        self.evening.map(|evening| evening.at)
    }
}

/// The half-life after a cold try was kept over a gap, both in days: the more had been forgotten, the more it grows. It
/// grows with the gap and keeps the order of half-lives.
fn renewed(half_life: f64, gap: f64) -> f64 {
    grown(half_life, half_life::left_after(gap, half_life), 1.0)
}

/// The half-life after a gap of which this share was left, where it was kept as surely as `kept` says, 0..=1.
pub(super) fn grown(half_life: f64, left: f64, kept: f64) -> f64 {
    half_life * (1.0 + GROWTH * kept * (1.0 - left))
}

/// Days of 24 hours, by the instants; a clock that was set back makes no gap.
pub(super) fn days_between(earlier: Moment, later: Moment) -> f64 {
    const DAY_MS: f64 = 86_400_000.0;
    later.ms_since(earlier).max(0) as f64 / DAY_MS
}
