//! Wald's sequential test of a chance, exactly: by following the distribution of the clean ones from trial
//! to trial (Wald 1947, "Sequential Analysis"; his own formulas for the trials are approximations).

// Every program uses its own part of this.
#![allow(dead_code)]

/// A test of the chance `bad` against the chance `good` that ends when the logarithm of the likelihood
/// ratio has left `-lower..upper`.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    pub bad: f64,
    pub good: f64,
    pub lower: f64,
    pub upper: f64,
}

/// What a plan does where the chance is a certain one.
#[derive(Clone, Copy, Debug)]
pub struct Exact {
    /// The chance that it decides for the good one.
    pub decides_good: f64,
    /// Trials until it decides, on average.
    pub trials: f64,
}

impl Plan {
    /// Wald's bounds for the risks of taking bad for good (`alpha`) and good for bad (`beta`).
    pub fn wald(bad: f64, good: f64, alpha: f64, beta: f64) -> Self {
        Plan { bad, good, lower: ((1.0 - alpha) / beta).ln(), upper: ((1.0 - beta) / alpha).ln() }
    }

    /// What it does where the chance is `chance`.
    pub fn exact(&self, chance: f64) -> Exact {
        let (up, down) = ((self.good / self.bad).ln(), ((1.0 - self.bad) / (1.0 - self.good)).ln());
        let mut exact = Exact { decides_good: 0.0, trials: 0.0 };
        let mut undecided = vec![(0usize, 1.0)];
        for trial in 1..1_000 {
            let mut next: Vec<(usize, f64)> = Vec::with_capacity(undecided.len() + 1);
            for (clean, likely) in undecided {
                for (clean, likely) in [(clean, likely * (1.0 - chance)), (clean + 1, likely * chance)] {
                    match next.last_mut().filter(|last| last.0 == clean) {
                        Some(last) => last.1 += likely,
                        None => next.push((clean, likely)),
                    }
                }
            }
            undecided = Vec::new();
            for (clean, likely) in next.into_iter().filter(|(_, likely)| *likely > 1e-15) {
                let ratio = clean as f64 * up - (trial - clean) as f64 * down;
                if ratio > -self.lower && ratio < self.upper {
                    undecided.push((clean, likely));
                } else {
                    exact.trials += likely * trial as f64;
                    exact.decides_good += if ratio > 0.0 { likely } else { 0.0 };
                }
            }
        }
        exact
    }
}

/// Trials that every sequential test needs on average where the chance is `good`, if it decides for good
/// with the chance `at_bad` where the chance is `bad` and `at_good` where it is `good` (Wald 1947, his lower
/// limit of the expected number). His own test attains it but for what the last trial overshoots.
pub fn least_trials(bad: f64, good: f64, at_bad: f64, at_good: f64) -> f64 {
    let told_by_a_trial = good * (good / bad).ln() + (1.0 - good) * ((1.0 - good) / (1.0 - bad)).ln();
    let told_at_the_end = at_good * (at_good / at_bad).ln() + (1.0 - at_good) * ((1.0 - at_good) / (1.0 - at_bad)).ln();
    told_at_the_end / told_by_a_trial
}
