//! Laws of forgetting, whoever keeps what for how long.

use proptest::{collection::vec, prelude::*};
use tailfirst::{
    calendar::{Chance, ColdTry, Player, Retention, Trace},
    clock::Moment,
};

/// A gap in hours, the cold try after it, and the chance that the practice then left.
type Visit = (u32, Option<ColdTry>, f64);

fn cold_try() -> impl Strategy<Value = ColdTry> {
    prop_oneof![Just(ColdTry::Kept), Just(ColdTry::Missed)]
}

fn visits() -> impl Strategy<Value = Vec<Visit>> {
    vec((1u32..600, proptest::option::of(cold_try()), 0.05..1.0), 0..6)
}

fn hours(hours: u32) -> Moment {
    Moment::new(i64::from(hours) * 3_600_000, 0)
}

/// A snippet after these visits, and when the last one was, in hours.
fn practised(visits: &[Visit]) -> (Trace, u32) {
    let (mut trace, mut now) = (Trace::default(), 0);
    trace.practised(hours(now), Chance::new(0.8));
    for (gap, cold_try, left) in visits {
        now += gap;
        if let Some(cold_try) = cold_try {
            trace.heard(hours(now), *cold_try);
        }
        trace.practised(hours(now), Chance::new(*left));
    }
    (trace, now)
}

fn expected(trace: &Trace, others: &[Trace], at: u32) -> f64 {
    let player = Player::of(others.iter().chain([trace]));
    Retention::of(trace, &player).expect("it was practised").at(hours(at)).mean.get()
}

/// What rounding may do.
const ROUNDING: f64 = 1e-12;

proptest! {
    #[test]
    fn a_kept_try_never_lowers_an_expectation_and_a_missed_one_never_raises_it(
        before in visits(), others in vec(visits(), 0..3), gap in 1u32..2_000, later in 0u32..5_000, left in 0.05..1.0,
        practises: bool,
    ) {
        let others: Vec<Trace> = others.iter().map(|visits| practised(visits).0).collect();
        let (trace, now) = practised(&before);
        let told = |cold_try: Option<ColdTry>| {
            let mut told = trace.clone();
            if let Some(cold_try) = cold_try {
                told.heard(hours(now + gap), cold_try);
            }
            if practises {
                told.practised(hours(now + gap), Chance::new(left));
            }
            told
        };
        let (kept, untold, missed) = (told(Some(ColdTry::Kept)), told(None), told(Some(ColdTry::Missed)));
        let own = |trace: &Trace| expected(trace, &others, now + gap + later);
        prop_assert!(own(&kept) >= own(&untold) - ROUNDING);
        prop_assert!(own(&missed) <= own(&untold) + ROUNDING);
        // What it says of another snippet of the player.
        for other in &others {
            let told = |trace: &Trace| expected(other, std::slice::from_ref(trace), 5_000 + later);
            prop_assert!(told(&kept) >= told(&untold) - ROUNDING);
            prop_assert!(told(&missed) <= told(&untold) + ROUNDING);
        }
    }

    #[test]
    fn a_longer_gap_that_was_kept_raises_it_at_least_as_much(
        before in visits(), gap in 1u32..1_000, longer in 1u32..1_000, later in 0u32..5_000, left in 0.05..1.0,
    ) {
        let (trace, now) = practised(&before);
        let after = |gap: u32| {
            let mut kept = trace.clone();
            kept.heard(hours(now + gap), ColdTry::Kept);
            kept.practised(hours(now + gap), Chance::new(left));
            expected(&kept, &[], now + gap + later)
        };
        prop_assert!(after(gap + longer) >= after(gap) - ROUNDING);
    }

    #[test]
    fn the_order_in_which_snippets_come_does_not_matter(
        snippets in vec(visits(), 1..6), turn in 0usize..6, later in 0u32..5_000,
    ) {
        let mut traces: Vec<Trace> = snippets.iter().map(|visits| practised(visits).0).collect();
        let first = traces[0].clone();
        let told = |traces: &[Trace]| {
            let retention = Retention::of(&first, &Player::of(traces)).expect("it was practised");
            retention.at(hours(5_000 + later)).mean.get()
        };
        let one_way = told(&traces);
        let places = traces.len();
        traces.rotate_left(turn % places);
        traces.reverse();
        prop_assert!((told(&traces) - one_way).abs() < ROUNDING);
    }

    #[test]
    fn chances_fall_with_the_days_and_the_day_named_is_the_first_below(
        before in visits(), wanted in 0.05..1.0, one in 0u32..9_000, more in 0u32..9_000,
    ) {
        let (trace, now) = practised(&before);
        let retention = Retention::of(&trace, &Player::of([&trace])).expect("it was practised");
        let (sooner, later) = (retention.at(hours(now + one)), retention.at(hours(now + one + more)));
        prop_assert!(later.mean <= sooner.mean && later.low <= sooner.low && later.high <= sooner.high);
        prop_assert!(sooner.low <= sooner.high);
        let wanted = Chance::new(wanted);
        if let Some(day) = retention.falls_below(wanted) {
            let days = day - hours(now).day();
            prop_assert!(retention.after(f64::from(days)).mean < wanted);
            prop_assert!(days == 0 || retention.after(f64::from(days - 1)).mean >= wanted);
        }
    }
}

#[test]
fn nothing_is_foretold_of_what_was_never_practised() {
    let mut trace = Trace::default();
    trace.heard(hours(30), ColdTry::Kept);
    assert_eq!(trace, Trace::default());
    assert_eq!(Retention::of(&trace, &Player::of([&trace])), None);
}

#[test]
fn one_snippet_that_keeps_longer_gaps_speaks_for_the_others_too() {
    let weeks = vec![(168, Some(ColdTry::Kept), 0.9); 5];
    let nights = vec![(24, Some(ColdTry::Missed), 0.9); 5];
    let new = practised(&[]).0;
    let a_week_later = |others: &[Vec<Visit>]| {
        let others: Vec<Trace> = others.iter().map(|visits| practised(visits).0).collect();
        expected(&new, &others, 168)
    };
    let alone = a_week_later(&[]);
    assert!(a_week_later(&[weeks.clone(), weeks.clone()]) > a_week_later(&[weeks]));
    assert!(a_week_later(&[nights]) < alone);
}

#[test]
fn a_clock_that_was_set_back_makes_no_gap() {
    let (trace, now) = practised(&[(50, None, 0.9)]);
    let retention = Retention::of(&trace, &Player::of([&trace])).expect("it was practised");
    assert_eq!(retention.at(hours(now - 20)), retention.at(hours(now)));
}
