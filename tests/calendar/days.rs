//! A player's days, over time zones, summer time and clocks that are set.

use proptest::{collection::vec, prelude::*};
use tailfirst::{
    calendar::day::{DayStart, LONGEST_DAY_MS, PracticeDay, SHORTEST_NIGHT_MS, practice_days},
    clock::Moment,
};

fn at(text: &str) -> Moment {
    text.parse().expect("a moment")
}

fn dates(hour: u8, moments: &[&str]) -> Vec<String> {
    let start = DayStart::at(hour).expect("an hour");
    practice_days(start, moments.iter().map(|text| at(text))).iter().map(|day| day.date.to_string()).collect()
}

#[test]
fn practice_that_runs_past_midnight_is_one_day() {
    let evening = ["2026-03-07T23:10:00+01:00", "2026-03-07T23:55:00+01:00", "2026-03-08T00:40:00+01:00"];
    assert_eq!(dates(0, &evening), ["2026-03-07"]);
    assert_eq!(dates(0, &[evening[2], "2026-03-08T09:00:00+01:00"]), ["2026-03-08"]);
}

#[test]
fn who_comes_back_after_midnight_chooses_when_the_day_begins() {
    let late = ["2026-03-07T18:00:00+01:00", "2026-03-08T01:30:00+01:00"];
    assert_eq!(dates(0, &late), ["2026-03-07", "2026-03-08"]);
    assert_eq!(dates(4, &late), ["2026-03-07"]);
    assert_eq!(dates(4, &["2026-03-08T03:59:59+01:00"]), ["2026-03-07"]);
    assert_eq!(dates(4, &["2026-03-08T04:00:00+01:00"]), ["2026-03-08"]);
    assert_eq!(DayStart::at(7), None);
}

#[test]
fn summer_time_begins_and_ends_without_a_day_too_many_or_few() {
    // The night of 29 March 2026 has 23 hours in Berlin, that of 25 October 25.
    let spring = ["2026-03-28T22:00:00+01:00", "2026-03-29T08:00:00+02:00", "2026-03-30T08:00:00+02:00"];
    assert_eq!(dates(0, &spring), ["2026-03-28", "2026-03-29", "2026-03-30"]);
    let autumn = ["2026-10-24T22:00:00+02:00", "2026-10-25T08:00:00+01:00", "2026-10-25T22:00:00+01:00"];
    assert_eq!(dates(0, &autumn), ["2026-10-24", "2026-10-25"]);
}

#[test]
fn a_flight_makes_no_night_and_hides_none() {
    // Two devices side by side, one of which still shows the time of home.
    assert_eq!(dates(0, &["2026-03-07T20:00:00-08:00", "2026-03-08T05:10:00+01:00"]), ["2026-03-07"]);
    // Over the date line from Tokyo to Los Angeles: the date comes back, with a night in between.
    assert_eq!(dates(0, &["2026-03-07T10:00:00+09:00", "2026-03-07T18:00:00-08:00"]), ["2026-03-07", "2026-03-07"]);
}

fn anywhen() -> impl Strategy<Value = Moment> {
    (0i64..40 * 86_400_000, -14i16 * 60..=14 * 60).prop_map(|(ms, offset)| Moment::new(1_772_000_000_000 + ms, offset))
}

proptest! {
    #[test]
    fn the_order_in_which_two_devices_are_read_does_not_matter(
        moments in vec(anywhen(), 0..40), hour in 0u8..=6, turn in 0usize..40,
    ) {
        let start = DayStart::at(hour).expect("an hour");
        let mut merged = moments.clone();
        merged.rotate_left(turn.min(moments.len()));
        merged.reverse();
        prop_assert_eq!(practice_days(start, merged), practice_days(start, moments));
    }

    #[test]
    fn days_hold_everything_in_order_and_a_pause_lies_between_or_a_long_day_before(
        moments in vec(anywhen(), 1..40), hour in 0u8..=6,
    ) {
        let start = DayStart::at(hour).expect("an hour");
        let days = practice_days(start, moments.iter().copied());
        let holds = |day: &PracticeDay, at: Moment| day.began <= at && at <= day.last;
        prop_assert!(moments.iter().all(|at| days.iter().filter(|day| holds(day, *at)).count() == 1));
        for day in &days {
            prop_assert!(day.last.ms_since(day.began) < LONGEST_DAY_MS);
        }
        for pair in days.windows(2) {
            let paused = pair[1].began.ms_since(pair[0].last) >= SHORTEST_NIGHT_MS;
            prop_assert!(paused || pair[1].began.ms_since(pair[0].began) >= LONGEST_DAY_MS);
        }
    }

    /// Whoever practises between breakfast and evening has as many days as dates, wherever they live, though the clocks
    /// be put forward or back by an hour every so often.
    #[test]
    fn whoever_practises_by_day_has_a_day_for_each_date(
        hours in vec((0i64..40, 8i64..20, 0i64..60, 0i16..=1), 1..60), zone in -11i16..=12, start in 0u8..=6,
    ) {
        let moments = hours.iter().map(|(day, hour, minute, summer)| {
            let offset = 60 * (zone + summer);
            let local = (day * 24 + hour) * 60 + minute;
            Moment::new((20_000 * 24 * 60 + local - i64::from(offset)) * 60_000, offset)
        });
        let mut dates: Vec<i64> = hours.iter().map(|(day, ..)| *day).collect();
        dates.sort_unstable();
        dates.dedup();
        prop_assert_eq!(practice_days(DayStart::at(start).expect("an hour"), moments).len(), dates.len());
    }

    #[test]
    fn a_clock_that_is_set_back_within_the_day_ends_no_day(ahead in 0i64..3_600_000, back in 0i64..86_400_000) {
        let begun = PracticeDay::begun(DayStart::default(), Moment::new(1_772_000_000_000, 60));
        let day = PracticeDay { last: begun.began.plus_ms(ahead), ..begun };
        prop_assert!(day.goes_on(DayStart::default(), day.last.plus_ms(-back)));
    }
}
