//! What was named as not yet right, and what it leads to.

use crate::happenings::{Lesson, snippet, verdict};
use proptest::prelude::*;
use tailfirst::method::{Advice, Cause, Direction, HappeningKind, Leaving, Reason, Settings, Verdict};

fn miss(lesson: &mut Lesson, cause: Option<Cause>) -> Advice {
    let step = lesson.advice().step;
    lesson.happens(HappeningKind::Played { step, verdict: Verdict::NotYet, cause, broke_at: None })
}

fn lesson() -> Lesson {
    Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings { block_minutes: 30, ..Settings::default() })
}

/// Somebody who plays on after stopping: no verdict changes the step any more.
fn played_on() -> Lesson {
    let mut lesson = lesson();
    lesson.happens(HappeningKind::BlockEnded);
    lesson
}

/// Five misses of one step, clean in between; whichever one of them was something else.
#[test]
fn four_of_five_misses_too_loud_are_advised_upon_unless_the_newest_is_something_else() {
    for other in 0..5 {
        let mut lesson = played_on();
        let heard = (0..5).map(|nth| {
            "CC".chars().for_each(|letter| _ = lesson.play(verdict(letter)));
            miss(&mut lesson, Some(if nth == other { Cause::Late } else { Cause::TooLoud }))
        });
        let last = heard.last().expect("five misses");
        assert_eq!(last.mind, (other != 4).then_some(Cause::TooLoud), "late the {}th time: {last:?}", other + 1);
    }
}

#[test]
fn misses_without_a_cause_leave_no_room_for_mostly() {
    let mut lesson = played_on();
    for cause in [Some(Cause::Late), None, Some(Cause::Late), None] {
        "CC".chars().for_each(|letter| _ = lesson.play(verdict(letter)));
        miss(&mut lesson, cause);
    }
    assert_eq!(lesson.advice().mind, None);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn causes_that_change_each_time_end_the_block_and_a_constant_one_never_does_so(
        causes in Just(Cause::ALL.to_vec()).prop_shuffle()
    ) {
        let (mut changing, mut constant) = (lesson(), lesson());
        let ends = |advice: Advice| advice.reason == Reason::Leave(Leaving::CausesDiffer { misses: 4 });
        let after = causes.iter().position(|cause| ends(miss(&mut changing, Some(*cause))));
        prop_assert_eq!(after, Some(3));
        prop_assert!(causes.iter().all(|_| !ends(miss(&mut constant, Some(causes[0])))));
    }
}

#[test]
fn causes_that_nobody_named_say_nothing() {
    let mut lesson = played_on();
    assert!((0..9).all(|_| miss(&mut lesson, None).mind.is_none()));
}
