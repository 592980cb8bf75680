//! The search for the numbers of the method: coordinate descent from those chosen now, first those of the belief, then
//! those of the rules.
//!
//! The belief's are looked for by the mean logarithm of the probability that was given to each verdict; the rules' by the
//! mean minutes to a secure cold try and the misses on the way, where every setting's word about the whole must be kept.
//! Both count each of the families that the numbers may be looked for with alike, at all three settings.

use super::SETTINGS;
use crate::players::{
    family::Family,
    policy::Coached,
    practice::Story,
    tally::{Tally, stories},
};
use tailfirst::method::{Priors, Rules, Strictness};

/// Players of each family: few, so that a search ends within minutes.
const PLAYERS: u64 = 200;
/// Rounds over all numbers, each with half the steps of the one before.
const ROUNDS: i32 = 2;
/// A percentage point by which "the whole is secure" is overclaimed costs as much as five per cent of the minutes …
const COST_OF_A_POINT: f64 = 0.05;
/// … and misses half as much as minutes.
const COST_OF_MISSES: f64 = 0.5;

type Numbers = (Rules, Priors);

/// Prints each number that is better than the one before.
pub fn search() {
    let numbers = descend((Rules::CHOSEN, Priors::CHOSEN), &BELIEF, surprise);
    descend(numbers, &RULES, cost);
}

fn descend(mut numbers: Numbers, knobs: &[Knob], worth: fn(Strictness, Family, &Numbers) -> f64) -> Numbers {
    let mean = |numbers: &Numbers| {
        let each = SETTINGS.map(|strictness| Family::TUNED_ON.map(|family| worth(strictness, family, numbers)));
        each.iter().flatten().sum::<f64>() / each.iter().flatten().count() as f64
    };
    let mut best = mean(&numbers);
    println!("{best:.4} as chosen");
    for round in 0..ROUNDS {
        for knob in knobs {
            for way in [-1.0, 1.0] {
                let mut tried = numbers;
                (knob.turn)(&mut tried, way * knob.step / f64::from(1 << round));
                let found = mean(&tried);
                if found < best {
                    (numbers, best) = (tried, found);
                    println!("{best:.4} with {}: {:?}", knob.name, numbers);
                }
            }
        }
    }
    numbers
}

struct Knob {
    name: &'static str,
    step: f64,
    turn: fn(&mut Numbers, f64),
}

const BELIEF: [Knob; 12] = [
    Knob { name: "hazard of an onset", step: 0.02, turn: |numbers, by| numbers.1.hazards[0] += by },
    Knob { name: "hazard of a way", step: 0.04, turn: |numbers, by| numbers.1.hazards[1] += by },
    Knob { name: "hazard of a meeting", step: 0.04, turn: |numbers, by| numbers.1.hazards[2] += by },
    Knob { name: "shape", step: 0.5, turn: |numbers, by| numbers.1.shape += by },
    Knob { name: "easiest level", step: 0.15, turn: |numbers, by| numbers.1.levels[0].0 += by },
    Knob { name: "hardest level", step: 0.4, turn: |numbers, by| numbers.1.levels[2].0 += by },
    Knob { name: "quick, clean", step: 0.05, turn: |numbers, by| numbers.1.pupils[0].by_clean += by },
    Knob { name: "quick, missed", step: 0.04, turn: |numbers, by| numbers.1.pupils[0].by_missed += by },
    Knob { name: "sticking, clean", step: 0.04, turn: |numbers, by| numbers.1.pupils[2].by_clean += by },
    Knob { name: "sticking, missed", step: 0.05, turn: |numbers, by| numbers.1.pupils[2].by_missed += by },
    Knob { name: "kept by a repetition", step: 0.02, turn: |numbers, by| numbers.1.kept[0] += by },
    Knob { name: "overnight", step: 0.1, turn: |numbers, by| numbers.1.after[1] += by },
];

const RULES: [Knob; 3] = [
    Knob { name: "goes well", step: 0.05, turn: |numbers, by| numbers.0.well += by },
    Knob { name: "too hard", step: 0.05, turn: |numbers, by| numbers.0.hard_below += by },
    Knob { name: "worth trying", step: 0.1, turn: |numbers, by| numbers.0.worth_trying += by },
];

fn practised(strictness: Strictness, family: Family, (rules, priors): &Numbers) -> Vec<Story> {
    stories(family, PLAYERS, |snippet| Box::new(Coached::by(snippet, strictness, *rules, *priors)))
}

/// The mean surprise at a verdict: minus the logarithm of the probability it was given.
fn surprise(strictness: Strictness, family: Family, numbers: &Numbers) -> f64 {
    let stories = practised(strictness, family, numbers);
    let given = |(expected, clean): &(f64, bool)| if *clean { *expected } else { 1.0 - expected };
    let surprises: Vec<f64> =
        stories.iter().flat_map(|story| &story.expected).map(|heard| -given(heard).ln()).collect();
    surprises.iter().sum::<f64>() / surprises.len() as f64
}

/// Logarithms of the minutes and of the misses, and what overclaiming costs.
fn cost(strictness: Strictness, family: Family, numbers: &Numbers) -> f64 {
    let tally = Tally::of(&practised(strictness, family, numbers));
    let overclaimed = (numbers.0.asked(strictness).certainty - tally.right_whole()).max(0.0);
    tally.minutes.value.ln() + COST_OF_MISSES * tally.missed.value.ln() + COST_OF_A_POINT * 100.0 * overclaimed
}
