//! The player chooses another step, and the coach goes along.

use crate::happenings::{Lesson, snippet, step, verdict};
use tailfirst::method::{Direction, Hands, Move, Reason, Settings, What, overrule};

fn lesson() -> (Lesson, std::rc::Rc<tailfirst::method::Snippet>) {
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
    let advice = lesson.happens(What::Overruled(chosen));
    assert_eq!((advice.step, advice.led_by, advice.reason), (chosen, Move::Overruled, Reason::Chosen));
    for letter in "CNCN".chars() {
        let advice = lesson.play(verdict(letter));
        assert_eq!((advice.step, advice.led_by), (chosen, Move::Again));
    }
    let missed = (0..8).map(|_| lesson.play(verdict('N'))).find(|advice| advice.led_by != Move::Again);
    assert_eq!(missed.map(|advice| advice.led_by), Some(Move::Narrow));
}
