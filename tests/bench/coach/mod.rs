//! What the coach is worth: simulated players practise by it and by policies that only count.
//!
//! Leaves `.github/coach.svg` and `.github/coach.md` behind.

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
    calibration(sheet, &results);
    minutes(sheet, &results);
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

/// Percentage points by which the share of "secure" steps that truly are falls below what the setting
/// states, in the worst of the families and settings; negative where all keep their word.
fn calibration(sheet: &mut Sheet, results: &[Outcome]) {
    let overclaimed = |tuned: bool| {
        let coached = results.iter().filter_map(|result| Some((asked(result.way)?.certainty, &result.tallies)));
        let shortfalls = coached.flat_map(|(certainty, tallies)| {
            let families =
                Family::ALL.iter().zip(tallies).filter(|(family, _)| Family::TUNED_ON.contains(family) == tuned);
            families.map(move |(_, tally)| certainty - (1.0 - tally.wrong)).collect::<Vec<_>>()
        });
        100.0 * shortfalls.fold(f64::NEG_INFINITY, f64::max)
    };
    sheet.add(Figure { name: "secure-overclaimed-tuned-on", value: overclaimed(true), unit: "points", target: 0.0 });
    sheet.add(Figure { name: "secure-overclaimed-held-out", value: overclaimed(false), unit: "points", target: 0.0 });
}

/// What the coach asks at this setting; `None` where another way is meant.
pub fn asked(way: Way) -> Option<Asked> {
    match way {
        Way::Coach(strictness) => Some(Rules::CHOSEN.asked(strictness)),
        _ => None,
    }
}

/// The coach's median minutes to a secure cold try, as a share of the best counting policy's.
fn minutes(sheet: &mut Sheet, results: &[Outcome]) {
    let ratios = ratios(results, Way::Coach(Strictness::Usual));
    let not_a_quarter_faster = ratios.iter().filter(|ratio| **ratio > 0.75).count();
    let worst = 100.0 * ratios.iter().copied().fold(0.0, f64::max);
    sheet.add(Figure { name: "minutes-to-cold-worst", value: worst, unit: "%", target: 105.0 });
    let (name, value) = ("families-not-a-quarter-faster", not_a_quarter_faster as f64);
    sheet.add(Figure { name, value, unit: "of 8", target: 1.0 });
}

/// Median minutes of `way` over those of the best counting policy, family by family.
pub fn ratios(results: &[Outcome], way: Way) -> [f64; Family::ALL.len()] {
    let best = best_counting(results);
    let result = results.iter().find(|result| result.way == way).expect("it was practised");
    std::array::from_fn(|family| result.tallies[family].minutes.value / best[family])
}

/// The least median minutes that any counting policy needs, family by family.
pub fn best_counting(results: &[Outcome]) -> [f64; Family::ALL.len()] {
    let counting = || results.iter().filter(|result| Way::counting().any(|way| way == result.way));
    std::array::from_fn(|family| {
        counting().map(|result| result.tallies[family].minutes.value).fold(f64::INFINITY, f64::min)
    })
}
