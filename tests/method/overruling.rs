//! The player chooses another step, and the coach goes along.

use crate::happenings::{Lesson, bpm, snippet, step, verdict};
use std::rc::Rc;
use tailfirst::method::{Direction, Hands, HappeningKind, Move, Reason, Settings, Snippet, Step, Verdict, overrule};

fn lesson() -> (Lesson, Rc<Snippet>) {
    let snippet = snippet("BBBB", 3, Direction::TowardGoal);
    (Lesson::new(&snippet, Settings::default()), snippet)
}

#[test]
fn longer_shorter_other_hand_slower_and_faster_each_change_one_thing() {
    let (_, snippet) = lesson();
    let start = step(2, 3, Hands::Right, 100);
    assert_eq!(overrule::longer(&snippet, start), Some(step(1, 3, Hands::Right, 100)));
    assert_eq!(overrule::shorter(&snippet, start), Some(step(3, 3, Hands::Right, 100)));
    assert_eq!(overrule::other_hand(&snippet, start).map(|step| step.span), Some(start.span));
    assert_eq!(overrule::slower(start), Some(step(2, 3, Hands::Right, 96)));
    assert_eq!(overrule::faster(start), Some(step(2, 3, Hands::Right, 104)));
    assert_eq!(overrule::longer(&snippet, step(0, 3, Hands::Both, 100)), None);
    assert_eq!(overrule::shorter(&snippet, step(3, 3, Hands::Both, 100)), None);
}

#[test]
fn a_chosen_step_is_kept_until_its_own_repetitions_speak() {
    let (mut lesson, _) = lesson();
    let chosen = step(0, 3, Hands::Both, 100);
    let advice = lesson.happens(HappeningKind::Overruled(chosen));
    assert_eq!((advice.step, advice.led_by, advice.reason), (chosen, Move::Overruled, Reason::Chosen));
    for letter in "CNC".chars() {
        let advice = lesson.play(verdict(letter));
        assert_eq!((advice.step, advice.led_by), (chosen, Move::Again));
    }
    let missed = (0..8).map(|_| lesson.play(verdict('N'))).find(|advice| advice.led_by != Move::Again);
    assert_eq!(missed.map(|advice| advice.led_by), Some(Move::Narrow));
}

fn two_hands() -> Rc<Snippet> {
    snippet("RBLB", 3, Direction::TowardGoal)
}

/// The right hand has nothing to play at the goal: it gives way to the left one.
#[test]
fn a_hand_that_is_left_with_nothing_gives_way() {
    let snippet = snippet("RL", 1, Direction::TowardGoal);
    assert_eq!(overrule::shorter(&snippet, step(0, 1, Hands::Right, 100)), Some(step(1, 1, Hands::Left, 100)));
}

/// Asks, then plays clean once; the coach must stay with what was asked.
fn asked(ask: impl Fn(&Snippet, Step) -> Option<Step>) -> Lesson {
    let snippet = two_hands();
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    while lesson.play(Verdict::Clean).led_by != Move::Lengthen {}
    lesson.happens(HappeningKind::Overruled(step(2, 3, Hands::Left, 100)));
    let wanted = ask(&snippet, lesson.advice().step).expect("there is one");
    let advice = lesson.happens(HappeningKind::Overruled(wanted));
    assert_eq!((advice.led_by, advice.reason, advice.step), (Move::Overruled, Reason::Chosen, wanted));
    for verdict in [Verdict::Clean, Verdict::NotYet] {
        let advice = lesson.play(verdict);
        assert_eq!((advice.led_by, advice.step), (Move::Again, wanted), "the coach must not nag");
    }
    lesson
}

/// Plays clean until the coach moves on.
fn onward(mut lesson: Lesson) -> (Move, Step) {
    let advice = (0..20).map(|_| lesson.play(Verdict::Clean)).find(|advice| advice.led_by != Move::Again);
    let advice = advice.expect("moves on");
    (advice.led_by, advice.step)
}

#[test]
fn the_coach_goes_on_from_what_the_player_chose() {
    assert_eq!(onward(asked(overrule::longer)), (Move::JoinHands, step(1, 3, Hands::Both, 100)));
    assert_eq!(onward(asked(overrule::shorter)), (Move::JoinHands, step(3, 3, Hands::Both, 100)));
    // The left hand's other hands are both: nothing is left to join.
    assert_eq!(onward(asked(overrule::other_hand)), (Move::Lengthen, step(1, 3, Hands::Right, 100)));
    assert_eq!(onward(asked(|_, step| overrule::slower(step))), (Move::Climb, step(2, 3, Hands::Left, 100)));
    // What was faster than the target goes on at the target.
    assert_eq!(onward(asked(|_, step| overrule::faster(step))), (Move::JoinHands, step(2, 3, Hands::Both, 100)));
}

#[test]
fn what_was_asked_too_fast_eases_to_the_target_first() {
    let mut lesson = asked(|_, step| Some(Step { bpm: bpm(132), ..step }));
    let advice = (0..20).map(|_| lesson.play(Verdict::NotYet)).find(|advice| advice.led_by != Move::Again);
    let advice = advice.expect("moves back");
    assert_eq!((advice.led_by, advice.step), (Move::Ease, step(2, 3, Hands::Left, 100)));
}
