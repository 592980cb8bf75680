//! The learning curve against published definitions and an independent dense computation.

use serde::Deserialize;
use tailfirst::method::evidence::{Belief, Kernel, LearningCurve, learning_curve};
use tailfirst::method::{Priors, Verdict};

/// The reference and where it comes from stand in the file itself.
#[derive(Deserialize)]
struct Reference {
    cases: Vec<Case>,
    walk: Walk,
}

/// How likely S1 is for other variances of the walk.
#[derive(Deserialize)]
struct Walk {
    tried: Vec<(f64, f64)>,
    log_likelihood: f64,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    verdicts: Vec<u8>,
    mu: f64,
    m1: f64,
    v1: f64,
    q: f64,
    chance: f64,
    log_likelihood: f64,
    /// Counted from 1.
    learning_trial: Option<usize>,
    filtered: Vec<[f64; 5]>,
    smoothed: Vec<[f64; 5]>,
}

fn read() -> Reference {
    serde_json::from_str(include_str!("data/learning.json")).expect("the reference reads")
}

fn reference() -> Vec<Case> {
    read().cases
}

impl Case {
    fn curve(&self) -> LearningCurve {
        self.curve_with(self.q)
    }

    fn curve_with(&self, walk: f64) -> LearningCurve {
        let verdict = |told: &u8| if *told == 1 { Verdict::Clean } else { Verdict::NotYet };
        let verdicts: Vec<Verdict> = self.verdicts.iter().map(verdict).collect();
        learning_curve(&Belief::normal(self.mu + self.m1, self.v1), &Kernel::normal(0.0, walk), &verdicts)
    }

    /// Mean, 5 %, 50 % and 95 % quantile, and the probability of being better than chance.
    fn row(&self, belief: &Belief) -> [f64; 5] {
        let tails = belief.tails();
        [
            belief.mean(),
            tails.quantile(0.05),
            tails.quantile(0.5),
            tails.quantile(0.95),
            tails.chance_above(self.chance),
        ]
    }
}

#[test]
fn filter_and_smoother_agree_with_the_dense_reference_to_a_millionth() {
    for case in reference() {
        let curve = case.curve();
        assert_eq!(curve.filtered.len(), case.filtered.len());
        let mut worst = 0f64;
        for (beliefs, rows) in [(&curve.filtered, &case.filtered), (&curve.smoothed, &case.smoothed)] {
            for (belief, expected) in beliefs.iter().zip(rows) {
                let differences =
                    case.row(belief).into_iter().zip(expected).map(|(ours, theirs)| (ours - theirs).abs());
                worst = differences.fold(worst, f64::max);
            }
        }
        let likelihood = (curve.log_likelihood - case.log_likelihood).abs();
        println!("{}: largest difference {worst:.1e}, of the log-likelihood {likelihood:.1e}", case.name);
        assert!(worst < 1e-6 && likelihood < 1e-6, "{}", case.name);
    }
}

/// Smith et al. 2004; the exact posterior says 5, 8 and never.
#[test]
fn the_learning_trial_is_the_first_after_which_certainty_never_falls_again() {
    for case in reference() {
        let trial = case.curve().learning_trial(case.chance, 0.95).map(|index| index + 1);
        assert_eq!(trial, case.learning_trial, "{}", case.name);
    }
}

/// Half the 95 % point of chi-squared with one degree of freedom (3.8415, from memory): a variance whose
/// log-likelihood is nearer than this to the highest is not refuted by the likelihood-ratio test.
const NOT_REFUTED: f64 = 1.9207;

/// The one published sequence of trials there is to go by.
#[test]
fn the_walk_that_the_coach_believes_in_is_not_refuted_by_the_published_sequence() {
    let (walk, s1) = (read().walk, &reference()[0]);
    for (variance, log_likelihood) in walk.tried {
        // The program's grid ends at ten logits, beyond which a fast walk gets after twenty clean ones.
        let difference = (s1.curve_with(variance).log_likelihood - log_likelihood).abs();
        println!("variance {variance}: log-likelihoods differ by {difference:.1e}");
        assert!(difference < 1e-3, "{variance}");
    }
    let chosen = s1.curve_with(Priors::CHOSEN.walk).log_likelihood;
    println!("log-likelihood {chosen:.3}, at most {:.3}", walk.log_likelihood);
    assert!(chosen > walk.log_likelihood - NOT_REFUTED);
}

#[test]
fn thousands_of_equal_verdicts_stay_a_belief() {
    let walk = Kernel::normal(0.0, 0.15);
    for (verdict, expected) in [(Verdict::Clean, 1.0), (Verdict::NotYet, 0.0)] {
        let mut belief = Belief::normal(0.0, 1.0);
        for _ in 0..1_000 {
            belief = belief.moved(&walk).told(verdict).0;
        }
        assert!((belief.mean() - expected).abs() < 0.01);
        assert!((belief.tails().chance_above(0.5) - expected).abs() < 1e-3);
        assert!(belief.tails().quantile(0.05) <= belief.tails().quantile(0.95));
    }
}

#[test]
fn a_quantile_is_the_level_that_leaves_its_share_below() {
    let belief = Belief::normal(0.7, 0.8);
    for share in [0.01, 0.05, 0.5, 0.95, 0.99] {
        let tails = belief.tails();
        assert!((tails.chance_above(tails.quantile(share)) - (1.0 - share)).abs() < 1e-9);
    }
}
