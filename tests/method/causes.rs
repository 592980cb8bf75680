//! What was named as not yet right, and what it leads to.

use crate::happenings::{Lesson, snippet};
use proptest::prelude::*;
use tailfirst::method::{Advice, Cause, Direction, Leaving, Reason, Settings, Verdict, What};

fn miss(lesson: &mut Lesson, cause: Option<Cause>) -> Advice {
    let step = lesson.advice().step;
    lesson.happens(What::Played { step, verdict: Verdict::NotYet, cause })
}

fn lesson() -> Lesson {
    Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings { block_minutes: 30, ..Settings::default() })
}

/// Whichever two of the nine were something else.
#[test]
fn seven_of_nine_misses_too_loud_are_advised_upon() {
    for first in 0..9 {
        for second in first + 1..9 {
            let mut lesson = lesson();
            let other = |nth| if nth == first { Cause::Late } else { Cause::Uneven };
            let cause = |nth| if nth == first || nth == second { other(nth) } else { Cause::TooLoud };
            let advice = (0..9).map(|nth| miss(&mut lesson, Some(cause(nth)))).last();
            assert_eq!(advice.and_then(|advice| advice.mind), Some(Cause::TooLoud), "all but {first} and {second}");
        }
    }
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
    let mut lesson = lesson();
    assert!((0..9).all(|_| miss(&mut lesson, None).mind.is_none()));
}
