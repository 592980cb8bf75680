//! The player's own word: good enough, not this one today, and a move taken back.

use crate::happenings::{Lesson, at, snippet, step, verdict};
use tailfirst::method::{
    Cause, Direction, Done, Hands, HappeningKind, Leaving, Move, Reason, Settings, Standing, Verdict, block, overrule,
    standing,
};

fn lesson() -> Lesson {
    Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings { block_minutes: 30, ..Settings::default() })
}

fn play(lesson: &mut Lesson, letters: &str) {
    letters.chars().for_each(|letter| _ = lesson.play(verdict(letter)));
}

/// Plays clean until the coach makes this move.
fn until(lesson: &mut Lesson, wanted: Move) {
    while lesson.play(Verdict::Clean).led_by != wanted {}
}

fn stands(lesson: &Lesson, now: tailfirst::clock::Moment) -> Standing {
    standing(&lesson.history, &Settings::default(), now)
}

#[test]
fn good_enough_ends_the_block_as_a_success_and_the_snippet_is_done_for_today() {
    let mut lesson = lesson();
    play(&mut lesson, "NNCN");
    let advice = lesson.happens(HappeningKind::GoodEnough);
    assert_eq!((advice.led_by, advice.reason), (Move::Leave, Reason::Leave(Leaving::GoodEnough)));
    assert!(!Leaving::GoodEnough.is_of_failure());
    for minutes in [1, 60, 300] {
        assert_eq!(stands(&lesson, at(0, minutes)), Standing::DoneToday(Done::GoodEnough));
        assert_eq!(lesson.coach.advice(at(0, minutes)).reason, Reason::Leave(Leaving::GoodEnough));
    }
    assert_eq!(stands(&lesson, at(1, 0)), Standing::Ready { blocks_today: 0 });
}

/// The same repetitions, left by the player's word or merely stopped.
#[test]
fn the_day_after_good_enough_goes_on_where_it_was_left_and_does_not_begin_easier() {
    let day_after = |word: HappeningKind| {
        let mut lesson = lesson();
        for cause in [Cause::Early, Cause::TooLoud, Cause::WrongNote, Cause::Tense] {
            let step = lesson.advice().step;
            lesson.happens(HappeningKind::Played {
                step,
                verdict: Verdict::NotYet,
                cause: Some(cause),
                broke_at: None,
            });
        }
        let left = lesson.advice().step;
        lesson.happens(word);
        (left, lesson.sit_down(at(1, 0)))
    };
    let ((left, content), (_, stopped)) = (day_after(HappeningKind::GoodEnough), day_after(HappeningKind::BlockEnded));
    assert_eq!(stopped.reason, Reason::LeftFailing);
    assert_eq!((content.reason, content.step), (Reason::GoesOn { nights: 1 }, left));
}

#[test]
fn the_day_after_good_enough_begins_with_a_cold_try_and_resumes_what_failed_before() {
    let mut lesson = lesson();
    until(&mut lesson, Move::Lengthen);
    play(&mut lesson, "N");
    let left = lesson.advice().step;
    lesson.happens(HappeningKind::GoodEnough);
    let cold = lesson.sit_down(at(1, 0));
    assert_eq!((cold.led_by, cold.step), (Move::ColdTry, step(3, 3, Hands::Both, 100)));
    let held = lesson.play(Verdict::Clean);
    assert_eq!((held.reason, held.step), (Reason::HeldOvernight { nights: 1 }, left));
}

#[test]
fn good_enough_said_at_the_rest_overrules_what_the_block_was_left_for() {
    let mut lesson = lesson();
    while lesson.play(Verdict::NotYet).led_by != Move::Leave {}
    lesson.happens(HappeningKind::BlockEnded);
    lesson.now = lesson.now.plus_minutes(3);
    assert_eq!(lesson.happens(HappeningKind::GoodEnough).reason, Reason::Leave(Leaving::GoodEnough));
    assert_eq!(lesson.sit_down(at(1, 0)).reason, Reason::GoesOn { nights: 1 });
}

#[test]
fn what_is_left_out_today_is_no_block_and_no_failure_and_comes_back_tomorrow() {
    let mut lesson = lesson();
    until(&mut lesson, Move::Lengthen);
    lesson.happens(HappeningKind::BlockEnded);
    let untouched = lesson.coach.clone();
    lesson.now = at(1, 0);
    lesson.happens(HappeningKind::NotToday);
    assert_eq!(stands(&lesson, at(1, 0)), Standing::DoneToday(Done::LeftOut));
    assert_eq!(stands(&lesson, at(2, 0)), Standing::Ready { blocks_today: 0 });
    assert_eq!(lesson.coach.advice(at(2, 0)), untouched.advice(at(2, 0)));
    assert_eq!(lesson.sit_down(at(2, 0)).reason, Reason::ColdTry { nights: 2 });
}

#[test]
fn whoever_sits_down_all_the_same_has_changed_their_mind() {
    let mut lesson = lesson();
    for word in [HappeningKind::NotToday, HappeningKind::GoodEnough] {
        lesson.happens(word);
        assert_eq!(block::wish(&lesson.history, lesson.now.day()).map(|(at, _)| at), Some(lesson.history.len() - 1));
        lesson.sit_down(lesson.now.plus_minutes(1));
        assert!(matches!(stands(&lesson, lesson.now), Standing::Practising { .. }));
        assert_eq!(block::wish(&lesson.history, lesson.now.day()), None);
    }
}

/// A block left out in the middle was played all the same: what was played needs its rest tomorrow or today.
#[test]
fn leaving_out_a_block_under_way_ends_it() {
    let mut lesson = Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings::default());
    lesson.play(Verdict::Clean);
    lesson.happens(HappeningKind::NotToday);
    let history = &lesson.history;
    assert_eq!(block::in_grace(history, at(0, 5)), None);
    assert!(matches!(stands(&lesson, at(0, 2)), Standing::DoneToday(Done::LeftOut)));
}

#[test]
fn the_last_repetition_of_used_minutes_may_be_judged_for_a_while_and_once() {
    let mut lesson = Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings::default());
    lesson.play(Verdict::Clean);
    let in_grace = |lesson: &Lesson, now| block::in_grace(&lesson.history, now);
    assert_eq!(in_grace(&lesson, at(0, 4)), None);
    assert_eq!(in_grace(&lesson, at(0, 5).plus_ms(29_000)), Some(at(0, 5)));
    assert_eq!(in_grace(&lesson, at(0, 5).plus_ms(31_000)), None);
    lesson.now = at(0, 5);
    lesson.play(Verdict::Clean);
    assert_eq!(in_grace(&lesson, at(0, 5).plus_ms(10_000)), None);
}

/// One hand again, whenever the coach joins them.
#[test]
fn a_move_taken_back_twice_in_a_block_waits_for_another_block() {
    let snippet = snippet("BBBB", 3, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    for _ in 0..2 {
        until(&mut lesson, Move::JoinHands);
        let one_hand = overrule::other_hand(&snippet, lesson.advice().step).expect("two hands");
        lesson.happens(HappeningKind::Overruled(one_hand));
    }
    let chosen = lesson.advice().step;
    play(&mut lesson, "CCC");
    for _ in 0..12 {
        let advice = lesson.play(Verdict::Clean);
        assert_eq!((advice.step, advice.reason), (chosen, Reason::HeldBack(Move::JoinHands)));
    }
    lesson.happens(HappeningKind::BlockEnded);
    lesson.sit_down(lesson.now.plus_minutes(60));
    until(&mut lesson, Move::JoinHands);
}

#[test]
fn a_narrowed_task_refused_twice_is_not_offered_again_and_fruitless_work_still_ends() {
    let snippet = snippet("RRRR", 3, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    let whole = step(0, 3, Hands::Right, 100);
    let mut moves = Vec::new();
    for _ in 0..40 {
        if lesson.advice().step != whole {
            lesson.happens(HappeningKind::Overruled(whole));
        }
        let advice = lesson.play(Verdict::NotYet);
        moves.push(advice.led_by);
        if advice.led_by == Move::Leave {
            break;
        }
    }
    assert_eq!(moves.iter().filter(|made| **made == Move::Narrow).count(), 2, "{moves:?}");
    assert_eq!(moves.last(), Some(&Move::Leave));
}

#[test]
fn other_wishes_do_not_count_as_taking_a_move_back() {
    let advised = step(1, 3, Hands::Both, 100);
    assert!(!overrule::takes_back(Move::JoinHands, advised, step(1, 3, Hands::Both, 92)));
    assert!(!overrule::takes_back(Move::Lengthen, advised, step(0, 3, Hands::Both, 100)));
    assert!(!overrule::takes_back(Move::Climb, advised, step(1, 3, Hands::Both, 104)));
    assert!(!overrule::takes_back(Move::Overruled, advised, step(1, 3, Hands::Right, 100)));
    assert!(overrule::takes_back(Move::Climb, advised, step(1, 3, Hands::Both, 96)));
    assert!(overrule::takes_back(Move::Ease, advised, step(1, 3, Hands::Both, 104)));
}

#[test]
fn after_slower_the_tempo_climbs_only_from_what_goes_well() {
    let mut lesson = lesson();
    until(&mut lesson, Move::Lengthen);
    let slower = overrule::slower(lesson.advice().step).expect("a slower mark");
    lesson.happens(HappeningKind::Overruled(slower));
    play(&mut lesson, "CN");
    assert_eq!(lesson.advice().step, slower);
    let level = lesson.advice().sureness.wanted.level();
    let before = (0..20)
        .map(|_| (lesson.play(Verdict::Clean), lesson.coach.believed()))
        .find(|(advice, _)| advice.led_by != Move::Again);
    let (advice, believed) = before.expect("a move");
    assert_eq!(advice.led_by, Move::Climb);
    let at_slower: Vec<_> = believed.iter().filter(|one| one.step == slower).collect();
    assert!(at_slower.last().is_some_and(|last| last.chance.mean > level), "{at_slower:?}");
}

#[test]
fn the_whole_block_can_be_looked_back_on_step_by_step() {
    let mut lesson = lesson();
    let mut shown = Vec::new();
    for letter in "CCCCCCCNCCNCCC".chars() {
        let step = lesson.advice().step;
        let after = lesson.play(verdict(letter));
        shown.push((step, verdict(letter)));
        let believed = lesson.coach.believed();
        assert_eq!(believed.iter().map(|one| (one.step, one.verdict)).collect::<Vec<_>>(), shown);
        if after.step == step {
            let (last, now) = (believed.last().expect("one").chance, after.sureness.now);
            assert!((last.mean - now.mean).abs() + (last.low - now.low).abs() + (last.high - now.high).abs() < 1e-9);
        }
    }
    assert!(shown.windows(2).any(|pair| pair[0].0 != pair[1].0), "the step never changed");
    lesson.happens(HappeningKind::BlockEnded);
    lesson.sit_down(lesson.now.plus_minutes(60));
    assert!(lesson.coach.believed().is_empty());
}

#[test]
fn a_cause_is_forgotten_after_three_clean_repetitions() {
    let mut lesson = lesson();
    lesson.happens(HappeningKind::BlockEnded);
    for _ in 0..2 {
        let step = lesson.advice().step;
        lesson.happens(HappeningKind::Played {
            step,
            verdict: Verdict::NotYet,
            cause: Some(Cause::Uneven),
            broke_at: None,
        });
    }
    let minded: Vec<Option<Cause>> = (0..3).map(|_| lesson.play(Verdict::Clean).mind).collect();
    assert_eq!(minded, [Some(Cause::Uneven), Some(Cause::Uneven), None]);
}
