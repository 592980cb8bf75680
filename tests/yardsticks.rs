//! The yardsticks the coach is measured with, themselves held to the literature and to an independent
//! computation (`tests/reference/yardsticks.py`, whose output is kept in `tests/data/yardsticks.json`).

#[path = "support/yardsticks/binomial.rs"]
mod binomial;
#[path = "support/yardsticks/sequential.rs"]
mod sequential;

use sequential::Plan;
use serde::Deserialize;

#[derive(Deserialize)]
struct Reference {
    sequential: Vec<SequentialRow>,
    intervals: Vec<IntervalRow>,
}

#[derive(Deserialize)]
struct SequentialRow {
    bad: f64,
    good: f64,
    alpha: f64,
    beta: f64,
    chance: f64,
    trials: f64,
    decides_good: f64,
}

#[derive(Deserialize)]
struct IntervalRow {
    count: u32,
    of: u32,
    level: f64,
    z: f64,
    wilson: (f64, f64),
    exact: (f64, f64),
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("data/yardsticks.json")).expect("the reference reads")
}

fn near(ours: f64, theirs: f64) -> bool {
    (ours - theirs).abs() < 1e-6
}

#[test]
fn the_sequential_test_takes_the_trials_and_errs_as_often_as_the_reference_says() {
    for row in reference().sequential {
        let exact = Plan::wald(row.bad, row.good, row.alpha, row.beta).exact(row.chance);
        let agree = near(exact.trials, row.trials) && near(exact.decides_good, row.decides_good);
        assert!(agree, "{exact:?} at {} of {} against {}", row.chance, row.bad, row.good);
    }
}

/// NIST/SEMATECH e-Handbook 6.2.6: 0.01 against 0.10 defective at risks of 0.05 and 0.10; at the 24th item
/// the acceptance number is 0 and the rejection number is 3.
#[test]
fn the_handbooks_plan_accepts_none_and_rejects_three_of_24() {
    let plan = Plan::wald(0.01, 0.10, 0.05, 0.10);
    let ratio = |defects: f64| defects * 10f64.ln() + (24.0 - defects) * (0.90f64 / 0.99).ln();
    let decided: Vec<bool> = (0..4).map(|n| ratio(f64::from(n))).map(|r| r <= -plan.lower || r >= plan.upper).collect();
    assert_eq!(decided, [true, false, false, true]);
}

#[test]
fn intervals_of_a_share_agree_with_the_reference() {
    for row in reference().intervals {
        let wilson = binomial::wilson(row.count.into(), row.of.into(), row.z);
        let exact = binomial::exact(row.count, row.of, (1.0 - row.level) / 2.0);
        for (ours, theirs) in [(wilson, row.wilson), (exact, row.exact)] {
            assert!(near(ours.0, theirs.0) && near(ours.1, theirs.1), "{} of {}: {ours:?}", row.count, row.of);
        }
    }
}

/// NIST/SEMATECH e-Handbook 7.2.4.1: 26 of 200, one-sided at 95 %, z = 1.645: 0.09577; 4 of 20, two-sided
/// at 90 %: 0.071354 and 0.401029 as printed (0.401028 is the root).
#[test]
fn intervals_agree_with_the_handbooks_worked_examples() {
    assert!((binomial::wilson(26.0, 200.0, 1.645).0 - 0.09577).abs() < 5e-6);
    let (low, high) = binomial::exact(4, 20, 0.05);
    assert!((low - 0.071354).abs() < 2e-6 && (high - 0.401029).abs() < 2e-6);
}

/// Wald's test needs more than the least only for what the last trial overshoots: less than a trial's most.
#[test]
fn walds_test_needs_hardly_more_than_the_least() {
    for (alpha, beta) in [(0.1, 0.1), (0.05, 0.1), (0.02, 0.05), (0.3, 0.1)] {
        let plan = Plan::wald(0.6, 0.9, alpha, beta);
        let (at_bad, at_good) = (plan.exact(0.6), plan.exact(0.9));
        let least = sequential::least_trials(0.6, 0.9, at_bad.decides_good, at_good.decides_good);
        assert!(least < at_good.trials && at_good.trials < 1.15 * least, "{least} {at_good:?}");
    }
}
