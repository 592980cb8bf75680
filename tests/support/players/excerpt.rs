//! What is practised: invented excerpts of a few onsets for one hand or two.

use super::dice::Dice;
use crate::invented::{bars, passage, snippet, tempo};
use std::rc::Rc;
use tailfirst::{
    method::{Snippet, Step},
    music::{Hand, NoteValue},
};

/// Four to ten onsets, an eighth or a quarter apart, that arrive at the last one; one in four is for one
/// hand, in the others half of the onsets are for both.
pub fn excerpt(dice: &mut Dice) -> Rc<Snippet> {
    let (onsets, eighths) = (dice.whole(4, 10), dice.whole(1, 2));
    let two_hands = dice.happens(0.75);
    let (mut left, mut right) = (String::new(), String::new());
    for onset in 0..onsets {
        let at = format!("{}/2 ", onset * eighths);
        let both = onset == onsets - 1 || dice.happens(0.5);
        let leads = dice.happens(0.6);
        if two_hands && (both || !leads) {
            left += &at;
        }
        if !two_hands || both || leads {
            right += &at;
        }
    }
    let meter = vec!["4/4"; (onsets * eighths).div_ceil(8)].join(" ");
    let passage = passage(bars(&meter, 1), &[(Hand::Right, &right), (Hand::Left, &left)]);
    Rc::new(snippet(passage, tempo(NoteValue::Quarter, 0, dice.whole(60, 112) as u16)))
}

/// A whole bar counted in, common practice, no source …
const COUNT_IN_BEATS: f64 = 4.0;
/// … the last onset held for a beat, and a breath before the next repetition, in seconds. Invented.
const HELD_BEATS: f64 = 1.0;
const BREATH: f64 = 2.0;

/// The wall time of one repetition, in seconds.
pub fn seconds(snippet: &Snippet, step: Step) -> f64 {
    let onsets = step.span.of(snippet.passage().onsets());
    let sounding = onsets[onsets.len() - 1].at - onsets[0].at;
    let beat = 60.0 / f64::from(step.bpm.get());
    (COUNT_IN_BEATS + HELD_BEATS) * beat + snippet.tempo().at(step.bpm).seconds(sounding) + BREATH
}
