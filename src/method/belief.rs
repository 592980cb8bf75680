//! What is believed about the places of a snippet, and through them about every step of it.
//!
//! The evidence is about places: a clean repetition of a long span speaks for all that it holds, a short one for its part of
//! the whole. Each place has a hazard, the failures expected there in one repetition, and a gamma density of it. What is
//! not known of the player, how hard this snippet is for them and what a repetition teaches them, is a handful of cases,
//! weighted by how likely each made what was heard. A verdict is heard as it was meant but for a small share of slips:
//!
//! P(clean | H) = slip + (1 − 2 slip) e⁻ᴴ, with H the sum of the hazards of the step's places.
//!
//! After a clean repetition without slips the densities stay gamma densities, exactly. After a miss, and with slips, each
//! place's density is replaced by the gamma density with the same two first moments; dependence between places, which a miss
//! brings about, is dropped. What that costs is told in `tests/belief.rs`.

use crate::{
    method::{
        Snippet, Step, Verdict,
        hazard::{Hazard, at_most},
        places::{self, Place, PlaceKind},
    },
    music::Bpm,
};
use std::rc::Rc;

/// What a repetition teaches a kind of player.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pupil {
    /// How many are so, beforehand.
    pub share: f64,
    /// What a clean repetition takes from the logarithm of each hazard that is attended to …
    pub by_clean: f64,
    /// … and a missed one.
    pub by_missed: f64,
}

/// Kinds of player that are told apart, by what repetitions teach them and by how hard the snippet is for them.
const KINDS: usize = 3;
const LEVELS: usize = 3;

/// What is believed before anything is heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Priors {
    /// Mean hazards of an onset, a way and a meeting, at the target tempo.
    pub hazards: [f64; 3],
    /// Shape of the gamma density of each: how alike the places of one player are.
    pub shape: f64,
    /// How hard the snippet is, as a factor of all hazards, each with its share of the players.
    pub levels: [(f64, f64); LEVELS],
    /// The kinds of player; their shares add up to one.
    pub pupils: [Pupil; KINDS],
    /// Places that are still unsure and can be attended to at once (about four: Cowan 2001).
    pub attention: f64,
    /// Share of the verdicts that say the opposite of what they should.
    pub slip: f64,
    /// Power of the tempo, as a share of the target, that hazards go with.
    pub haste: f64,
    /// What is kept, as a share, of what is known of a hazard: after a repetition of it, a rest and a night …
    pub kept: [f64; 3],
    /// … and what a rest and a night make of the hazard, as a factor.
    pub after: [f64; 2],
}

impl Priors {
    /// Looked for with simulated players; DEVELOPERS.md tells how.
    pub const CHOSEN: Priors = Priors {
        hazards: [0.06, 0.17, 0.17],
        shape: 1.5,
        levels: [(0.06, 0.25), (0.8, 0.45), (2.2, 0.3)],
        pupils: [
            Pupil { share: 0.4, by_clean: 0.2, by_missed: 0.12 },
            Pupil { share: 0.3, by_clean: 0.05, by_missed: 0.05 },
            Pupil { share: 0.3, by_clean: 0.1, by_missed: -0.1 },
        ],
        attention: 4.0,
        slip: 0.02,
        haste: 2.0,
        kept: [0.98, 0.95, 0.9],
        after: [1.0, 1.0],
    };
}

/// A hazard that is smaller needs no attention.
const AT_HAND: f64 = 0.03;

/// What is believed if the player and the snippet are of one kind, and how likely that is.
#[derive(Clone, Debug)]
struct Case {
    weight: f64,
    pupil: Pupil,
    hazards: Vec<Hazard>,
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
    /// Whether the belief tells enough to be put into a number: the band is not wider than about a third of all chances.
    pub fn tells(&self) -> bool {
        self.high - self.low <= WIDEST
    }
}

/// The widest band that is still told; the method's own choice.
const WIDEST: f64 = 0.35;

/// What is believed about all places of a snippet.
#[derive(Clone, Debug)]
pub struct Belief {
    places: Rc<[Place]>,
    target: Bpm,
    priors: Priors,
    cases: Vec<Case>,
}

impl Belief {
    /// Before anything has been played.
    pub fn first(snippet: &Snippet, priors: &Priors) -> Self {
        let places: Rc<[Place]> = places::of(snippet).into();
        let case = |pupil: Pupil, (level, share): (f64, f64)| Case {
            weight: pupil.share * share,
            pupil,
            hazards: places.iter().map(|place| Hazard::new(level * usual(place, priors), priors.shape)).collect(),
        };
        let each = |pupil: Pupil| priors.levels.map(|level| case(pupil, level));
        let cases = priors.pupils.into_iter().flat_map(each).collect();
        Belief { places, target: snippet.tempo().bpm, priors: *priors, cases }
    }

    /// Takes one repetition of `step` in. Where the player said at which onset it broke, what came before went right, and
    /// what comes after was not judged.
    pub fn hear(&mut self, step: Step, verdict: Verdict, broke_at: Option<usize>) {
        let (played, strain) = (self.played(step), self.strain(step));
        let Priors { slip, attention, kept, .. } = self.priors;
        let parts = self.parts_judged(&played, verdict, broke_at);
        let mut all = 0.0;
        for case in &mut self.cases {
            let taught = case.attention(&played, attention) * case.pupil.taught_by(verdict);
            for (part, verdict) in &parts {
                case.weigh(part, strain, *verdict, slip);
            }
            for place in &played {
                case.hazards[*place] = case.hazards[*place].scaled((-taught).exp()).faded(kept[0]);
            }
            all += case.weight;
        }
        self.cases.iter_mut().for_each(|case| case.weight /= all);
    }

    /// What a verdict speaks of: all that was `played`, or what was heard up to where it broke.
    fn parts_judged(&self, played: &[usize], verdict: Verdict, broke_at: Option<usize>) -> Vec<(Vec<usize>, Verdict)> {
        let heard = |when: &dyn Fn(usize) -> bool| -> Vec<usize> {
            played.iter().copied().filter(|place| when(self.places[*place].heard_at())).collect()
        };
        let broken = broke_at.filter(|_| verdict == Verdict::NotYet);
        let places = broken.map(|onset| (onset, heard(&|at| at == onset))).filter(|(_, broken)| !broken.is_empty());
        match places {
            Some((onset, broken)) => vec![(heard(&|at| at < onset), Verdict::Clean), (broken, Verdict::NotYet)],
            None => vec![(played.to_vec(), verdict)],
        }
    }

    /// After a rest on the same day.
    pub fn rest(&mut self) {
        self.pass(self.priors.after[0], self.priors.kept[1]);
    }

    /// After at least one night.
    pub fn sleep(&mut self) {
        self.pass(self.priors.after[1], self.priors.kept[2]);
    }

    fn pass(&mut self, factor: f64, kept: f64) {
        let hazards = self.cases.iter_mut().flat_map(|case| &mut case.hazards);
        hazards.for_each(|hazard| *hazard = hazard.scaled(factor).faded(kept));
    }

    /// The chance that a repetition of `step` would be judged clean.
    pub fn chance(&self, step: Step) -> f64 {
        let (played, strain) = (self.played(step), self.strain(step));
        let right: f64 = self.cases.iter().map(|case| case.weight * case.chance(&played, strain)).sum();
        self.heard(right)
    }

    /// The probability that the chance of `step` going right is above `level`, which is strictly between 0 and 1. The sum of
    /// the places' hazards is taken for a gamma variable in each case.
    pub fn chance_above(&self, step: Step, level: f64) -> f64 {
        above(&self.totals(step), level)
    }

    /// The expected chance of a clean repetition of `step`, and the band that holds the truth nine times in ten.
    pub fn point(&self, step: Step) -> ChanceBand {
        let (totals, mean) = (self.totals(step), self.chance(step));
        let quantile = |share: f64| self.heard(quantile(&totals, share));
        ChanceBand { mean, low: quantile(0.05).min(mean), high: quantile(0.95).max(mean) }
    }

    /// What a repetition of `step` is expected to take from the hazards of the whole snippet.
    pub fn gain(&self, step: Step) -> f64 {
        let (played, strain) = (self.played(step), self.strain(step));
        let gain = |case: &Case| {
            let (chance, attention) = (case.chance(&played, strain), case.attention(&played, self.priors.attention));
            let taken = |verdict| 1.0 - (-attention * case.pupil.taught_by(verdict)).exp();
            let open: f64 = played.iter().map(|place| case.hazards[*place].mean()).sum();
            case.weight * open * (chance * taken(Verdict::Clean) + (1.0 - chance) * taken(Verdict::NotYet))
        };
        self.cases.iter().map(gain).sum()
    }

    /// All places with the failures that are expected there in one repetition at the target tempo, now and before anything
    /// was heard.
    pub fn hazards(&self) -> impl Iterator<Item = (Place, [f64; 2])> + '_ {
        let level: f64 = self.priors.levels.iter().map(|(level, share)| level * share).sum();
        let now = |nth: usize| self.cases.iter().map(|case| case.weight * case.hazards[nth].mean()).sum();
        let both = move |(nth, place): (usize, &Place)| (*place, [now(nth), level * usual(place, &self.priors)]);
        self.places.iter().enumerate().map(both)
    }

    fn heard(&self, right: f64) -> f64 {
        self.priors.slip + (1.0 - 2.0 * self.priors.slip) * right
    }

    fn played(&self, step: Step) -> Vec<usize> {
        (0..self.places.len()).filter(|place| self.places[*place].is_in(step)).collect()
    }

    fn strain(&self, step: Step) -> f64 {
        (f64::from(step.bpm.get()) / f64::from(self.target.get())).powf(self.priors.haste)
    }

    /// For each case its weight and the mean and variance of the step's hazard.
    fn totals(&self, step: Step) -> Vec<(f64, f64, f64)> {
        let (played, strain) = (self.played(step), self.strain(step));
        let total = |case: &Case| {
            let hazards = || played.iter().map(|place| case.hazards[*place]);
            let mean: f64 = hazards().map(Hazard::mean).sum();
            let variance: f64 = hazards().map(Hazard::variance).sum();
            (case.weight, mean * strain, variance * strain * strain)
        };
        self.cases.iter().map(total).collect()
    }
}

impl Case {
    /// Weighs the case, and the hazards of the places in it that were judged, by how likely the verdict was: `even` + `by_chance`
    /// e⁻ᴴ.
    fn weigh(&mut self, judged: &[usize], strain: f64, verdict: Verdict, slip: f64) {
        let (even, by_chance) = match verdict {
            Verdict::Clean => (slip, 1.0 - 2.0 * slip),
            Verdict::NotYet => (1.0 - slip, 2.0 * slip - 1.0),
        };
        let likely = even + by_chance * self.chance(judged, strain);
        for place in judged {
            self.hazards[*place] = self.hazards[*place].weighted(even / likely, strain);
        }
        self.weight *= likely;
    }

    /// E e⁻ᴴ of the places that are played.
    fn chance(&self, played: &[usize], strain: f64) -> f64 {
        (-played.iter().map(|place| self.hazards[*place].cost(strain)).sum::<f64>()).exp()
    }

    /// The share of each place's learning that attention is left for.
    fn attention(&self, played: &[usize], at_once: f64) -> f64 {
        let unsure: f64 = played.iter().map(|place| (self.hazards[*place].mean() / AT_HAND).min(1.0)).sum();
        (at_once / unsure).min(1.0)
    }
}

impl Pupil {
    fn taught_by(self, verdict: Verdict) -> f64 {
        match verdict {
            Verdict::Clean => self.by_clean,
            Verdict::NotYet => self.by_missed,
        }
    }
}

fn above(totals: &[(f64, f64, f64)], level: f64) -> f64 {
    totals.iter().map(|(weight, mean, variance)| weight * at_most(*mean, *variance, -level.ln())).sum()
}

/// The chance below which the truth lies with probability `share`, to a thousandth.
fn quantile(totals: &[(f64, f64, f64)], share: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..10 {
        let middle = 0.5 * (low + high);
        if above(totals, middle) >= 1.0 - share { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The mean hazard of a place for a player of the middle level.
fn usual(place: &Place, priors: &Priors) -> f64 {
    priors.hazards[match place.kind {
        PlaceKind::Onset => 0,
        PlaceKind::Way => 1,
        PlaceKind::Meeting => 2,
    }]
}
