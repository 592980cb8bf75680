//! Which passages are too alike to follow each other at once.

use proptest::{collection::vec, prelude::*};
use tailfirst::{
    calendar::likeness::{TOO_ALIKE, likeness},
    music::{Bar, Hand, Meter, Note, Onset, Passage, Pitch, Quarters, pitch::Letter},
};

/// Notes one after the other, an eighth each: the hand and the white key counted from C0.
fn line(notes: &[(Hand, i8)]) -> Passage {
    let letters = [Letter::C, Letter::D, Letter::E, Letter::F, Letter::G, Letter::A, Letter::B];
    let onset = |(nth, (hand, key)): (usize, &(Hand, i8))| {
        let pitch = Pitch { letter: letters[(key % 7) as usize], alter: 0, octave: key / 7 };
        let note = Note { pitch: Some(pitch), ..Note::unpitched(*hand, Quarters::ONE) };
        Onset { at: Quarters::new(nth as i64, 2).expect("a place"), notes: vec![note], dynamic: None }
    };
    let bar = Bar {
        number: "1".into(),
        start: Quarters::ZERO,
        length: Quarters::whole(64),
        meter: Meter::new(4, 4).expect("a meter"),
        missing: Quarters::ZERO,
    };
    Passage::new(vec![bar], notes.iter().enumerate().map(onset).collect()).expect("a passage")
}

fn played(hand: Hand, keys: &[i8]) -> Passage {
    line(&keys.iter().map(|key| (hand, *key)).collect::<Vec<_>>())
}

const RUN_UP: [i8; 8] = [28, 29, 30, 31, 32, 33, 34, 35];
const ARPEGGIO: [i8; 8] = [28, 30, 32, 35, 32, 30, 28, 30];

#[test]
fn a_run_is_like_the_same_run_a_step_higher() {
    let higher = RUN_UP.map(|key| key + 1);
    assert!(likeness(&played(Hand::Right, &RUN_UP), &played(Hand::Right, &higher)) > TOO_ALIKE);
}

#[test]
fn another_hand_region_or_figure_makes_it_another_task() {
    let run = played(Hand::Right, &RUN_UP);
    let unlike = |other: Passage| assert!(likeness(&run, &other) < TOO_ALIKE, "{}", likeness(&run, &other));
    unlike(played(Hand::Left, &RUN_UP));
    unlike(played(Hand::Right, &RUN_UP.map(|key| key - 14)));
    unlike(played(Hand::Right, &ARPEGGIO));
    let mut down = RUN_UP;
    down.reverse();
    unlike(played(Hand::Right, &down));
}

fn passages() -> impl Strategy<Value = Passage> {
    let hand = prop_oneof![Just(Hand::Left), Just(Hand::Right)];
    vec((hand, 14i8..50), 1..20).prop_map(|notes| line(&notes))
}

proptest! {
    #[test]
    fn likeness_is_mutual_and_a_passage_is_most_like_itself(one in passages(), other in passages()) {
        let both = likeness(&one, &other);
        prop_assert!((both - likeness(&other, &one)).abs() < 1e-12);
        prop_assert!((0.0..=1.0 + 1e-12).contains(&both));
        prop_assert!((likeness(&one, &one) - 1.0).abs() < 1e-12);
    }
}
