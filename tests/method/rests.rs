//! Blocks end, snippets rest, and a day has its share.

use crate::happenings::{Lesson, at, snippet, step};
use tailfirst::{
    clock::Moment,
    method::{
        Direction, Done, Hands, Happening, HappeningKind, Leaving, Move, Reason, Settings, Standing, Verdict, advise,
        standing,
    },
};

fn played(at: Moment) -> Happening {
    Happening {
        at,
        kind: HappeningKind::Played {
            step: step(3, 3, Hands::Right, 100),
            verdict: Verdict::Clean,
            cause: None,
            broke_at: None,
        },
    }
}

/// A block that began then and in which one repetition was played.
fn block(began: Moment) -> [Happening; 2] {
    [Happening { at: began, kind: HappeningKind::BlockBegan(Settings::default()) }, played(began.plus_ms(10_000))]
}

fn stands(history: &[Happening], now: Moment) -> Standing {
    standing(history, &Settings::default(), now)
}

#[test]
fn a_block_ends_with_its_minutes_even_if_nobody_is_there() {
    let history = block(at(0, 0));
    assert_eq!(stands(&history, at(0, 4)), Standing::Practising { began: at(0, 0), ends: at(0, 5) });
    assert_eq!(stands(&history, at(0, 5)), Standing::Resting { until: at(0, 20) });
    assert_eq!(stands(&history, at(0, 20)), Standing::Ready { blocks_today: 1 });
    let snippet = snippet("BBBB", 3, Direction::TowardGoal);
    assert_eq!(advise(&snippet, &history, at(0, 5)).led_by, Move::Leave);
}

#[test]
fn a_stopped_block_rests_from_where_it_stopped_and_an_empty_one_not_at_all() {
    let mut history = block(at(0, 0)).to_vec();
    history.push(Happening { at: at(0, 2), kind: HappeningKind::BlockEnded });
    assert_eq!(stands(&history, at(0, 3)), Standing::Resting { until: at(0, 17) });
    let empty = [
        Happening { at: at(0, 0), kind: HappeningKind::BlockBegan(Settings::default()) },
        Happening { at: at(0, 1), kind: HappeningKind::BlockEnded },
    ];
    assert_eq!(stands(&empty, at(0, 2)), Standing::Ready { blocks_today: 0 });
}

#[test]
fn three_blocks_are_enough_for_a_day_and_the_next_day_is_new() {
    let history: Vec<Happening> = [0, 30, 60].into_iter().flat_map(|minutes| block(at(0, minutes))).collect();
    assert_eq!(stands(&history, at(0, 300)), Standing::DoneToday(Done::BlocksPlayed));
    assert_eq!(stands(&history, at(1, 0)), Standing::Ready { blocks_today: 0 });
}

/// Clocks are set back; no rest may then last longer than a rest.
#[test]
fn a_clock_set_back_never_traps_the_player() {
    let history = block(at(3, 0));
    for now in [at(0, 0), at(1, 0), at(2, 23 * 60)] {
        match stands(&history, now) {
            Standing::Resting { until } => assert!(until.ms_since(now) <= 15 * 60_000),
            standing => assert!(matches!(standing, Standing::Ready { .. }), "{standing:?}"),
        }
    }
}

/// The last repetition may be judged a little after the minutes; that is no stopping short.
#[test]
fn a_block_whose_minutes_are_used_was_not_stopped() {
    let snippet = snippet("BBBB", 3, Direction::TowardGoal);
    let reason = |ended: Moment| {
        let mut history = block(at(0, 0)).to_vec();
        history.push(Happening { at: ended, kind: HappeningKind::BlockEnded });
        advise(&snippet, &history, ended).reason
    };
    assert_eq!(reason(at(0, 2)), Reason::Leave(Leaving::Stopped));
    assert_eq!(reason(at(0, 5).plus_ms(10_000)), Reason::Leave(Leaving::MinutesUsed { minutes: 5 }));
}

#[test]
fn a_repetition_dated_a_year_ahead_does_not_cost_a_year_of_cold_tries() {
    let mut lesson = Lesson::new(&snippet("B", 0, Direction::TowardGoal), Settings::default());
    while lesson.play(Verdict::Clean).led_by != Move::Leave {}
    for day in [365, 1] {
        lesson.sit_down(at(day, 0));
        lesson.play(Verdict::Clean);
    }
    assert_eq!(lesson.sit_down(at(2, 0)).led_by, Move::ColdTry);
}

#[test]
fn starting_afresh_takes_up_what_was_just_left() {
    let mut lesson = Lesson::new(&snippet("BBB", 2, Direction::TowardGoal), Settings::default());
    while lesson.play(Verdict::NotYet).led_by != Move::Leave {}
    let advice = lesson.happens(HappeningKind::StartedAfresh);
    assert_eq!((advice.led_by, advice.reason), (Move::StartAfresh, Reason::Afresh));
    assert_eq!(lesson.coach.advice(at(0, 5)).reason, Reason::Leave(Leaving::MinutesUsed { minutes: 5 }));
}
