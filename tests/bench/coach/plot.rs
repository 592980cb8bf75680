//! Two plots side by side: what certainty costs, and whether what is expected comes.

use super::frontier::Point;
use super::{Outcome, SETTINGS, best_counting};
use crate::players::{family::Family, policy::Way, tally::Tally};
use std::fmt::Write;

const SIDE: f64 = 300.0;
const LEFT: f64 = 60.0;
const TOP: f64 = 40.0;
/// Distance of the two plots' left edges.
const APART: f64 = 420.0;
/// Minutes are drawn from this share of the best counting policy's to that.
const MINUTES: (f64, f64) = (0.7, 2.1);

pub fn draw(results: &[Outcome], frontier: &[Point]) -> String {
    let mut svg = String::from(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 820 420\" font-family=\"sans-serif\" font-size=\"11\" \
         fill=\"#1a1a1a\">\n<rect width=\"820\" height=\"420\" fill=\"#faf6ec\"/>\n",
    );
    cost_of_certainty(&mut svg, results, frontier);
    reliability(&mut svg, results);
    svg + "</svg>\n"
}

/// Minutes, as a share of the best counting policy's, over the share of wrong promises about the whole: both as means
/// over all families, the minutes' a geometric one.
fn cost_of_certainty(svg: &mut String, results: &[Outcome], frontier: &[Point]) {
    axes(svg, 0.0, "“the whole is secure” when it is not, %", "minutes to a secure cold try, best that counts = 1");
    for hundredths in [0, 20, 40, 60, 80, 100] {
        tick_below(svg, 0.0, f64::from(hundredths) / 100.0, &hundredths.to_string());
    }
    for minutes in [0.8, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0] {
        tick_left(svg, 0.0, height_of(minutes), &format!("{minutes:.1}"));
    }
    let best = best_counting(results);
    let place = |tallies: &[Tally; Family::ALL.len()]| {
        let mean = |value: &dyn Fn(usize) -> f64| (0..tallies.len()).map(value).sum::<f64>() / tallies.len() as f64;
        let minutes = mean(&|family| (tallies[family].minutes.value / best[family]).ln()).exp();
        (mean(&|family| 1.0 - tallies[family].right_whole()), height_of(minutes))
    };
    let curve: Vec<(f64, f64)> = frontier.iter().map(place).collect();
    line(svg, 0.0, &curve);
    for result in results.iter().filter(|result| place(&result.tallies).1 <= 1.0) {
        let (at, coached) = (place(&result.tallies), matches!(result.way, Way::Coach(_)));
        dot(svg, 0.0, at, coached, &short(result.way));
    }
}

/// The share of clean repetitions over the chance that was expected, one line a family.
fn reliability(svg: &mut String, results: &[Outcome]) {
    axes(svg, APART, "expected chance of a clean repetition", "share that was clean");
    for tenths in [0, 2, 4, 6, 8, 10] {
        let at = f64::from(tenths) / 10.0;
        tick_below(svg, APART, at, &format!("{at:.1}"));
        tick_left(svg, APART, at, &format!("{at:.1}"));
    }
    let usual = results.iter().find(|result| result.way == Way::Coach(SETTINGS[1])).expect("it was practised");
    line(svg, APART, &[(0.0, 0.0), (1.0, 1.0)]);
    for (family, tally) in Family::ALL.into_iter().zip(&usual.tallies) {
        let tenths = tally.calibration.tenths.iter().filter(|tenth| tenth.0 >= 100.0);
        let _ = writeln!(svg, "<g><title>{}</title>", family.name());
        tenths.for_each(|(_, expected, came)| {
            dot(svg, APART, (*expected, *came), Family::TUNED_ON.contains(&family), "")
        });
        *svg += "</g>\n";
    }
    let legend = "filled: families tuned on; outlined: held out";
    let _ = writeln!(svg, "<text x=\"{}\" y=\"{}\">{legend}</text>", LEFT + APART + 60.0, TOP + SIDE - 10.0);
}

fn height_of(minutes: f64) -> f64 {
    (minutes - MINUTES.0) / (MINUTES.1 - MINUTES.0)
}

fn short(way: Way) -> String {
    match way {
        Way::BackwardApart { in_a_row } => format!("one hand first, {in_a_row}"),
        Way::Whole { in_a_row } => format!("whole, {in_a_row}"),
        // Lies under its mirror image.
        Way::Forward { .. } => String::new(),
        Way::Backward { in_a_row } => format!("forward or backward, {in_a_row}"),
        Way::MindReader => "reading minds".into(),
        Way::Coach(strictness) => format!("{strictness:?}").to_lowercase(),
    }
}

/// Both plots' places run from 0 to 1, upward and to the right.
fn place(left: f64, (x, y): (f64, f64)) -> (f64, f64) {
    (LEFT + left + SIDE * x, TOP + SIDE * (1.0 - y))
}

fn axes(svg: &mut String, left: f64, below: &str, beside: &str) {
    let (x, y) = place(left, (0.0, 1.0));
    let _ = writeln!(
        svg,
        "<rect x=\"{x}\" y=\"{y}\" width=\"{SIDE}\" height=\"{SIDE}\" fill=\"none\" stroke=\"#1a1a1a\"/>"
    );
    let _ =
        writeln!(svg, "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\">{below}</text>", x + SIDE / 2.0, y + SIDE + 36.0);
    let _ = writeln!(svg, "<text x=\"{}\" y=\"{}\">{beside}</text>", x - 40.0, y - 14.0);
}

fn tick_below(svg: &mut String, left: f64, at: f64, label: &str) {
    let (x, y) = place(left, (at, 0.0));
    let _ = writeln!(svg, "<text x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{label}</text>", y + 16.0);
}

fn tick_left(svg: &mut String, left: f64, at: f64, label: &str) {
    let (x, y) = place(left, (0.0, at));
    let _ = writeln!(svg, "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{label}</text>", x - 6.0, y + 4.0);
}

fn line(svg: &mut String, left: f64, points: &[(f64, f64)]) {
    let inside = points.iter().filter(|point| point.0 <= 1.0 && point.1 <= 1.0);
    let points: Vec<String> = inside.map(|point| place(left, *point)).map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
    let _ = writeln!(svg, "<polyline points=\"{}\" fill=\"none\" stroke=\"#1a1a1a\"/>", points.join(" "));
}

fn dot(svg: &mut String, left: f64, at: (f64, f64), filled: bool, label: &str) {
    let (x, y) = place(left, at);
    let fill = if filled { "#1a1a1a" } else { "#faf6ec" };
    let _ = writeln!(svg, "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\" fill=\"{fill}\" stroke=\"#1a1a1a\"/>");
    if !label.is_empty() {
        // The coach's own names stand under the curve, the others beside their dots.
        let (x, y, anchor) = if filled { (x - 8.0, y + 17.0, "middle") } else { (x + 7.0, y - 3.0, "start") };
        let _ = writeln!(svg, "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{label}</text>");
    }
}
