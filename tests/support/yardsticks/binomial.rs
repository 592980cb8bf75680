//! How far a share that was counted may lie from the true one.

// Every program uses its own part of this.
#![allow(dead_code)]

/// Standard deviations that hold 95 % of a normal distribution.
pub const TWO_SIDED_95: f64 = 1.959_963_984_540_054;

/// The interval of Wilson 1927 for `count` of `of`, `z` standard deviations to either side.
pub fn wilson(count: f64, of: f64, z: f64) -> (f64, f64) {
    let share = count / of;
    let (middle, scale) = (share + z * z / (2.0 * of), 1.0 + z * z / of);
    let reach = z * (share * (1.0 - share) / of + z * z / (4.0 * of * of)).sqrt();
    ((middle - reach) / scale, (middle + reach) / scale)
}

/// The exact interval of Clopper & Pearson 1934: each end leaves this much to its own side.
pub fn exact(count: u32, of: u32, each_side: f64) -> (f64, f64) {
    let at_least = |chance: f64| 1.0 - at_most(count.saturating_sub(1), of, chance);
    let low = if count == 0 { 0.0 } else { root(|chance| at_least(chance) - each_side) };
    let high = if count == of { 1.0 } else { root(|chance| each_side - at_most(count, of, chance)) };
    (low, high)
}

/// The probability of at most `count` of `of`.
fn at_most(count: u32, of: u32, chance: f64) -> f64 {
    let mut term = (1.0 - chance).powi(of as i32);
    let mut sum = term;
    for k in 1..=count {
        term *= f64::from(of - k + 1) / f64::from(k) * chance / (1.0 - chance);
        sum += term;
    }
    sum
}

/// Where `rising` crosses zero between 0 and 1.
fn root(rising: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if rising(middle) < 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}
