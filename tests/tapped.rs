//! A rhythm tapped in comes to the grid it was meant on.

use proptest::prelude::*;
use tailfirst::music::{BeatUnit, Bpm, Hand, Meter, Quarters, Tap, TappedError, Tempo, quantise, tapped::Nudge};

fn tempo(bpm: u16) -> Tempo {
    Tempo { beat: BeatUnit::QUARTER, bpm: Bpm::new(bpm).expect("in range") }
}

/// Taps of the right hand at these places, each off by so many seconds.
fn taps(places: &[Quarters], bpm: u16, off: impl Fn(usize) -> f64) -> Vec<Tap> {
    let seconds = |(nth, at): (usize, &Quarters)| tempo(bpm).seconds(*at) + off(nth);
    places.iter().enumerate().map(|tap| Tap { seconds: seconds(tap), hand: Hand::Right }).collect()
}

fn places(taps: &[Tap], bpm: u16) -> Vec<Quarters> {
    let tapped = quantise(taps, Meter::COMMON, tempo(bpm)).expect("a rhythm");
    tapped.passage().onsets().iter().map(|onset| onset.at).collect()
}

/// Each of four beats is one of these figures, in parts of a beat.
const FIGURES: [&[(i64, i64)]; 6] = [
    &[(0, 1)],
    &[(0, 1), (1, 2)],
    &[(0, 1), (1, 4), (1, 2), (3, 4)],
    &[(0, 1), (1, 3), (2, 3)],
    &[(0, 1), (3, 4)],
    &[(0, 1), (1, 4), (1, 2)],
];

fn rhythm(figures: &[usize]) -> Vec<Quarters> {
    let beat = |(beat, figure): (usize, &usize)| {
        let part = move |(n, d): &(i64, i64)| Quarters::whole(beat as u16) + Quarters::new(*n, *d).expect("in bounds");
        FIGURES[figure % FIGURES.len()].iter().map(part)
    };
    figures.iter().enumerate().flat_map(beat).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_tapped_exactly_comes_back_exactly(figures in prop::collection::vec(0..6usize, 3..6), bpm in 50u16..130) {
        let meant = rhythm(&figures);
        prop_assert_eq!(places(&taps(&meant, bpm, |_| 0.0), bpm), meant);
    }

    #[test]
    fn a_player_who_is_late_or_early_throughout_is_understood(
        figures in prop::collection::vec(0..4usize, 4..6), late in -0.05..0.06f64
    ) {
        let meant = rhythm(&figures);
        prop_assert_eq!(places(&taps(&meant, 72, |_| late), 72), meant);
    }
}

/// Hands of skilled players part by some 30 ms (Goebl 2001, JASA, doi 10.1121/1.1376133).
#[test]
fn two_hands_twenty_milliseconds_apart_are_one_onset() {
    let tap = |seconds, hand| Tap { seconds, hand };
    let taps = [tap(0.0, Hand::Left), tap(0.02, Hand::Right), tap(1.0, Hand::Right), tap(1.01, Hand::Left)];
    let tapped = quantise(&taps, Meter::COMMON, tempo(60)).expect("a rhythm");
    let onsets = tapped.passage().onsets();
    assert_eq!(onsets.len(), 2);
    assert!(onsets.iter().all(|onset| onset.plays(Hand::Left) && onset.plays(Hand::Right)));
}

#[test]
fn an_onset_is_nudged_to_the_next_place_but_never_onto_another() {
    let meant = rhythm(&[0, 0, 1]);
    let tapped = quantise(&taps(&meant, 60, |_| 0.0), Meter::COMMON, tempo(60)).expect("a rhythm");
    let later = tapped.nudged(3, Nudge::Later).expect("room");
    assert!(later.passage().onsets()[3].at > meant[3]);
    assert_eq!(later.nudged(3, Nudge::Earlier).expect("room").passage().onsets()[3].at, meant[3]);
    assert_eq!(tapped.nudged(0, Nudge::Earlier).map(|_| ()), None);
}

#[test]
fn nothing_tapped_says_what_to_do() {
    let nothing = quantise(&[], Meter::COMMON, tempo(60)).expect_err("no rhythm");
    assert_eq!(nothing, TappedError::Nothing);
    assert!(nothing.to_string().contains("tap the rhythm"));
}
