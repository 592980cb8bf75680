//! Coming back before a date, and what is foretold of it.

use proptest::{collection::vec, prelude::*};
use tailfirst::{
    calendar::{
        Chance, ColdTry, Forecast, Player, Retention, Trace,
        forecast::{Change, Learning, Outlook, Part},
        returns::{LAST_DAYS, Phase, chance_on, phase, returns},
        turns::{chance_in_turn, turns},
    },
    clock::{Day, Moment},
};

const DAY_MS: i64 = 86_400_000;

fn day(days: i32) -> Day {
    Moment::new(0, 0).day() + days
}

/// A snippet practised on day 0 after cold tries a day apart went so.
fn retention(tries: &[bool], left: f64) -> Retention {
    let mut trace = Trace::default();
    trace.practised(Moment::new(-(tries.len() as i64) * DAY_MS, 0), Chance::new(left));
    for (nth, kept) in tries.iter().enumerate() {
        let at = Moment::new((nth as i64 + 1 - tries.len() as i64) * DAY_MS, 0);
        trace.heard(at, if *kept { ColdTry::Kept } else { ColdTry::Missed });
        trace.practised(at, Chance::new(left));
    }
    Retention::of(&trace, &Player::of([&trace])).expect("it was practised")
}

fn retentions() -> impl Strategy<Value = Retention> {
    (vec(any::<bool>(), 0..5), 0.3..0.99).prop_map(|(tries, left)| retention(&tries, left))
}

fn parts() -> impl Strategy<Value = Vec<Part>> {
    let learning = (0.005..0.3, 0.0..1.0, 0.7..0.99);
    let part = (retentions(), learning).prop_map(|(retention, (a_minute, spread, limit))| {
        let learning = Learning { a_minute, spread, limit: Chance::new(limit) };
        Part { retention, learning }
    });
    vec(part, 1..4)
}

#[test]
fn the_last_days_hold_cold_tries_and_run_throughs_only() {
    let date = day(40);
    assert_eq!(phase(day(36), date), Phase::Practice);
    assert_eq!(phase(day(37), date), Phase::RunThroughs);
    assert_eq!(phase(day(39), date), Phase::RunThroughs);
    assert_eq!(phase(date, date), Phase::Over);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn returns_lie_before_the_last_days_and_their_gaps_grow(
        retention in retentions(), days in 1i32..70, most in 0usize..9, leaves in 0.5..1.0,
    ) {
        let (date, leaves) = (day(days), Chance::new(leaves));
        let days = returns(date, &retention, leaves, most);
        prop_assert!(days.len() <= most);
        prop_assert!(days.iter().all(|at| *at > day(0) && date - *at > LAST_DAYS));
        let gaps: Vec<i32> = [day(0)].iter().chain(&days).zip(&days).map(|(from, to)| *to - *from).collect();
        prop_assert!(gaps.is_sorted(), "{:?}", gaps);
    }

    /// Of all ways to come back three times with growing gaps none is 3 % better on the date.
    #[test]
    fn no_other_growing_gaps_are_better_on_the_date(retention in retentions(), days in 8i32..24, leaves in 0.6..1.0) {
        let (date, leaves) = (day(days), Chance::new(leaves));
        let found = chance_on(date, &retention, &returns(date, &retention, leaves, 3), leaves).get();
        let last = days - LAST_DAYS - 1;
        for first in 1..=last {
            for second in first..=last {
                for third in second..=last {
                    let after = [first, first + second, first + second + third];
                    if after[2] <= last {
                        let other = chance_on(date, &retention, &after.map(day), leaves).get();
                        prop_assert!(found >= 0.97 * other, "{} for {} by {:?}", found, other, after);
                    }
                }
            }
        }
    }

    #[test]
    fn more_minutes_and_easier_music_never_lower_a_forecast(
        parts in parts(), days in 1i32..60, minutes in 1.0..60.0, more in 0.0..60.0, seed: u64,
    ) {
        let outlook = Outlook { date: day(days), minutes_a_day: minutes, seed };
        let now = Forecast::of(&parts, outlook);
        prop_assert_eq!(&Forecast::of(&parts, outlook), &now);
        for change in [Change::MoreMinutes(more), Change::Easier(0.3)] {
            let changed = Forecast::changed(&parts, outlook, change);
            prop_assert!(changed.each.iter().zip(&now.each).all(|(changed, now)| changed >= now), "{:?}", change);
            prop_assert!(changed.whole >= now.whole && changed.clean >= now.clean);
        }
        let without = Forecast::changed(&parts, outlook, Change::Without(0));
        prop_assert!(without.whole >= now.whole);
    }

    /// The turns cost no more returns than there are, and are worth at least as much on the date as if all snippets came
    /// back equally often, but for the last return that cannot be divided.
    #[test]
    fn turns_are_better_than_coming_back_to_all_alike(parts in parts(), days in 5i32..60, every in 1usize..6) {
        let every = [1.5, 2.5, 4.0, 6.0, 12.0][every - 1];
        let returns_a_day = parts.len() as f64 / every;
        let chance = |part: usize, every: f64| chance_in_turn(&parts[part], day(0), day(days), every, 5.0).get();
        let found = turns(parts.len(), returns_a_day, chance);
        prop_assert!(found.iter().map(|every| 1.0 / every).sum::<f64>() <= returns_a_day + 1.0 / 60.0 * parts.len() as f64 + 1e-9);
        let all = |every: &dyn Fn(usize) -> f64| (0..parts.len()).map(|part| chance(part, every(part))).sum::<f64>();
        let (own, alike) = (all(&|part| found[part]), all(&|_| every));
        prop_assert!(own >= 0.95 * alike, "{} by {:?}, {} alike", own, found, alike);
    }

    #[test]
    fn more_minutes_at_each_turn_never_lower_the_chance(
        parts in parts(), days in 1i32..60, every in 1.0..20.0, minutes in 0.0..20.0, more in 0.0..20.0,
    ) {
        let chance = |minutes: f64| chance_in_turn(&parts[0], day(0), day(days), every, minutes);
        prop_assert!(chance(minutes + more).get() >= chance(minutes).get() - 1e-12);
    }

    /// Where nothing can be practised any more, the forecast is what retention says.
    #[test]
    fn on_the_eve_it_is_what_retention_says(retention in retentions(), seed: u64) {
        let learning = Learning { a_minute: 0.1, spread: 0.5, limit: Chance::new(0.95) };
        let expected = retention.after(1.0).mean.get();
        let outlook = Outlook { date: day(1), minutes_a_day: 40.0, seed };
        let told = Forecast::of(&[Part { retention, learning }], outlook).each[0].get();
        // Five standard deviations of a mean of 400 runs.
        prop_assert!((told - expected).abs() < 5.0 * (expected * (1.0 - expected) / 400.0).sqrt() + 1e-9);
    }
}

#[test]
fn the_snippet_that_was_missed_holds_the_date_back() {
    let learning = Learning { a_minute: 0.02, spread: 0.5, limit: Chance::new(0.95) };
    let part = |tries: &[bool], left| Part { retention: retention(tries, left), learning };
    let parts = [part(&[true, true, true], 0.95), part(&[false, false, false], 0.5), part(&[true, true], 0.9)];
    let outlook = Outlook { date: day(20), minutes_a_day: 20.0, seed: 7 };
    let forecast = Forecast::of(&parts, outlook);
    assert_eq!(forecast.holds_back, Some(1), "{forecast:?}");
    let without = Forecast::changed(&parts, outlook, Change::Without(1));
    assert!(without.whole > forecast.whole);
}
