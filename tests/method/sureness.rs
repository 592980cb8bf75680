//! How many repetitions it takes to be sure.

use crate::happenings::{Lesson, snippet, verdict};
use tailfirst::method::{Direction, Move, Settings, Strictness};

/// Repetitions with this verdict until the coach moves on.
fn until_a_move(lesson: &mut Lesson, letter: char) -> usize {
    (1..60).find(|_| lesson.play(verdict(letter)).led_by != Move::Again).expect("a move")
}

fn lesson(strictness: Strictness) -> Lesson {
    Lesson::new(&snippet("RRRR", 3, Direction::TowardGoal), Settings { strictness, ..Settings::default() })
}

/// Wald's sequential test of 0.6 against 0.9 at risks of 0.1 decides for 0.9 after six clean in a row at
/// the earliest (ln 9 / ln 1.5 = 5.4; Wald 1947, computed); a step that is new should not take longer.
#[test]
fn a_new_step_is_secure_after_some_clean_repetitions_and_its_neighbour_after_fewer() {
    let counts = [Strictness::Lenient, Strictness::Usual, Strictness::Strict].map(|strictness| {
        let mut lesson = lesson(strictness);
        (until_a_move(&mut lesson, 'C'), until_a_move(&mut lesson, 'C'))
    });
    let [lenient, usual, strict] = counts;
    assert!(lenient.0 < usual.0 && usual.0 < strict.0, "{counts:?}");
    assert!((4..=6).contains(&usual.0) && (2..=4).contains(&usual.1), "{counts:?}");
    assert!(counts.iter().all(|(new, neighbour)| neighbour <= new && *neighbour >= 2), "{counts:?}");
}

#[test]
fn what_is_foreseen_comes_true() {
    for played in ["", "CC", "CNC", "NCCN"] {
        for letter in ['C', 'N'] {
            let mut lesson = lesson(Strictness::Usual);
            played.chars().for_each(|letter| _ = lesson.play(verdict(letter)));
            let foreseen = lesson.coach.until_a_move(verdict(letter), lesson.now);
            assert_eq!(foreseen, Some(until_a_move(&mut lesson, letter) as u32), "{played} then {letter}");
        }
    }
}

#[test]
fn two_misses_never_make_a_step_too_hard_and_a_single_one_is_soon_forgiven() {
    let mut fresh = lesson(Strictness::Usual);
    assert!(until_a_move(&mut fresh, 'N') >= 3);
    let mut stumbles = lesson(Strictness::Usual);
    "CCN".chars().for_each(|letter| assert_eq!(stumbles.play(verdict(letter)).led_by, Move::Again));
    assert!(until_a_move(&mut stumbles, 'C') <= 9);
}
