//! What the coach is worth: simulated players practise by it and by policies that only count.
//!
//! Leaves `.github/coach.svg` and `.github/coach.md` behind.

mod before;
mod frontier;
mod plot;
mod report;
mod sequential;
pub mod tune;

use crate::figure::{Figure, Sheet};
use crate::players::{family::Family, policy::Way, tally::Tally, tally::stories};
use tailfirst::method::{Asked, Rules, Strictness};

/// Players of each family.
const PLAYERS: u64 = 2_000;

pub const SETTINGS: [Strictness; 3] = [Strictness::Lenient, Strictness::Usual, Strictness::Strict];

/// One way to practise and what came of it for each family.
pub struct Outcome {
    pub way: Way,
    pub tallies: [Tally; Family::ALL.len()],
}

pub fn measure(sheet: &mut Sheet) {
    let coached = SETTINGS.map(Way::Coach);
    let results: Vec<Outcome> =
        coached.into_iter().chain(Way::counting()).chain([Way::MindReader]).map(practise).collect();
    promise(sheet, &results);
    cost(sheet, &results);
    expectations(sheet, &results);
    let decision = sequential::compare();
    sheet.add(Figure { name: "decision-to-sequential", value: 100.0 * decision.ratio(), unit: "%", target: 130.0 });
    report::write(&results, &frontier::trace(), &decision);
}

fn practise(way: Way) -> Outcome {
    Outcome {
        way,
        tallies: Family::ALL.map(|family| Tally::of(&stories(family, PLAYERS, |snippet| way.begin(snippet)))),
    }
}

/// Percentage points by which the share of true "the whole is secure" falls below what the setting states, in the
/// worst of the families and settings; negative where all keep their word.
fn promise(sheet: &mut Sheet, results: &[Outcome]) {
    let overclaimed = |tuned: bool| {
        let coached = results.iter().filter_map(|result| Some((asked(result.way)?.certainty, &result.tallies)));
        let shortfalls = coached.flat_map(|(certainty, tallies)| {
            let families =
                Family::ALL.iter().zip(tallies).filter(|(family, _)| Family::TUNED_ON.contains(family) == tuned);
            families.map(move |(_, tally)| certainty - tally.right_whole()).collect::<Vec<_>>()
        });
        100.0 * shortfalls.fold(f64::NEG_INFINITY, f64::max)
    };
    sheet.add(Figure { name: "whole-overclaimed-tuned-on", value: overclaimed(true), unit: "points", target: 0.0 });
    sheet.add(Figure { name: "whole-overclaimed-held-out", value: overclaimed(false), unit: "points", target: 0.0 });
}

/// What the coach asks at this setting; `None` where another way is meant.
pub fn asked(way: Way) -> Option<Asked> {
    match way {
        Way::Coach(strictness) => Some(Rules::CHOSEN.asked(strictness)),
        _ => None,
    }
}

/// The usual setting's tallies.
fn usual(results: &[Outcome]) -> &[Tally; Family::ALL.len()] {
    &results.iter().find(|result| result.way == Way::Coach(SETTINGS[1])).expect("it was practised").tallies
}

/// Minutes, nights and misses of the usual setting beside those of the coach before, and whether counting does better.
fn cost(sheet: &mut Sheet, results: &[Outcome]) {
    let shares: Vec<[f64; 3]> = Family::ALL.into_iter().zip(usual(results)).map(|(f, t)| of_before(f, t)).collect();
    let worst = |which: usize| 100.0 * shares.iter().map(|shares| shares[which]).fold(0.0, f64::max);
    sheet.add(Figure { name: "minutes-of-before-worst", value: worst(0), unit: "%", target: 85.0 });
    sheet.add(Figure { name: "nights-of-before-worst", value: worst(2), unit: "%", target: 67.0 });
    let sticks = Family::ALL.iter().zip(&shares).filter(|(family, _)| Family::ERRORS_STICK.contains(family));
    let missed = 100.0 * sticks.map(|(_, shares)| shares[1]).fold(0.0, f64::max);
    sheet.add(Figure { name: "misses-of-before-where-errors-stick", value: missed, unit: "%", target: 100.0 });
    let outdone = (0..Family::ALL.len()).filter(|family| !outdoing(results, *family).is_empty()).count() as f64;
    sheet.add(Figure { name: "families-where-counting-is-better", value: outdone, unit: "of all", target: 1.0 });
}

/// Minutes, misses and nights as shares of those of the coach before.
pub fn of_before(family: Family, tally: &Tally) -> [f64; 3] {
    let before = before::usual(family);
    [tally.minutes.value / before.minutes, tally.missed.value / before.missed, tally.nights() / before.nights]
}

/// The ways to count by which the whole is right as often as by the usual setting, in fewer minutes.
pub fn outdoing(results: &[Outcome], family: usize) -> Vec<Way> {
    let coach = &usual(results)[family];
    let better = |tally: &Tally| {
        tally.right_whole() >= coach.right_whole() && tally.minutes.value < coach.minutes.value && tally.arrived == 1.0
    };
    let counting = results.iter().filter(|result| Way::counting().any(|way| way == result.way));
    counting.filter(|result| better(&result.tallies[family])).map(|result| result.way).collect()
}

/// Whether what the coach expects of a repetition tells more than a constant would, and how far it is off.
fn expectations(sheet: &mut Sheet, results: &[Outcome]) {
    let calibrations = || usual(results).iter().map(|tally| &tally.calibration);
    let lost = calibrations().map(|it| 1e3 * (it.brier - it.without_looking())).fold(f64::NEG_INFINITY, f64::max);
    let off = calibrations().map(|it| it.worst()).fold(0.0, f64::max);
    sheet.add(Figure { name: "brier-above-constant-worst", value: lost, unit: "thousandths", target: 0.0 });
    sheet.add(Figure { name: "reliability-worst-tenth", value: 100.0 * off, unit: "points", target: 8.0 });
}

/// The least minutes that any counting policy needs, family by family.
pub fn best_counting(results: &[Outcome]) -> [f64; Family::ALL.len()] {
    let counting = || results.iter().filter(|result| Way::counting().any(|way| way == result.way));
    std::array::from_fn(|family| {
        counting().map(|result| result.tallies[family].minutes.value).fold(f64::INFINITY, f64::min)
    })
}
