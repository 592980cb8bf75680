//! What the player can ask for instead of the coach's step, one tap each.

use crate::method::{Hands, Move, Snippet, Span, Step, growth};

/// One onset more, or `None` where the whole snippet is played.
pub fn longer(snippet: &Snippet, step: Step) -> Option<Step> {
    growth::longer(snippet, step.span).map(|span| Step { span, ..step })
}

/// One onset fewer, or `None` for a single onset. Hands that have nothing left to play give way to
/// those that have.
pub fn shorter(snippet: &Snippet, step: Step) -> Option<Step> {
    let span = growth::shorter(snippet, step.span)?;
    let shorter = Step { span, ..step };
    let hands = if snippet.can_play(shorter) { step.hands } else { snippet.hands_in(span)? };
    Some(Step { hands, ..shorter })
}

/// The next of: the hard hand, the other hand, both; `None` where only one hand plays.
pub fn other_hand(snippet: &Snippet, step: Step) -> Option<Step> {
    let choices = choices(snippet, step.span);
    let at = choices.iter().position(|hands| *hands == step.hands).unwrap_or(0);
    let hands = choices[(at + 1) % choices.len()];
    (hands != step.hands).then_some(Step { hands, ..step })
}

/// The next mark down the metronome scale, or `None` at the slowest tempo.
pub fn slower(step: Step) -> Option<Step> {
    let bpm = step.bpm.slower();
    (bpm != step.bpm).then_some(Step { bpm, ..step })
}

/// The next mark up the metronome scale, or `None` at the fastest tempo.
pub fn faster(step: Step) -> Option<Step> {
    let bpm = step.bpm.faster();
    (bpm != step.bpm).then_some(Step { bpm, ..step })
}

/// Whether choosing `chosen` takes back what the coach's move to `advised` brought: one hand again after
/// joining them, shorter after lengthening, slower after climbing; larger after narrowing, faster after
/// easing.
pub fn takes_back(led_by: Move, advised: Step, chosen: Step) -> bool {
    match led_by {
        Move::JoinHands => chosen.span == advised.span && chosen.hands != advised.hands,
        Move::Lengthen | Move::CarryThrough => chosen.span.count() < advised.span.count(),
        Move::Climb => chosen.bpm < advised.bpm,
        Move::Narrow => advised.is_smaller_than(chosen),
        Move::Ease => chosen.bpm > advised.bpm,
        Move::Begin | Move::Again | Move::ColdTry | Move::Overruled | Move::Leave | Move::StartAfresh => false,
    }
}

/// The hands that can play in `span`: each alone, the hard one first, then both.
fn choices(snippet: &Snippet, span: Span) -> Vec<Hands> {
    let mut choices: Vec<Hands> = snippet.single_hands(span).into_iter().map(Hands::from).collect();
    let together = snippet.hands_in(span).filter(|hands| !choices.contains(hands));
    choices.extend(together);
    choices
}
