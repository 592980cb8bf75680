//! The chance of a clean cold try at later moments, and the day on which it is too low.

use crate::{
    calendar::{
        chance::{Band, Chance},
        half_life::{self, Density, Grid, POINTS},
        player::Player,
        trace::{Evening, Trace, days_between},
    },
    clock::{Day, Moment},
};
use std::array;

/// Nothing is foretold beyond ten years.
const MOST_DAYS: i32 = 3_653;

/// What is believed of a snippet that has been practised.
#[derive(Clone, Debug, PartialEq)]
pub struct Retention {
    pub(super) believed: Density,
    /// The half-life now at each point of the grid, in days; ascending.
    pub(super) half_lives: Grid,
    pub(super) evening: Evening,
}

impl Retention {
    /// What follows for a snippet from its own trace and the player's others; `None` before it is practised. The trace is
    /// one of those that the player is known by.
    pub fn of(trace: &Trace, player: &Player) -> Option<Self> {
        Retention::from_prior(trace, &player.expects_beside(trace))
    }

    /// The same where this is believed of the first half-life before anything is heard.
    pub fn from_prior(trace: &Trace, prior: &Density) -> Option<Self> {
        let evening = trace.evening?;
        let mass = array::from_fn(|i| prior.0[i] * trace.likelihood[i]);
        Some(Retention { believed: Density::normalised(mass), half_lives: trace.half_lives, evening })
    }

    /// The chance of a clean cold try at `at`, which is after the last practice; its band is that of the half-life.
    pub fn at(&self, at: Moment) -> Band {
        self.after(days_between(self.evening.at, at))
    }

    /// The chance of a clean cold try so many days (≥ 0) after the last practice.
    pub fn after(&self, days: f64) -> Band {
        let left = |half_life| self.evening.chance.get() * half_life::left_after(days, half_life);
        let quantile = |share| Chance::new(left(self.half_life(self.believed.quantile(share))));
        Band { mean: self.expected_after(days), low: quantile(0.1), high: quantile(0.9) }
    }

    /// The first day on which the expected chance is below `wanted` at the time of day at which practice ended; `None`
    /// where that is more than ten years away.
    pub fn falls_below(&self, wanted: Chance) -> Option<Day> {
        let is_below = |days: i32| self.expected_after(f64::from(days)) < wanted;
        if !is_below(MOST_DAYS) {
            return None;
        }
        let (mut low, mut high) = (0, MOST_DAYS);
        while low < high {
            let middle = (low + high) / 2;
            if is_below(middle) { high = middle } else { low = middle + 1 }
        }
        Some(self.evening.at.day() + high)
    }

    /// The date, on the wall, of the last practice.
    pub fn practised_on(&self) -> Day {
        self.evening.at.day()
    }

    fn expected_after(&self, days: f64) -> Chance {
        let left = |(mass, half_life): (&f64, &f64)| mass * half_life::left_after(days, *half_life);
        let share: f64 = self.believed.0.iter().zip(&self.half_lives).map(left).sum();
        Chance::new(self.evening.chance.get() * share)
    }

    /// The half-life now at a place between two points of the grid, in days.
    pub(super) fn half_life(&self, place: f64) -> f64 {
        let before = (place.max(0.0) as usize).min(POINTS - 2);
        let (from, to) = (self.half_lives[before].ln(), self.half_lives[before + 1].ln());
        (from + (to - from) * (place - before as f64)).exp()
    }
}
