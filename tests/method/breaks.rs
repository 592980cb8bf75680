//! Where it breaks: what the player points to after a miss, and what the coach makes of it.

use crate::happenings::{Lesson, snippet};
use tailfirst::method::{Direction, HappeningKind, Move, Settings, Step, Verdict};

/// Whether the way into the third onset is played.
fn breaks(step: Step) -> bool {
    step.span.contains(1) && step.span.contains(2)
}

/// A lesson of eight onsets in one hand, of which only the way into the third fails, until a step that failed is narrowed; the
/// steps that were played.
fn until_narrowed(points: bool) -> (Lesson, Vec<Step>) {
    let snippet = snippet("RRRRRRRR", 7, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    let mut steps = Vec::new();
    for _ in 0..60 {
        let step = lesson.advice().step;
        let (verdict, broke_at) =
            if breaks(step) { (Verdict::NotYet, points.then_some(2)) } else { (Verdict::Clean, None) };
        let advice = lesson.happens(HappeningKind::Played { step, verdict, cause: None, broke_at });
        steps.push(step);
        if advice.led_by == Move::Narrow {
            return (lesson, steps);
        }
    }
    panic!("nothing was ever narrowed: {steps:?}");
}

#[test]
fn the_place_that_was_pointed_to_becomes_the_smaller_task() {
    let (lesson, played) = until_narrowed(true);
    let narrowed = lesson.advice().step;
    let failed = played.last().expect("a step");
    assert!(failed.span.count() > 3, "{failed:?}");
    assert!(narrowed.span.contains(2) && narrowed.span.count() <= 2, "{narrowed:?}, after {failed:?}");
}

#[test]
fn the_places_that_cost_most_stand_out_once_they_were_pointed_to_and_not_before() {
    let snippet = snippet("RRRRRRRR", 7, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings::default());
    assert_eq!(lesson.coach.costliest(), []);
    for _ in 0..2 {
        let step = lesson.advice().step;
        lesson.happens(HappeningKind::Played { step, verdict: Verdict::NotYet, cause: None, broke_at: Some(7) });
    }
    assert_eq!(lesson.coach.costliest().first().map(|place| place.heard_at()), Some(7));
    let (pointed, _) = until_narrowed(true);
    let worst = pointed.coach.costliest();
    assert_eq!(worst.first().map(|place| place.heard_at()), Some(2), "{worst:?}");
    assert!(worst.len() <= 2);
}
