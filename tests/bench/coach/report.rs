//! The tables and the plot in `.github/`.

use super::frontier::Point;
use super::sequential::{BAD, Compared, GOOD};
use super::{Outcome, PLAYERS, SETTINGS, asked, plot, ratios};
use crate::binomial::{TWO_SIDED_95, wilson};
use crate::players::{
    family::Family,
    policy::Way,
    tally::{Median, Tally},
};
use std::{fmt::Write, fs, path::Path};

/// Writes the tables and the plot.
pub fn write(results: &[Outcome], frontier: &[Point], decision: &Compared) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = root.join(".github");
    fs::write(folder.join("coach.md"), table(results, decision)).expect("the table is written");
    fs::write(folder.join("coach.svg"), plot::draw(results, frontier)).expect("the plot is written");
}

/// Minutes, misses and wrong steps of the usual setting beside the quickest policy that counts and the one that
/// errs about as often.
fn in_short(results: &[Outcome]) -> String {
    let ways = [Way::Coach(SETTINGS[1]), Way::Backward { in_a_row: 3 }, Way::Backward { in_a_row: 5 }];
    let heads = ways.map(|way| format!(" {} |", way.name())).concat();
    let mut text = format!("| family |{heads} reading the mind |\n| --- | --- | --- | --- | --- |\n");
    let of = |way: Way| results.iter().find(|result| result.way == way).expect("practised");
    for (index, family) in Family::ALL.into_iter().enumerate() {
        let cell = |way: Way| {
            let Tally { minutes, missed, wrong, .. } = &of(way).tallies[index];
            format!(" {:.1} min, {missed:.0} missed, {:.0} % wrong |", minutes.value, 100.0 * wrong)
        };
        let mind = of(Way::MindReader).tallies[index].minutes.value;
        let _ = writeln!(text, "| {} |{} {mind:.1} min |", family.name(), ways.map(cell).concat());
    }
    text
}

fn table(results: &[Outcome], decision: &Compared) -> String {
    let mut text = format!(
        "# What came of practising by the coach, and by counting\n\n\
         Written by `cargo bench -- coach`. {PLAYERS} simulated players a family, the same ones for every way. Medians stand \
         with an interval that holds them with 95 %. “Wrongly secure” is the share of steps held to be secure whose true \
         chance of a clean repetition was below 0.8; “overdone” are the repetitions of steps whose chance was not.\n\n\
         ## In short\n\n{}",
        in_short(results)
    );
    for (index, family) in Family::ALL.into_iter().enumerate() {
        let held_out = if Family::TUNED_ON.contains(&family) { "" } else { " (held out)" };
        let _ = write!(text, "\n## {}{held_out}\n\n{HEAD}", capital(family.name()));
        for result in results {
            let ratio = ratios(results, result.way)[index];
            text += &row(result.way, &result.tallies[index], ratio);
        }
    }
    text + &kept_word(results) + &reliability(results) + &new_step(decision)
}

const HEAD: &str = "| way | minutes to a secure cold try | of the best that counts | repetitions | days | missed | overdone | \
                    wrongly secure |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n";

fn row(way: Way, tally: &Tally, ratio: f64) -> String {
    let span = |median: Median, digits| {
        let Median { value, low, high } = median;
        format!("{value:.digits$} ({low:.digits$}–{high:.digits$})")
    };
    let (minutes, repetitions) = (span(tally.minutes, 1), span(tally.repetitions, 0));
    let Tally { days, missed, overdone, wrong, .. } = tally;
    let (name, days, wrong) = (way.name(), days.value, 100.0 * wrong);
    format!(
        "| {name} | {minutes} | {ratio:.2} | {repetitions} | {days:.0} | {missed:.0} | {overdone:.0} | {wrong:.0} % |\n"
    )
}

/// Whether “secure” is true as often as each setting states.
fn kept_word(results: &[Outcome]) -> String {
    let mut text =
        "\n## Whether “secure” is kept\n\nThe share of steps found secure whose true chance was at least the level \
                    asked, with Wilson's 95 % interval.\n\n| family |"
            .to_owned();
    let coached = || SETTINGS.into_iter().filter_map(|strictness| Some((strictness, asked(Way::Coach(strictness))?)));
    for (strictness, asked) in coached() {
        let _ = write!(text, " {strictness:?}: {:.0} % stated |", 100.0 * asked.certainty);
    }
    text += "\n| --- | --- | --- | --- |\n";
    for (index, family) in Family::ALL.into_iter().enumerate() {
        let _ = write!(text, "| {} |", family.name());
        for (strictness, _) in coached() {
            let tally =
                &results.iter().find(|result| result.way == Way::Coach(strictness)).expect("practised").tallies[index];
            let of = tally.declared as f64;
            let (low, high) = wilson((1.0 - tally.wrong) * of, of, TWO_SIDED_95);
            let _ = write!(text, " {:.1} % ({:.1}–{:.1}) |", 100.0 * (1.0 - tally.wrong), 100.0 * low, 100.0 * high);
        }
        text += "\n";
    }
    text
}

/// What was expected of the next repetition beside what came, for the usual setting.
fn reliability(results: &[Outcome]) -> String {
    let usual = results.iter().find(|result| result.way == Way::Coach(SETTINGS[1])).expect("practised");
    let mut text = "\n## What was expected of a repetition, and what came\n\nBy the usual setting. The Brier score is the \
                    mean square of the difference; always expecting the same share of clean ones would give the other one.\n\n\
                    | family | Brier score | without looking | expected → came, by tenths of what was expected |\n\
                    | --- | --- | --- | --- |\n"
        .to_owned();
    for (family, tally) in Family::ALL.into_iter().zip(&usual.tallies) {
        let tenths = tally.calibration.tenths.iter().filter(|tenth| tenth.0 >= 100.0);
        let pairs: Vec<String> = tenths.map(|(_, expected, came)| format!("{expected:.2} → {came:.2}")).collect();
        let (brier, blind) = (tally.calibration.brier, tally.calibration.without_looking());
        let _ = writeln!(text, "| {} | {brier:.3} | {blind:.3} | {} |", family.name(), pairs.join(", "));
    }
    text
}

fn new_step(decision: &Compared) -> String {
    let Compared { secure: (bad, good), repetitions, least } = decision;
    format!(
        "\n## How soon a new step is decided\n\nA step whose chance stays at {BAD} is found secure in {:.1} % of trials, one \
         that stays at {GOOD} in {:.1} %, after {repetitions:.2} repetitions on average. No sequential test with these errors \
         needs fewer than {least:.2} (Wald 1947): {:.2} times as many.\n",
        100.0 * bad,
        100.0 * good,
        decision.ratio()
    )
}

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map(|first| first.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
}
