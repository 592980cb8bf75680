//! Retention beside an independent computation of the same model, and beside a published program for half-lives.

use serde::Deserialize;
use tailfirst::{
    calendar::{Chance, ColdTry, Player, Retention, Trace, half_life::Density},
    clock::Moment,
};

/// Where it comes from stands in the file itself.
#[derive(Deserialize)]
struct Reference {
    players: Vec<OnePlayer>,
    half_lives: Vec<HalfLife>,
}

/// Days of gap and whether the try was kept, and the chance that practice left.
type Visit = (Option<f64>, Option<u8>, f64);

#[derive(Deserialize)]
struct OnePlayer {
    snippets: Vec<Vec<Visit>>,
    later: Vec<f64>,
    expected: Vec<Expected>,
}

#[derive(Deserialize)]
struct Expected {
    mean: Vec<f64>,
    low: Vec<f64>,
    high: Vec<f64>,
}

/// What follows for the half-life where a chance is Beta(a, b) after so many days, and some tries are kept.
#[derive(Deserialize)]
struct HalfLife {
    a: f64,
    b: f64,
    days: f64,
    clean: u32,
    tries: u32,
    gap: f64,
    before: f64,
    to_a: f64,
    to_b: f64,
    to_days: f64,
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("../data/retention.json")).expect("the reference reads")
}

fn cold_try(kept: bool) -> ColdTry {
    if kept { ColdTry::Kept } else { ColdTry::Missed }
}

fn after(days: f64) -> Moment {
    Moment::new((days * 86_400_000.0).round() as i64, 0)
}

fn trace(snippet: &[Visit]) -> Trace {
    let (mut trace, mut day) = (Trace::default(), 0.0);
    for (gap, kept, left) in snippet {
        day += gap.unwrap_or(0.0);
        if let Some(kept) = kept {
            trace.heard(after(day), cold_try(*kept == 1));
        }
        trace.practised(after(day), Chance::new(*left));
    }
    trace
}

#[test]
fn expectations_and_bands_are_those_of_the_full_model_by_quadrature() {
    let (mut in_mean, mut in_band) = (0f64, 0f64);
    for case in reference().players {
        let traces: Vec<Trace> = case.snippets.iter().map(|snippet| trace(snippet)).collect();
        let player = Player::of(&traces);
        for (trace, expected) in traces.iter().zip(&case.expected) {
            let retention = Retention::of(trace, &player).expect("it was practised");
            for (i, days) in case.later.iter().enumerate() {
                let ours = retention.after(*days);
                let off = |ours: Chance, theirs: f64| (ours.get() - theirs).abs();
                in_mean = in_mean.max(off(ours.mean, expected.mean[i]));
                in_band = in_band.max(off(ours.low, expected.low[i])).max(off(ours.high, expected.high[i]));
            }
        }
    }
    assert!(in_mean < 1e-6, "{in_mean:e}");
    assert!(in_band < 5e-4, "{in_band:e}");
}

/// The density of the logarithm of the half-life where the chance after `days` is Beta(a, b).
fn beta(a: f64, b: f64, days: f64) -> Density {
    Density::of(|log_days| {
        let rate = std::f64::consts::LN_2 * days / log_days.exp();
        let chance = (-rate).exp();
        chance.powf(a) * (-(-rate).exp_m1()).powf(b - 1.0) * rate
    })
}

/// An evening level of 1 and no growth in between is the case that the published program covers: its posterior is a beta
/// with the mean and the variance of the chance after `to_days`.
#[test]
fn the_published_half_lives_are_found() {
    for row in reference().half_lives {
        let HalfLife { a, b, days, clean, tries, gap, before, to_a, to_b, to_days } = row;
        let mut trace = Trace::default();
        trace.practised(after(0.0), Chance::SURE);
        let prior = beta(a, b, days);
        let retention = |trace: &Trace| Retention::from_prior(trace, &prior).expect("it was practised");
        let expected_before = retention(&trace).after(gap).mean.get();
        assert!((expected_before - before).abs() < 1e-6, "{expected_before} for {before}");
        (0..tries).for_each(|nth| trace.heard(after(gap), cold_try(nth < clean)));
        // The square of a chance after some days is the chance after twice as many.
        let (mean, square) =
            (retention(&trace).after(to_days).mean.get(), retention(&trace).after(2.0 * to_days).mean.get());
        let variance = to_a * to_b / ((to_a + to_b).powi(2) * (to_a + to_b + 1.0));
        assert!((mean - to_a / (to_a + to_b)).abs() < 1e-6, "{mean} after {to_days} days");
        assert!((square - mean * mean - variance).abs() < 1e-6, "{} for {variance}", square - mean * mean);
    }
}
