//! One snippet from its goal alone to the whole, as a teacher would tell it.

use crate::happenings::{Lesson, at, snippet, span, step, verdict};
use tailfirst::method::{
    Advice, Cause, Direction, Hands, Leaving, Move, Reason, Settings, Standing, Verdict, What, standing,
};

/// What is played, and what the coach then says. All but the last verdict of a row are answered by
/// "again".
type Row = (&'static str, Move, (usize, usize), Hands, u16);

fn tell(lesson: &mut Lesson, rows: &[Row]) {
    for (number, (verdicts, led_by, (first, last), hands, beats)) in rows.iter().enumerate() {
        let mut advice = lesson.advice();
        for (nth, letter) in verdicts.chars().enumerate() {
            assert!(nth == 0 || advice.led_by == Move::Again, "row {number}, {nth}: {advice:?}");
            advice = lesson.play(verdict(letter));
        }
        let expected = (*led_by, step(*first, *last, *hands, *beats));
        assert_eq!((advice.led_by, advice.step), expected, "row {number}: {advice:?}");
    }
}

fn long_block() -> Settings {
    Settings { block_minutes: 30, ..Settings::default() }
}

#[test]
fn the_whole_story_from_the_goal_alone_to_the_whole_snippet() {
    use Hands::{Both, Left, Right};
    // Four onsets; the left hand rests on the first, the right one on the third.
    let mut lesson = Lesson::new(&snippet("RBLB", 3, Direction::TowardGoal), long_block());
    tell(
        &mut lesson,
        &[
            ("", Move::Begin, (3, 3), Right, 100),
            ("CCCCC", Move::JoinHands, (3, 3), Both, 100),
            ("CCC", Move::Lengthen, (2, 3), Left, 100),
            ("CC", Move::JoinHands, (2, 3), Both, 100),
            ("CCC", Move::Lengthen, (1, 3), Right, 100),
            ("CC", Move::JoinHands, (1, 3), Both, 100),
            ("NNNN", Move::Narrow, (1, 3), Left, 100),
            ("CCCCC", Move::JoinHands, (1, 3), Both, 100),
            ("NNNN", Move::Narrow, (1, 2), Both, 100),
            ("CCCCC", Move::CarryThrough, (1, 3), Both, 100),
            ("NNNN", Move::Ease, (1, 3), Both, 84),
            ("CCCCC", Move::Climb, (1, 3), Both, 92),
            ("CC", Move::Climb, (1, 3), Both, 100),
            ("CCC", Move::Lengthen, (0, 3), Right, 100),
            ("CC", Move::JoinHands, (0, 3), Both, 100),
            ("CC", Move::Leave, (0, 3), Both, 100),
        ],
    );
    assert_eq!(lesson.advice().reason, Reason::Leave(Leaving::WholeSecure));
}
