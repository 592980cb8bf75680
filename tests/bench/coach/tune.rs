//! The search for the numbers of the method: coordinate descent from those chosen now.
//!
//! The criterion is the median minutes to a secure cold try, as a geometric mean over the families the
//! numbers may be looked for with and over the three settings, where every setting's word must be kept in
//! each of these families: a percentage point by which "secure" is overclaimed costs five per cent.

use super::SETTINGS;
use crate::players::{family::Family, policy::Coached, tally::Tally, tally::stories};
use tailfirst::method::{Priors, Rules, Strictness, Transition};

/// Players of each family: few, so that a search ends within minutes.
const PLAYERS: u64 = 200;
/// Rounds over all numbers, each with half the steps of the one before.
const ROUNDS: i32 = 2;
const COST_OF_A_POINT: f64 = 0.05;

type Numbers = (Rules, Priors);

/// Prints each number that is better than the one before.
pub fn search() {
    let mut numbers = (Rules::CHOSEN, Priors::CHOSEN);
    let mut best = cost(&numbers);
    println!("{best:.4} as chosen");
    for round in 0..ROUNDS {
        for knob in KNOBS {
            for way in [-1.0, 1.0] {
                let mut tried = numbers;
                (knob.turn)(&mut tried, way * knob.step / f64::from(1 << round));
                let found = cost(&tried);
                if found < best {
                    (numbers, best) = (tried, found);
                    println!("{best:.4} with {}: {:?}", knob.name, numbers);
                }
            }
        }
    }
}

struct Knob {
    name: &'static str,
    step: f64,
    turn: fn(&mut Numbers, f64),
}

const KNOBS: [Knob; 7] = [
    Knob { name: "longer apart", step: 0.2, turn: |numbers, by| turn(numbers, Transition::LongerApart, by) },
    Knob { name: "joined", step: 0.2, turn: |numbers, by| turn(numbers, Transition::Joined, by) },
    Knob { name: "longer", step: 0.2, turn: |numbers, by| turn(numbers, Transition::Longer, by) },
    Knob { name: "easier", step: 0.4, turn: |numbers, by| turn(numbers, Transition::Easier, by) },
    Knob { name: "overnight", step: 0.3, turn: |numbers, by| turn(numbers, Transition::Overnight, by) },
    Knob { name: "hard certainty", step: 0.1, turn: |numbers, by| numbers.0.hard_certainty += by },
    Knob { name: "hard below", step: 0.1, turn: |numbers, by| numbers.0.hard_below += by },
];

fn turn(numbers: &mut Numbers, change: Transition, by: f64) {
    numbers.1.shifts[change as usize].mean += by;
}

/// Logarithm of the minutes, and what overclaiming costs, on average.
fn cost(numbers: &Numbers) -> f64 {
    let each = SETTINGS.map(|strictness| Family::TUNED_ON.map(|family| cost_for(numbers, strictness, family)));
    each.iter().flatten().sum::<f64>() / each.iter().flatten().count() as f64
}

fn cost_for((rules, priors): &Numbers, strictness: Strictness, family: Family) -> f64 {
    let by = |snippet: &_| -> Box<_> { Box::new(Coached::by(snippet, strictness, *rules, *priors)) };
    let tally = Tally::of(&stories(family, PLAYERS, |snippet| by(snippet)));
    let overclaimed = (rules.asked(strictness).certainty - (1.0 - tally.wrong)).max(0.0);
    tally.minutes.value.ln() + COST_OF_A_POINT * 100.0 * overclaimed
}
