//! The tables and the plot in `.github/`.

use super::frontier::Point;
use super::sequential::{BAD, Compared, GOOD};
use super::{Outcome, PLAYERS, SETTINGS, asked, before, best_counting, of_before, outdoing, plot, usual};
use crate::binomial::{TWO_SIDED_95, wilson};
use crate::players::{
    family::Family,
    policy::Way,
    practice::LEVEL,
    tally::{Mean, Tally},
};
use std::{fmt::Write, fs, path::Path};

/// Writes the tables and the plot.
pub fn write(results: &[Outcome], frontier: &[Point], decision: &Compared) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = root.join(".github");
    fs::write(folder.join("coach.md"), table(results, decision)).expect("the table is written");
    fs::write(folder.join("coach.svg"), plot::draw(results, frontier)).expect("the plot is written");
}

/// The promise and the cost of the usual setting beside the coach before, and the ways to count that do better.
fn in_short(results: &[Outcome]) -> String {
    let mut text = String::from(
        "| family | “the whole is secure” is true | before | minutes | of before | missed | of before | nights | of before | \
         counting does better |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n",
    );
    for (index, (family, tally)) in Family::ALL.into_iter().zip(usual(results)).enumerate() {
        let [minutes, missed, nights] = of_before(family, tally);
        let better: Vec<String> = outdoing(results, index).into_iter().map(Way::name).collect();
        let _ = writeln!(
            text,
            "| {} | {:.0} % | {:.0} % | {:.1} | {minutes:.2} | {:.1} | {missed:.2} | {:.1} | {nights:.2} | {} |",
            family.name(),
            100.0 * tally.right_whole(),
            100.0 * before::usual(family).right,
            tally.minutes.value,
            tally.missed.value,
            tally.nights(),
            better.join("; ")
        );
    }
    text
}

fn table(results: &[Outcome], decision: &Compared) -> String {
    let mut text = format!(
        "# What came of practising by the coach, and by counting\n\n\
         Written by `cargo bench -- coach`. {PLAYERS} simulated players a family, the same ones for every way, each until the \
         first repetition of a day is the whole, clean, at a true chance of at least {LEVEL}. Means stand with half of \
         their 95 % interval. “Right whole” is the share of “the whole is secure” that was true: at that moment the \
         chance of a clean repetition of the whole was at least {LEVEL}. “Before” is the coach of commit {}; nights are those before that first repetition. “Overdone” are the \
         repetitions of steps whose chance was as high already.\n\n## In short\n\nThe usual setting.\n\n{}",
        before::COMMIT,
        in_short(results)
    );
    for (index, family) in Family::ALL.into_iter().enumerate() {
        let held_out = if Family::TUNED_ON.contains(&family) { "" } else { " (held out)" };
        let _ = write!(text, "\n## {}{held_out}\n\n{HEAD}", capital(family.name()));
        let best = best_counting(results)[index];
        for result in results {
            text += &row(result.way, &result.tallies[index], best);
        }
    }
    text + &kept_word(results) + &reliability(results) + &new_step(decision)
}

const HEAD: &str = "| way | right whole | minutes | of the best that counts | repetitions | days | missed | overdone | \
                    arrived |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";

fn row(way: Way, tally: &Tally, best: f64) -> String {
    let span = |Mean { value, within }: Mean, digits| format!("{value:.digits$} ± {within:.digits$}");
    let Tally { days, missed, overdone, arrived, .. } = tally;
    format!(
        "| {} | {:.0} % | {} | {:.2} | {} | {} | {} | {:.0} | {:.1} % |\n",
        way.name(),
        100.0 * tally.right_whole(),
        span(tally.minutes, 1),
        tally.minutes.value / best,
        span(tally.repetitions, 0),
        span(*days, 2),
        span(*missed, 1),
        overdone.value,
        100.0 * arrived,
    )
}

/// Whether “the whole is secure” is true as often as each setting states.
fn kept_word(results: &[Outcome]) -> String {
    let mut text =
        "\n## Whether the promise is kept\n\nThe share of “the whole is secure” that was true, with Wilson's 95 % \
                    interval.\n\n| family |"
            .to_owned();
    let coached = || SETTINGS.into_iter().filter_map(|strictness| Some((strictness, asked(Way::Coach(strictness))?)));
    for (strictness, asked) in coached() {
        let _ = write!(text, " {strictness:?}: {:.0} % stated |", 100.0 * asked.certainty);
    }
    text += "\n| --- | --- | --- | --- |\n";
    for (index, family) in Family::ALL.into_iter().enumerate() {
        let _ = write!(text, "| {} |", family.name());
        for (strictness, _) in coached() {
            let result = results.iter().find(|result| result.way == Way::Coach(strictness)).expect("practised");
            let tally = &result.tallies[index];
            let (low, high) = wilson(tally.right as f64, tally.declared as f64, TWO_SIDED_95);
            let _ = write!(text, " {:.1} % ({:.1}–{:.1}) |", 100.0 * tally.right_whole(), 100.0 * low, 100.0 * high);
        }
        text += "\n";
    }
    text
}

/// What was expected of the next repetition beside what came, for the usual setting.
fn reliability(results: &[Outcome]) -> String {
    let mut text = "\n## What was expected of a repetition, and what came\n\nBy the usual setting. The Brier score is the \
                    mean square of the difference; always expecting the same share of clean ones would give the other one.\n\n\
                    | family | Brier score | without looking | expected → came, by tenths of what was expected |\n\
                    | --- | --- | --- | --- |\n"
        .to_owned();
    for (family, tally) in Family::ALL.into_iter().zip(usual(results)) {
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
