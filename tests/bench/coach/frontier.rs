//! What more certainty costs: the coach by other certainties than its three settings ask.

use crate::players::{family::Family, policy::Coached, tally::Tally, tally::stories};
use tailfirst::method::{Asked, Priors, Rules, Strictness};

/// Players of each family for each point of the curve.
const PLAYERS: u64 = 500;
const CERTAINTIES: [f64; 9] = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95];

/// What came of a certainty for each family.
pub type Point = [Tally; Family::ALL.len()];

pub fn trace() -> Vec<Point> {
    CERTAINTIES.into_iter().map(point).collect()
}

fn point(certainty: f64) -> Point {
    let usual = Asked { certainty, ..Rules::CHOSEN.usual };
    let rules = Rules { usual, ..Rules::CHOSEN };
    let by = |family| {
        Tally::of(&stories(family, PLAYERS, |snippet| {
            Box::new(Coached::by(snippet, Strictness::Usual, rules, Priors::CHOSEN))
        }))
    };
    Family::ALL.map(by)
}
