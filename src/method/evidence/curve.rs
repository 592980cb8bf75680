//! The learning curve of repetitions that are all known: forward–backward over the whole sequence.

use crate::method::{
    Verdict,
    evidence::{
        belief::{Belief, likelihood},
        grid::{GridValues, POINTS},
        kernel::Kernel,
    },
};
use std::array;

/// What was believed at each repetition, in their order.
pub struct LearningCurve {
    /// From the repetitions up to and including this one.
    pub filtered: Vec<Belief>,
    /// From all repetitions, the later ones too.
    pub smoothed: Vec<Belief>,
    /// Natural logarithm of the probability of the verdicts under the model.
    pub log_likelihood: f64,
}

/// The learning curve of `verdicts`. `prior` is the belief about the first repetition before its
/// verdict; between two repetitions the chance moves by `walk`.
pub fn learning_curve(prior: &Belief, walk: &Kernel, verdicts: &[Verdict]) -> LearningCurve {
    learning_curve_by(prior, |_| walk, verdicts)
}

/// The same where the chance moves by another walk after a clean repetition than after a missed one.
pub fn learning_curve_by<'a>(
    prior: &Belief,
    walk_after: impl Fn(Verdict) -> &'a Kernel,
    verdicts: &[Verdict],
) -> LearningCurve {
    let walks: Vec<&Kernel> = verdicts.iter().map(|verdict| walk_after(*verdict)).collect();
    let mut filtered: Vec<Belief> = Vec::with_capacity(verdicts.len());
    let mut log_likelihood = 0.0;
    for (n, verdict) in verdicts.iter().enumerate() {
        let expected = filtered.last().map_or_else(|| prior.clone(), |before| before.moved(walks[n - 1]));
        let (belief, likely) = expected.told(*verdict);
        filtered.push(belief);
        log_likelihood += likely.ln();
    }
    let smoothed = smoothed(&filtered, &walks, verdicts);
    LearningCurve { filtered, smoothed, log_likelihood }
}

/// Each filtered belief weighted by how likely the later verdicts are from there.
fn smoothed(filtered: &[Belief], walks: &[&Kernel], verdicts: &[Verdict]) -> Vec<Belief> {
    let mut later: GridValues = [1.0; POINTS];
    let mut smoothed = Vec::with_capacity(filtered.len());
    for (n, belief) in filtered.iter().enumerate().rev() {
        if let Some(next) = verdicts.get(n + 1) {
            later = walks[n].expect(&array::from_fn(|i| later[i] * likelihood(*next, i)));
        }
        let mut weighted = Belief { mass: array::from_fn(|i| belief.mass[i] * later[i]) };
        weighted.normalise();
        smoothed.push(weighted);
        let most = later.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
        later.iter_mut().for_each(|value| *value /= most);
    }
    smoothed.reverse();
    smoothed
}

impl LearningCurve {
    /// The [`learning_trial`] of this curve.
    pub fn learning_trial(&self, chance: f64, certainty: f64) -> Option<usize> {
        learning_trial(&self.smoothed, chance, certainty)
    }
}

/// Index of the first repetition from which on, to the last one, the smoothed chance is above
/// `chance` with more than `certainty` (Smith et al. 2004: "the first trial on which there is
/// reasonable certainty (>0.95) that a subject performs better than chance for the balance of the
/// experiment"). It is read off the exact posterior, not off its Gaussian approximation, and can
/// come one repetition earlier or later than the latter.
pub fn learning_trial(smoothed: &[Belief], chance: f64, certainty: f64) -> Option<usize> {
    let unsure = |belief: &Belief| belief.tails().chance_above(chance) <= certainty;
    let first = smoothed.iter().rposition(unsure).map_or(0, |last_unsure| last_unsure + 1);
    (first < smoothed.len()).then_some(first)
}
