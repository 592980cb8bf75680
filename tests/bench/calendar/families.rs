//! Simulated players of weeks: what they learn in minutes and forget over days. They share no code with the calendar.
//!
//! The laws are shapes from the literature on facts and motor skills; every number in them is invented, as nothing is
//! published for a played passage.

use crate::dice::Dice;

/// Players who forget alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// Half is gone after each half-life.
    Exponential,
    /// Forgetting slows down (Wickelgren 1974; Wixted & Ebbesen 1991, both from memory).
    PowerLaw,
    /// Something stays for ever: a third of what was learned.
    Floor,
    /// Held out, and written last: a quick trace and a slow one; keeping over a gap moves some of the quick one over.
    TwoTraces,
    /// Held out, and written last: nothing is lost over the first night (Simmons 2012), then it goes quicker and quicker
    /// until half is gone; days of practice help, gaps do not.
    Late,
}

impl Family {
    pub const ALL: [Family; 5] =
        [Family::Exponential, Family::PowerLaw, Family::Floor, Family::TwoTraces, Family::Late];

    pub fn name(self) -> &'static str {
        match self {
            Family::Exponential => "exponential",
            Family::PowerLaw => "power law",
            Family::Floor => "something stays",
            Family::TwoTraces => "two traces (held out)",
            Family::Late => "late loss (held out)",
        }
    }
}

/// One snippet in a player's hands.
#[derive(Clone, Debug)]
pub struct Learned {
    family: Family,
    /// The chance of a clean repetition right after practice, 0..=1.
    pub evening: f64,
    /// The share of what is missing that a minute adds.
    rate: f64,
    /// How slowly it is forgotten, in days.
    slowness: f64,
    /// How much of it is slow, of two traces.
    slow: f64,
    practised: Option<u32>,
}

/// What practice of every kind can reach.
const LIMIT: f64 = 0.97;

impl Learned {
    /// A snippet of a player whose level of slowness is given.
    pub fn new(family: Family, level: f64, dice: &mut Dice) -> Self {
        let (evening, rate) = (dice.between(0.02, 0.4), dice.around(0.05, 0.5).min(0.3));
        Learned { family, evening, rate, slowness: dice.around(level, 0.6), slow: 0.3, practised: None }
    }

    /// The day of the last practice.
    pub fn practised(&self) -> Option<u32> {
        self.practised
    }

    /// What is left of the evening's chance on a later day, 0..=1.
    fn left(&self, day: u32) -> f64 {
        let days = self.practised.map_or(0.0, |practised| f64::from(day - practised));
        let gone = days / self.slowness;
        match self.family {
            Family::Exponential => 0.5f64.powf(gone),
            Family::PowerLaw => (1.0 + 3.0 * gone).powf(-0.5),
            Family::Floor => 0.33 + 0.67 * (-gone).exp(),
            Family::TwoTraces => {
                let quick = (-days / 2.0).exp();
                (1.0 - self.slow) * quick + self.slow * (-0.3 * gone).exp()
            }
            Family::Late => 1.0 / (1.0 + ((days - 1.0).max(0.0) / self.slowness).powi(2)),
        }
    }

    /// The chance of a clean cold try on a day.
    pub fn cold(&self, day: u32) -> f64 {
        self.evening * self.left(day)
    }

    /// A block of so many minutes, with its cold try where it is the first of the day: whether that was clean.
    pub fn practise(&mut self, day: u32, minutes: f64, dice: &mut Dice) -> Option<bool> {
        let is_first = self.practised != Some(day);
        let (now, left) = (self.cold(day), self.left(day));
        let kept = is_first.then(|| dice.happens(now));
        if is_first && self.practised.is_some() {
            self.consolidate(left, if kept == Some(true) { 1.0 } else { 0.0 });
        }
        let missing = (LIMIT - now).max(0.0) * (1.0 - self.rate).powf(minutes);
        self.evening = now.max(LIMIT - missing);
        self.practised = Some(day);
        kept
    }

    /// What a gap does of which this share was left, where it was kept as surely as `kept` says.
    fn consolidate(&mut self, left: f64, kept: f64) {
        let help = 0.3 + 0.7 * kept;
        match self.family {
            Family::Exponential | Family::Floor => self.slowness *= 1.0 + 1.5 * help * (1.0 - left),
            Family::PowerLaw => self.slowness *= 1.0 + 2.0 * help * (1.0 - left),
            Family::TwoTraces => self.slow += 0.5 * help * (1.0 - left).sqrt() * (1.0 - self.slow),
            Family::Late => self.slowness *= 1.12,
        }
    }

    /// The same where a cold try is kept as often as expected, without luck.
    pub fn expect(&mut self, day: u32, minutes: f64) {
        let (now, left) = (self.cold(day), self.left(day));
        if self.practised.is_some_and(|practised| practised != day) {
            self.consolidate(left, now);
        }
        let missing = (LIMIT - now).max(0.0) * (1.0 - self.rate).powf(minutes);
        self.evening = now.max(LIMIT - missing);
        self.practised = Some(day);
    }

    /// What a listener makes of the end of a block: the share of clean ones among the last eight, drawn toward a half.
    pub fn heard(&self, dice: &mut Dice) -> f64 {
        let clean = (0..8).filter(|_| dice.happens(self.evening)).count();
        (clean as f64 + 1.0) / 10.0
    }
}
