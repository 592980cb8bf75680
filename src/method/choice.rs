//! Which of several steps to play: the one that brings the whole on fastest for its seconds and mostly goes right.

use crate::method::{
    Belief, Snippet, Step,
    moves::Candidate,
    rules::{self, Rules},
};

/// Of the `candidates` the one that is expected to take most hazard from the whole snippet in a second, among those that
/// are likely enough to go right; where none is, the one most likely to. The earlier one where two are alike.
pub fn best(candidates: Vec<Candidate>, snippet: &Snippet, belief: &Belief, rules: &Rules) -> Option<Candidate> {
    let mut best: Option<((bool, f64), Candidate)> = None;
    for candidate in candidates {
        let step = candidate.1.step;
        let chance = belief.chance(step);
        let likely = chance >= rules.worth_trying;
        let worth = if likely { belief.gain(step) / seconds(snippet, step) } else { chance };
        if best.as_ref().is_none_or(|(most, _)| (likely, worth) > *most) {
            best = Some(((likely, worth), candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// About how long a repetition lasts, in seconds: counting in, the onsets themselves, the last one held, a breath.
pub fn seconds(snippet: &Snippet, step: Step) -> f64 {
    let onsets = step.span.of(snippet.passage().onsets());
    let beat = 60.0 / f64::from(step.bpm.get());
    let sounding = match onsets {
        [first, .., last] => snippet.tempo().at(step.bpm).seconds(last.at - first.at),
        _ => 0.0,
    };
    rules::BEATS_AROUND * beat + sounding + rules::BREATH
}
