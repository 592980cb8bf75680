//! One snippet from its goal alone to the whole, as a teacher would tell it.

use crate::happenings::{Lesson, snippet, step, verdict};
use tailfirst::method::{Direction, Hands, Leaving, Move, Reason, Settings};

/// Most repetitions that one step may take in this story.
const PATIENCE: usize = 12;

/// The verdict that every repetition gets, the move it leads to in the end, and the step to play then.
type Row = (char, Move, (usize, usize), Hands, u16);

fn tell(lesson: &mut Lesson, rows: &[Row]) {
    for (number, (letter, led_by, (first, last), hands, beats)) in rows.iter().enumerate() {
        let until_a_move = (0..PATIENCE).map(|_| lesson.play(verdict(*letter)));
        let advice = until_a_move.into_iter().find(|advice| advice.led_by != Move::Again);
        let advice = advice.unwrap_or_else(|| panic!("row {number}: no move in {PATIENCE} repetitions"));
        let expected = (*led_by, step(*first, *last, *hands, *beats));
        assert_eq!((advice.led_by, advice.step), expected, "row {number}: {advice:?}");
    }
}

#[test]
fn the_whole_story_from_the_goal_alone_to_the_whole_snippet() {
    use Hands::{Both, Left, Right};
    // Four onsets; the left hand rests on the first, the right one on the third.
    let snippet = snippet("RBLB", 3, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    let begin = lesson.advice();
    assert_eq!((begin.led_by, begin.step), (Move::Begin, step(3, 3, Right, 100)));
    tell(
        &mut lesson,
        &[
            ('C', Move::JoinHands, (3, 3), Both, 100),
            // It went easily: both hands at once.
            ('C', Move::Lengthen, (2, 3), Both, 100),
            ('C', Move::Lengthen, (1, 3), Both, 100),
            // Too hard: the onset just added, then that and the next one, each hand alone.
            ('N', Move::Narrow, (1, 1), Both, 100),
            ('C', Move::CarryThrough, (1, 2), Both, 100),
            ('N', Move::Narrow, (1, 2), Left, 100),
            ('C', Move::JoinHands, (1, 2), Both, 100),
            ('N', Move::Narrow, (1, 2), Right, 100),
            ('C', Move::JoinHands, (1, 2), Both, 100),
            // Nothing is left to narrow.
            ('N', Move::Ease, (1, 2), Both, 84),
            ('C', Move::Climb, (1, 2), Both, 92),
            ('C', Move::Climb, (1, 2), Both, 100),
            ('C', Move::CarryThrough, (1, 3), Both, 100),
            ('C', Move::Lengthen, (0, 3), Both, 100),
            ('C', Move::Leave, (0, 3), Both, 100),
        ],
    );
    assert_eq!(lesson.advice().reason, Reason::Leave(Leaving::WholeSecure));
}
