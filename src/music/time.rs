//! Musical time as exact fractions of a quarter note.

use num_rational::Ratio;
use std::{
    cmp::Ordering,
    fmt,
    hash::{Hash, Hasher},
    iter::Sum,
    ops::{Add, AddAssign, Div, Mul, Sub},
    str::FromStr,
};

/// A position or a length in quarter notes, exact: a triplet eighth is 1/3, never 0.333.
/// Written as `3` or `7/4`.
#[derive(Clone, Copy, Debug, Default, Eq)]
pub struct Quarters(Ratio<i64>);

/// Finest division of the quarter that is accepted from outside: 16 bits leave room for sums of
/// unlike fractions to stay exact.
const FINEST: i64 = 1 << 16;
/// Longest time accepted from outside, in quarters: some four days of adagio.
const LONGEST: i64 = 1 << 20;

impl Quarters {
    /// No time at all; also the start of a bar.
    pub const ZERO: Quarters = Quarters(Ratio::new_raw(0, 1));
    /// One quarter note.
    pub const ONE: Quarters = Quarters(Ratio::new_raw(1, 1));

    /// `numerator / denominator` quarters, or `None` where the denominator is not in
    /// 1..=65,536 or the value is beyond ±1,048,576 quarters.
    pub fn new(numerator: i64, denominator: i64) -> Option<Self> {
        if !(1..=FINEST).contains(&denominator) || numerator.checked_abs()? > LONGEST * denominator {
            return None;
        }
        Some(Quarters(Ratio::new(numerator, denominator)))
    }

    /// `numerator / denominator` quarters without bounds: for what was a sum of [`Quarters`] before.
    pub(crate) fn exactly(numerator: i64, denominator: i64) -> Option<Self> {
        let sound = denominator > 0 && numerator != i64::MIN;
        sound.then(|| Quarters(Ratio::new(numerator, denominator)))
    }

    /// A whole number of quarters.
    pub fn whole(quarters: u16) -> Self {
        Quarters(Ratio::from_integer(i64::from(quarters)))
    }

    /// The sum, or `None` where it cannot be represented exactly within the bounds of [`Quarters::new`].
    pub fn checked_add(self, other: Quarters) -> Option<Quarters> {
        let (a, b) = (self.0, other.0);
        let numerator = a.numer().checked_mul(*b.denom())?.checked_add(b.numer().checked_mul(*a.denom())?)?;
        let sum = Ratio::new(numerator, a.denom() * b.denom());
        Quarters::new(*sum.numer(), *sum.denom())
    }

    /// The nearest floating-point value, for drawing and for the audio clock.
    pub fn as_f64(self) -> f64 {
        *self.0.numer() as f64 / *self.0.denom() as f64
    }

    /// Numerator of the reduced fraction.
    pub fn numerator(self) -> i64 {
        *self.0.numer()
    }

    /// Denominator of the reduced fraction, at least 1.
    pub fn denominator(self) -> i64 {
        *self.0.denom()
    }
}

// Fractions are kept reduced and mostly have the same few denominators; a general comparison divides.
impl PartialEq for Quarters {
    fn eq(&self, other: &Self) -> bool {
        (self.0.numer(), self.0.denom()) == (other.0.numer(), other.0.denom())
    }
}

impl Hash for Quarters {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (self.0.numer(), self.0.denom()).hash(state);
    }
}

impl Ord for Quarters {
    fn cmp(&self, other: &Self) -> Ordering {
        let across = |a: &Ratio<i64>, b: &Ratio<i64>| i128::from(*a.numer()) * i128::from(*b.denom());
        match self.0.denom() == other.0.denom() {
            true => self.0.numer().cmp(other.0.numer()),
            false => across(&self.0, &other.0).cmp(&across(&other.0, &self.0)),
        }
    }
}

impl PartialOrd for Quarters {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Add for Quarters {
    type Output = Quarters;
    fn add(self, other: Quarters) -> Quarters {
        Quarters(self.0 + other.0)
    }
}

impl AddAssign for Quarters {
    fn add_assign(&mut self, other: Quarters) {
        *self = *self + other;
    }
}

impl Sub for Quarters {
    type Output = Quarters;
    fn sub(self, other: Quarters) -> Quarters {
        Quarters(self.0 - other.0)
    }
}

impl Mul<i64> for Quarters {
    type Output = Quarters;
    fn mul(self, times: i64) -> Quarters {
        Quarters(self.0 * times)
    }
}

impl Div<i64> for Quarters {
    type Output = Quarters;
    fn div(self, parts: i64) -> Quarters {
        Quarters(self.0 / parts)
    }
}

impl Div for Quarters {
    type Output = Ratio<i64>;
    fn div(self, other: Quarters) -> Ratio<i64> {
        self.0 / other.0
    }
}

impl Sum for Quarters {
    fn sum<I: Iterator<Item = Quarters>>(parts: I) -> Quarters {
        parts.fold(Quarters::ZERO, Add::add)
    }
}

impl fmt::Display for Quarters {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A text that is not a fraction of quarters within bounds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotQuarters(String);

impl fmt::Display for NotQuarters {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "“{}” is not a time in quarter notes; write it as 3 or 7/4", self.0)
    }
}

impl std::error::Error for NotQuarters {}

impl FromStr for Quarters {
    type Err = NotQuarters;
    fn from_str(text: &str) -> Result<Self, NotQuarters> {
        let (numerator, denominator) = text.split_once('/').unwrap_or((text, "1"));
        numerator
            .parse()
            .ok()
            .zip(denominator.parse().ok())
            .and_then(|(n, d)| Quarters::new(n, d))
            .ok_or_else(|| NotQuarters(text.into()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_triplet_eighths_make_a_quarter_exactly() {
        let triplet_eighth = Quarters::new(1, 3).expect("in bounds");
        assert_eq!([triplet_eighth; 3].into_iter().sum::<Quarters>(), Quarters::ONE);
    }

    #[test]
    fn what_comes_from_outside_is_bounded() {
        assert!("1/0".parse::<Quarters>().is_err());
        assert!("1/65537".parse::<Quarters>().is_err());
        assert!("9223372036854775807".parse::<Quarters>().is_err());
        assert_eq!("-7/4".parse::<Quarters>().map(|q| q.to_string()), Ok("-7/4".into()));
    }
}
