//! A chance as a value.

/// The chance of something, 0..=1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Chance(f64);

impl Chance {
    /// It cannot happen.
    pub const NONE: Chance = Chance(0.0);
    /// It always happens.
    pub const SURE: Chance = Chance(1.0);

    /// The chance nearest to `value`; what is not a number is no chance at all.
    pub const fn new(value: f64) -> Self {
        Chance(if value > 1.0 {
            1.0
        } else if value > 0.0 {
            value
        } else {
            0.0
        })
    }

    /// As a number, 0..=1.
    pub const fn get(self) -> f64 {
        self.0
    }
}

/// A chance that is not known for sure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// What is expected.
    pub mean: Chance,
    /// The truth lies below with probability 0.1 …
    pub low: Chance,
    /// … and above with probability 0.1.
    pub high: Chance,
}
