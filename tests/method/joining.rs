//! Finished neighbours become one snippet, and its lead-in grows by bars.

use crate::happenings::{Lesson, at, snippet, span, verdict};
use std::rc::Rc;
use tailfirst::{
    method::{Direction, Grain, Hands, HappeningKind, Move, Settings, Snippet},
    music::{Bar, Meter, Passage, Quarters},
};

/// Four onsets a bar in both hands, the bars numbered from `first`.
fn bars(first: u32, count: u16) -> Snippet {
    let onsets = snippet(&"BBBB".repeat(usize::from(count)), 0, Direction::TowardGoal);
    let bar = |(n, number): (u16, u32)| Bar {
        number: number.to_string(),
        start: Quarters::whole(4 * n),
        length: Quarters::whole(4),
        meter: Meter::COMMON,
        missing: Quarters::ZERO,
    };
    let bars = (0..count).zip(first..).map(bar).collect();
    let passage = Passage::new(bars, onsets.passage().onsets().to_vec()).expect("a passage");
    let goal = passage.onsets().len() - 1;
    Snippet::new(format!("from bar {first}"), passage, goal, onsets.tempo()).expect("a snippet")
}

#[test]
fn neighbours_are_joined_at_the_bar_line_or_over_the_bars_they_share() {
    let (early, late, sharing) = (bars(5, 2), bars(7, 2), bars(6, 2));
    let union = early.joined(&late).expect("neighbours");
    assert_eq!(union.passage().onsets().len(), 16);
    assert_eq!((union.goal(), union.grain()), (15, Grain::Bar));
    let numbers: Vec<&str> = union.passage().bars().iter().map(|bar| bar.number.as_str()).collect();
    assert_eq!(numbers, ["5", "6", "7", "8"]);
    assert_eq!(early.joined(&sharing).map(|union| union.passage().onsets().len()), Some(12));
    for (one, other) in [(&late, &early), (&early, &early), (&early, &bars(8, 1))] {
        assert_eq!(one.joined(other), None, "{} and {}", one.name(), other.name());
    }
}

#[test]
fn the_lead_in_of_a_union_grows_bar_by_bar() {
    let union = Rc::new(bars(5, 2).joined(&bars(7, 2)).expect("neighbours"));
    let mut lesson = Lesson::new(&union, Settings { block_minutes: 30, ..Settings::default() });
    let begin = lesson.advice().step;
    assert_eq!(begin.hands, Hands::Both);
    let mut spans = vec![begin.span];
    while lesson.advice().led_by != Move::Leave {
        let advice = lesson.play(verdict('C'));
        if advice.led_by == Move::Lengthen {
            spans.push(advice.step.span);
        }
    }
    assert_eq!(spans, [span(12, 15), span(8, 15), span(4, 15), span(0, 15)]);
}

#[test]
fn a_snippet_has_held_when_its_cold_try_was_clean_and_not_before() {
    let snippet = snippet("BB", 1, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    while lesson.advice().led_by != Move::Leave {
        lesson.play(verdict('C'));
    }
    lesson.happens(HappeningKind::BlockEnded);
    assert!(!lesson.coach.has_held());
    let cold = lesson.sit_down(at(1, 0));
    assert_eq!((cold.step.span, cold.step.hands), (snippet.whole(), Hands::Both));
    lesson.play(verdict('C'));
    assert!(lesson.coach.has_held());
}
