//! What is believed about the step that is played now, and what one step tells about its neighbour.

use crate::method::{
    Hands, Step, Verdict,
    evidence::{Belief, Kernel, Tails, learning_curve_by, learning_trial},
};
use std::array;
use std::rc::Rc;

/// How a change shifts the chance, in logits: its mean and its variance from step to step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shift {
    /// In logits.
    pub mean: f64,
    /// In squared logits, more than 0.
    pub variance: f64,
}

impl Shift {
    /// A shift by `mean` logits with this variance, in squared logits.
    pub const fn new(mean: f64, variance: f64) -> Self {
        Shift { mean, variance }
    }
}

/// Kinds of pupil that are told apart.
const KINDS: usize = 2;

/// A kind of pupil: what a repetition teaches them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pupil {
    /// How many are so, beforehand.
    pub share: f64,
    /// What a clean repetition adds to the chance on average, in logits …
    pub by_clean: f64,
    /// … and a missed one.
    pub by_missed: f64,
}

/// What is believed before anything is heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Priors {
    /// The logit of the chance at the first step of all, one onset in one hand.
    pub first: Shift,
    /// Variance of the chance's random walk from one repetition to the next, in squared logits.
    pub walk: f64,
    /// The kinds of pupil there are; their shares add up to one.
    pub pupils: [Pupil; KINDS],
    /// The chance that a pupil is of another kind from one step to the next.
    pub fickle: f64,
    /// What lies between two steps or two sittings, in the order of [`Transition::ALL`].
    pub shifts: [Shift; Transition::ALL.len()],
}

impl Priors {
    /// Looked for with simulated players; DEVELOPERS.md tells how.
    pub const CHOSEN: Priors = Priors {
        // Limited by the sequential test: a higher prior saves a repetition of this one step, but calls it secure too
        // often at a chance of 0.6.
        first: Shift::new(0.5, 2.5),
        // The published example sequence of Smith et al. 2004 is most likely at 0.93 and refutes none above 0.1 (the
        // likelihood-ratio test, see the tests). Slower walks are more accurate where nothing changes.
        walk: 0.1,
        pupils: [
            // Learns from a miss as from anything …
            Pupil { share: 0.6, by_clean: 0.15, by_missed: 0.25 },
            // … or learns the miss. Without this kind “secure” is overclaimed for players who learn errors too.
            Pupil { share: 0.4, by_clean: 0.1, by_missed: -0.3 },
        ],
        // Nobody is written off for good.
        fickle: 0.02,
        // A chance of 0.88 becomes …
        shifts: [
            // … 0.77 with an onset more in the same hand,
            Shift::new(-0.8, 0.2),
            // 0.85 where one hand has it alone, as the other rests,
            Shift::new(-0.25, 0.05),
            // 0.64 where both have it at once,
            Shift::new(-1.4, 0.7),
            // 0.63 when the other hand joins,
            Shift::new(-1.46, 0.23),
            // and 0.84 at the next tempo.
            Shift::new(-0.34, 0.27),
            // A chance of 0.35 becomes 0.69: a task that was cut down should mostly work.
            Shift::new(1.4, 0.5),
            Shift::new(0.13, 0.05),
            // A night may help (Walker et al. 2002), and what was learned minutes before it may be gone.
            Shift::new(-0.28, 0.05),
        ],
    };
}

/// What lies between a belief and the one carried over from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Transition {
    /// An onset more in the same hand.
    Longer,
    /// An onset more, in one hand where both had played.
    LongerApart,
    /// An onset more in both hands.
    LongerTogether,
    /// The other hand too.
    Joined,
    /// As many onsets and hands at a faster tempo.
    Faster,
    /// Fewer onsets, one hand, or slower.
    Easier,
    /// A rest on the same day.
    Rested,
    /// At least one night.
    Overnight,
}

impl Transition {
    /// Every transition, in the order of [`Priors::shifts`].
    pub const ALL: [Transition; 8] = [
        Transition::Longer,
        Transition::LongerApart,
        Transition::LongerTogether,
        Transition::Joined,
        Transition::Faster,
        Transition::Easier,
        Transition::Rested,
        Transition::Overnight,
    ];

    /// What lies between two different steps of one sitting.
    pub fn between(from: Step, to: Step) -> Self {
        let (had_both, has_both) = (from.hands == Hands::Both, to.hands == Hands::Both);
        match () {
            () if to.is_smaller_than(from) => Transition::Easier,
            () if to.span.count() > from.span.count() => match (had_both, has_both) {
                (true, false) => Transition::LongerApart,
                (_, true) => Transition::LongerTogether,
                (false, false) => Transition::Longer,
            },
            () if has_both && !had_both => Transition::Joined,
            () => Transition::Faster,
        }
    }
}

/// The priors, made ready to be applied.
#[derive(Debug)]
struct Model {
    pupils: [Ways; KINDS],
    fickle: f64,
    changes: [Kernel; Transition::ALL.len()],
}

/// How the chance of one kind of pupil moves on from a repetition.
#[derive(Debug)]
struct Ways {
    share: f64,
    after_clean: Kernel,
    after_missed: Kernel,
}

impl Model {
    fn of(priors: &Priors) -> Self {
        let ways = |Pupil { share, by_clean, by_missed }| Ways {
            share,
            after_clean: Kernel::normal(by_clean, priors.walk),
            after_missed: Kernel::normal(by_missed, priors.walk),
        };
        Model {
            pupils: priors.pupils.map(ways),
            fickle: priors.fickle,
            changes: priors.shifts.map(|shift| Kernel::normal(shift.mean, shift.variance)),
        }
    }
}

impl Ways {
    fn after(&self, verdict: Verdict) -> &Kernel {
        match verdict {
            Verdict::Clean => &self.after_clean,
            Verdict::NotYet => &self.after_missed,
        }
    }
}

/// What is believed about the chance of a clean repetition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChanceBand {
    /// The expected chance, 0..=1.
    pub mean: f64,
    /// The truth lies below with probability 0.05 …
    pub low: f64,
    /// … and above with probability 0.05.
    pub high: f64,
}

impl ChanceBand {
    fn of(belief: &Belief) -> Self {
        let tails = belief.tails();
        ChanceBand { mean: belief.mean(), low: tails.quantile(0.05), high: tails.quantile(0.95) }
    }
}

/// One repetition of a block and what is known now about its step at that time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Believed {
    /// What was played.
    pub step: Step,
    /// How it was judged.
    pub verdict: Verdict,
    /// The believed chance of a clean repetition at that time.
    pub chance: ChanceBand,
}

/// What is believed if the pupil is of one kind, and how likely that is.
#[derive(Clone, Debug)]
struct Case {
    weight: f64,
    prior: Belief,
    belief: Belief,
}

impl Case {
    fn new(weight: f64, prior: Belief) -> Self {
        Case { weight, belief: prior.clone(), prior }
    }
}

/// The evidence about one step since it was taken up, and about the pupil since the beginning: a filter for each
/// kind, weighted by how likely the kind makes what was heard. Together they are the exact posterior.
#[derive(Clone, Debug)]
pub struct Estimate {
    model: Rc<Model>,
    cases: [Case; KINDS],
    /// All cases by their weight.
    belief: Belief,
    verdicts: Vec<Verdict>,
    /// The mean that was believed after each verdict.
    means: Vec<f64>,
}

impl Estimate {
    /// Before anything has been played.
    pub fn first(priors: &Priors) -> Self {
        let (model, Shift { mean, variance }) = (Model::of(priors), priors.first);
        let cases = array::from_fn(|kind| Case::new(model.pupils[kind].share, Belief::normal(mean, variance)));
        Estimate::with(Rc::new(model), cases)
    }

    /// Before the first repetition of a step that differs by `change` from this one.
    pub fn carried(&self, change: Transition) -> Self {
        let Model { pupils, fickle, changes } = self.model.as_ref();
        let cases = array::from_fn(|kind| {
            let case = &self.cases[kind];
            let (stayed, became) = ((1.0 - fickle) * case.weight, fickle * pupils[kind].share);
            let before = Belief::mixture([(stayed, &case.belief), (became, &self.belief)]);
            Case::new(stayed + became, before.moved(&changes[change as usize]))
        });
        Estimate::with(Rc::clone(&self.model), cases)
    }

    /// The same about the step, with what `other`, which has heard more, knows of the pupil.
    pub fn of_the_pupil_of(mut self, other: &Estimate) -> Self {
        self.cases.iter_mut().zip(&other.cases).for_each(|(case, known)| case.weight = known.weight);
        self.belief = mixture(&self.cases);
        self
    }

    fn with(model: Rc<Model>, cases: [Case; KINDS]) -> Self {
        Estimate { model, belief: mixture(&cases), cases, verdicts: Vec::new(), means: Vec::new() }
    }

    /// Takes one repetition in.
    pub fn hear(&mut self, verdict: Verdict) {
        let last = self.verdicts.last().copied();
        for (case, ways) in self.cases.iter_mut().zip(&self.model.pupils) {
            let expected = last.map_or_else(|| case.prior.clone(), |last| case.belief.moved(ways.after(last)));
            let (belief, likely) = expected.told(verdict);
            (case.belief, case.weight) = (belief, case.weight * likely);
        }
        let all: f64 = self.cases.iter().map(|case| case.weight).sum();
        self.cases.iter_mut().for_each(|case| case.weight /= all);
        self.belief = mixture(&self.cases);
        self.verdicts.push(verdict);
        self.means.push(self.belief.mean());
    }

    /// What is believed now.
    pub fn now(&self) -> ChanceBand {
        ChanceBand::of(&self.belief)
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

    /// Each repetition of the `step` that this is about, with what is known now about its chance.
    pub fn believed(&self, step: Step) -> Vec<Believed> {
        let known = self.smoothed();
        let believed = |(belief, verdict): (&Belief, &Verdict)| Believed {
            step,
            verdict: *verdict,
            chance: ChanceBand::of(belief),
        };
        known.iter().zip(&self.verdicts).map(believed).collect()
    }

    /// The learning trial of Smith et al. 2004: the repetition of the step, counted from one, since which its
    /// chance has been above one half, with a certainty of 0.95 at each; `None` where that is not so yet.
    pub fn learned_since(&self) -> Option<usize> {
        learning_trial(&self.smoothed(), 0.5, 0.95).map(|index| index + 1)
    }

    /// What is known now of each repetition: the smoothed curve for each kind, by how likely the kind is now.
    fn smoothed(&self) -> Vec<Belief> {
        let curve = |(case, ways): (&Case, &Ways)| {
            learning_curve_by(&case.prior, |verdict| ways.after(verdict), &self.verdicts).smoothed
        };
        let curves: Vec<Vec<Belief>> = self.cases.iter().zip(&self.model.pupils).map(curve).collect();
        let at =
            |n: usize| Belief::mixture(self.cases.iter().zip(&curves).map(|(case, curve)| (case.weight, &curve[n])));
        (0..self.verdicts.len()).map(at).collect()
    }

    fn count(&self, wanted: Verdict) -> u32 {
        self.verdicts.iter().filter(|verdict| **verdict == wanted).count() as u32
    }
}

fn mixture(cases: &[Case]) -> Belief {
    Belief::mixture(cases.iter().map(|case| (case.weight, &case.belief)))
}
