//! What is believed about the step that is played now, and what one step tells about its neighbour.
//!
//! Refuses to know which step comes next.

use super::advice::Believed;
use super::evidence::{Belief, Kernel, Tails, learning_curve};
use super::{Step, Verdict};
use std::sync::LazyLock;

/// Mean and variance, in logits, of the first step of all: one onset in one hand. About two chances in
/// three, held so loosely that five clean repetitions in a row settle it. Invented, to be tuned.
const FIRST: (f64, f64) = (1.0, 1.5);

/// Variance of the chance's random walk from one repetition to the next, in squared logits: over ten
/// repetitions the chance may well go from one half to three quarters. Invented, to be tuned.
const WALK: f64 = 0.15;

static STEP_OF_THE_WALK: LazyLock<Kernel> = LazyLock::new(|| Kernel::normal(0.0, WALK));

/// What lies between a belief and the one carried over from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// An onset more, the other hand too, or faster.
    Harder,
    /// Fewer onsets, one hand, or slower.
    Easier,
    /// A rest on the same day.
    Rested,
    /// At least one night.
    Overnight,
}

impl Change {
    /// Mean and variance in logits of what the change does to the chance. Invented, to be tuned.
    fn in_logits(self) -> (f64, f64) {
        match self {
            // A chance of 0.88 becomes 0.82: two to four clean repetitions make it secure again.
            Change::Harder => (-0.5, 0.2),
            // A chance of 0.35 becomes 0.6, held loosely: a task that was cut down should mostly work.
            Change::Easier => (1.3, 0.8),
            Change::Rested => (0.0, 0.2),
            // A night may help (Walker et al. 2002) and what was learned minutes before it may be gone:
            // mostly the belief is wider.
            Change::Overnight => (-0.3, 0.5),
        }
    }
}

/// What is believed about the chance of a clean repetition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    pub mean: f64,
    /// The truth lies below with probability 0.05 …
    pub low: f64,
    /// … and above with probability 0.05.
    pub high: f64,
}

impl Point {
    fn of(belief: &Belief) -> Self {
        let tails = belief.tails();
        Point { mean: belief.mean(), low: tails.quantile(0.05), high: tails.quantile(0.95) }
    }
}

/// The evidence about one step since it was taken up.
#[derive(Clone, Debug)]
pub struct Estimate {
    prior: Belief,
    belief: Belief,
    verdicts: Vec<Verdict>,
    /// The mean that was believed after each verdict.
    means: Vec<f64>,
}

impl Estimate {
    /// Before anything has been played.
    pub fn first() -> Self {
        Estimate::with(Belief::normal(FIRST.0, FIRST.1))
    }

    /// Before the first repetition of a step that differs by `change` from this one.
    pub fn carried(&self, change: Change) -> Self {
        let (mean, variance) = change.in_logits();
        Estimate::with(self.belief.moved(&Kernel::normal(mean, variance)))
    }

    fn with(prior: Belief) -> Self {
        Estimate { belief: prior.clone(), prior, verdicts: Vec::new(), means: Vec::new() }
    }

    /// Takes one repetition in.
    pub fn hear(&mut self, verdict: Verdict) {
        let expected = if self.verdicts.is_empty() { &self.prior } else { &self.belief.moved(&STEP_OF_THE_WALK) };
        self.belief = expected.told(verdict).0;
        self.verdicts.push(verdict);
        self.means.push(self.belief.mean());
    }

    /// What is believed now.
    pub fn now(&self) -> Point {
        Point::of(&self.belief)
    }

    /// The belief, ready to be asked for tails.
    pub fn tails(&self) -> Tails {
        self.belief.tails()
    }

    /// The chance that the next repetition is clean.
    pub fn mean(&self) -> f64 {
        self.belief.mean()
    }

    /// The means that were believed after each repetition, the latest first.
    pub fn means_back(&self) -> impl Iterator<Item = f64> {
        self.means.iter().rev().copied()
    }

    /// Clean repetitions since the step was taken up.
    pub fn clean(&self) -> u32 {
        self.count(Verdict::Clean)
    }

    /// Repetitions that were not clean since the step was taken up.
    pub fn missed(&self) -> u32 {
        self.count(Verdict::NotYet)
    }

    /// All repetitions since the step was taken up.
    pub fn repetitions(&self) -> u32 {
        self.verdicts.len() as u32
    }

    /// Each repetition of the `step` that this is about, with what was believed after it.
    pub fn believed(&self, step: Step) -> Vec<Believed> {
        let after = learning_curve(&self.prior, &STEP_OF_THE_WALK, &self.verdicts).filtered;
        let believed =
            |(belief, verdict): (&Belief, &Verdict)| Believed { step, verdict: *verdict, chance: Point::of(belief) };
        after.iter().zip(&self.verdicts).map(believed).collect()
    }

    fn count(&self, wanted: Verdict) -> u32 {
        self.verdicts.iter().filter(|verdict| **verdict == wanted).count() as u32
    }
}
