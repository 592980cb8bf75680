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
/// the earliest (ln 9 / ln 1.5 = 5.4; Wald 1947, computed); the whole should not take much longer, a step on the way less.
#[test]
fn the_whole_is_secure_after_some_clean_repetitions_and_a_step_on_the_way_goes_well_after_fewer() {
    let counts = [Strictness::Lenient, Strictness::Usual, Strictness::Strict].map(|strictness| {
        let settings = Settings { strictness, ..Settings::default() };
        let mut whole = Lesson::new(&snippet("R", 0, Direction::TowardGoal), settings);
        (until_a_move(&mut lesson(strictness), 'C'), until_a_move(&mut whole, 'C'))
    });
    let [lenient, usual, strict] = counts;
    assert!(lenient.1 < usual.1 && usual.1 < strict.1, "{counts:?}");
    assert!((4..=7).contains(&usual.1) && counts.iter().all(|(on_the_way, _)| *on_the_way <= 2), "{counts:?}");
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
fn a_single_miss_never_makes_a_step_too_hard_and_is_soon_forgiven() {
    let mut stumbles = lesson(Strictness::Usual);
    assert_eq!(stumbles.play(Verdict::NotYet).led_by, Move::Again);
    assert!(until_a_move(&mut stumbles, 'C') <= 4);
    assert!(until_a_move(&mut lesson(Strictness::Usual), 'N') <= 4);
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

/// What is asked of the whole is asked for the morning too, and the coach allows for a chance that changes, as no test of a
/// constant one does: that may cost as many trials again as the shortest test needs.
#[test]
fn a_whole_that_fails_often_is_rarely_called_secure_and_a_good_one_soon() {
    let ((at_bad, _), (at_good, repetitions)) = (new_step(0.6), new_step(0.9));
    let least = least_trials(0.6, 0.9, at_bad, at_good);
    let ours = format!("secure {at_bad:.3} at 0.6, {at_good:.3} at 0.9 after {repetitions:.2}; the least: {least:.2}");
    println!("{ours}");
    assert!(at_bad < 0.35 && at_good > 0.95 && repetitions <= 2.0 * least, "{ours}");
}

/// Eight onsets in both hands, clean from the first note on.
#[test]
fn whoever_is_always_clean_has_the_whole_secure_soon() {
    let mut easy = Lesson::new(&snippet("BBBBBBBB", 7, Direction::TowardGoal), Settings::default());
    let repetitions = (1..60).find(|_| easy.play(Verdict::Clean).reason == Reason::Leave(Leaving::WholeSecure));
    println!("eight onsets, always clean: {repetitions:?} repetitions");
    assert!(repetitions.is_some_and(|repetitions| repetitions <= 15), "{repetitions:?}");
}
