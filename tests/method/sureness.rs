//! How many repetitions it takes to be sure.

use crate::happenings::{Dice, Lesson, snippet, verdict};
use crate::sequential::least_trials;
use tailfirst::method::{Direction, Leaving, Move, Reason, Settings, Strictness, Verdict};

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

/// The learning trial of Smith et al. 2004, of the step that is played.
#[test]
fn what_was_missed_at_first_and_then_clean_is_learned_since_a_repetition_in_between() {
    let mut lesson = lesson(Strictness::Strict);
    "NN".chars().for_each(|letter| _ = lesson.play(verdict(letter)));
    assert_eq!(lesson.coach.learned_since(), None);
    while lesson.play(Verdict::Clean).led_by == Move::Again && lesson.coach.learned_since().is_none() {}
    let since = lesson.coach.learned_since().expect("it is learned before it is secure");
    assert!((3..8).contains(&since), "{since}");
}

/// Players whose chance of a clean repetition does not change.
const PLAYERS: u64 = 500;

/// The share of them whom a new step is found secure for, and the repetitions they are asked for until it is
/// that or given up.
fn new_step(chance: f64) -> (f64, f64) {
    let snippet = snippet("-", 0, Direction::TowardGoal);
    let (mut secure, mut repetitions) = (0, 0);
    for player in 1..=PLAYERS {
        let (mut dice, mut lesson) = (Dice::thrown_by(player), Lesson::new(&snippet, Settings::default()));
        let advice = loop {
            repetitions += 1;
            let advice = lesson.play(if dice.roll() < chance { Verdict::Clean } else { Verdict::NotYet });
            if advice.led_by != Move::Again {
                break advice;
            }
        };
        secure += u64::from(advice.reason == Reason::Leave(Leaving::WholeSecure));
    }
    (secure as f64 / PLAYERS as f64, repetitions as f64 / PLAYERS as f64)
}

/// The coach allows for a chance that changes, as no test of a constant one does; that may cost three trials
/// in ten.
#[test]
fn a_new_step_is_decided_nearly_as_soon_as_by_any_test_that_errs_as_often() {
    let ((at_bad, _), (at_good, repetitions)) = (new_step(0.6), new_step(0.9));
    let least = least_trials(0.6, 0.9, at_bad, at_good);
    let ours = format!("secure {at_bad:.3} at 0.6, {at_good:.3} at 0.9 after {repetitions:.2}; the least: {least:.2}");
    println!("{ours}");
    assert!(at_bad < 0.35 && at_good > 0.95 && repetitions <= 1.3 * least, "{ours}");
}
