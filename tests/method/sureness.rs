//! How many repetitions it takes to be sure.

use crate::happenings::{Dice, Lesson, snippet, verdict};
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

/// Wald's sequential test of 0.6 against 0.9 with both risks 0.1, exactly: the chance that it decides for
/// 0.9 and the trials it takes, by following the distribution of the clean ones from trial to trial.
fn sequential_test(chance: f64) -> (f64, f64) {
    let (bound, up, down) = (9f64.ln(), 1.5f64.ln(), 4f64.ln());
    let (mut secure, mut trials) = (0.0, 0.0);
    let mut undecided = vec![(0usize, 1.0)];
    for trial in 1..1_000 {
        let mut next = vec![0.0; trial + 1];
        for (clean, likely) in undecided {
            next[clean + 1] += likely * chance;
            next[clean] += likely * (1.0 - chance);
        }
        undecided = Vec::new();
        for (clean, likely) in next.into_iter().enumerate() {
            let ratio = clean as f64 * up - (trial - clean) as f64 * down;
            match ratio {
                _ if ratio >= bound => (secure, trials) = (secure + likely, trials + likely * trial as f64),
                _ if ratio <= -bound => trials += likely * trial as f64,
                _ => undecided.push((clean, likely)),
            }
        }
    }
    (secure, trials)
}

/// A test of a constant chance is the yardstick for a new step: what is mostly clean should be found secure
/// no later than by it, and what is not should not pass. Its figures are exact (computed by dynamic
/// programming for Wald 1947 and confirmed by simulation).
#[test]
fn a_new_step_is_decided_as_soon_as_by_walds_sequential_test() {
    for (chance, decides_for, trials) in
        [(0.6, 0.086_001, 7.418_234), (0.9, 0.938_116, 9.199_368), (0.95, 0.989_114, 7.433_152)]
    {
        let exact = sequential_test(chance);
        assert!((exact.0 - decides_for).abs() < 1e-6 && (exact.1 - trials).abs() < 1e-6, "{chance}: {exact:?}");
        let (secure, repetitions) = new_step(chance);
        let ours = format!("chance {chance}: secure {secure:.3} after {repetitions:.2} repetitions");
        println!("{ours}; the sequential test: {decides_for:.3} after {trials:.2}");
        let as_good = if chance > 0.8 { secure > 0.9 && repetitions < trials } else { secure < 0.2 };
        assert!(as_good, "{ours}");
    }
}
