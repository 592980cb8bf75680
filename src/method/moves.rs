//! The moves: from a secure step onward, from one that is too hard back.

use crate::method::{Hands, Move, Snippet, Span, Step, growth, rules};

/// Where the player is: the step, and the step it prepares if that was too hard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    pub step: Step,
    pub narrowed_from: Option<Step>,
}

impl Place {
    /// **Begin** with the goal alone, in the hand that carries the difficulty, at the target tempo.
    pub fn first(snippet: &Snippet) -> Self {
        let span = Span::only(snippet.goal());
        Place::plain(Step { span, hands: first_hand(snippet, span), bpm: snippet.tempo().bpm })
    }

    /// A step that prepares no other.
    pub fn plain(step: Step) -> Self {
        Place { step, narrowed_from: None }
    }

    /// Where a player who chose `step` is: a choice inside the narrowed task stays in it.
    pub fn chosen(self, step: Step) -> Self {
        let inside = |from: &Step| from.span != step.span && from.span.holds(step.span) && from.hands.hold(step.hands);
        Place { step, narrowed_from: self.narrowed_from.filter(inside) }
    }

    /// The move from a secure step, or `None` when the whole snippet is secure. `together` tells whether both
    /// hands may have the next onset at once.
    pub fn onward(self, snippet: &Snippet, together: bool) -> Option<(Move, Place)> {
        let (step, target) = (self.step, snippet.tempo().bpm);
        // Climb: nothing is joined or lengthened below the target tempo.
        if step.bpm < target {
            let bpm = rules::climbed(step.bpm, target);
            return Some((Move::Climb, Place { step: Step { bpm, ..step }, ..self }));
        }
        // Join hands: in all that play here, or in those that the narrowed task is for.
        let hands = hands_within(snippet, step.span, self.wanted_hands());
        if step.hands != hands {
            return Some((Move::JoinHands, Place { step: Step { hands, bpm: target, ..step }, ..self }));
        }
        if self.narrowed_from.is_some() || !step.span.contains(snippet.goal()) {
            return self.carried_through(snippet);
        }
        // Lengthen: one onset (or beat, or bar) more, one hand first unless both had the last and may go on.
        let span = growth::longer(snippet, step.span)?;
        let at_once = together && step.hands == Hands::Both;
        let hands = if at_once { Hands::Both } else { first_hand(snippet, growth::added(step.span, span)?) };
        Some((Move::Lengthen, Place::plain(Step { span, hands, bpm: target })))
    }

    /// **Carry through**: the narrowed task grows by one onset that its hands play, until it is the step
    /// that was too hard or arrives at the goal.
    fn carried_through(self, snippet: &Snippet) -> Option<(Move, Place)> {
        let wanted = self.wanted_hands();
        let arrived = |span: Span| self.narrowed_from.is_none_or(|from| span.holds(from.span));
        let mut span = growth::longer(snippet, self.step.span)?;
        while !arrived(span) && !plays_more(snippet, span, self.step.span, wanted) {
            span = growth::longer(snippet, span)?;
        }
        let hands = hands_within(snippet, span, wanted);
        let step = Step { span, hands, bpm: snippet.tempo().bpm };
        let narrowed_from = self.narrowed_from.filter(|_| !arrived(span));
        Some((Move::CarryThrough, Place { step, narrowed_from }))
    }

    /// The move from a step that is too hard, or `None` at the slowest tempo worth trying. `known` tells
    /// what has been secure today: nothing is narrowed to what is known, so narrowing ends.
    pub fn back(self, snippet: &Snippet, known: impl Fn(Step) -> bool) -> Option<(Move, Place)> {
        let (step, target) = (self.step, snippet.tempo().bpm);
        // Ease what was asked faster than the target first.
        if step.bpm > target {
            return Some((Move::Ease, Place { step: Step { bpm: target, ..step }, ..self }));
        }
        // Narrow to one hand that has not been secure alone here.
        if step.hands == Hands::Both {
            let alone = snippet.single_hands(step.span).into_iter().map(|hand| Step { hands: hand.into(), ..step });
            if let Some(step) = alone.into_iter().find(|step| !known(*step)) {
                return Some((Move::Narrow, Place { step, ..self }));
            }
        }
        // Narrow to the onset just added and the one after it.
        if let Some(span) = growth::newest_pair(snippet, step) {
            let pair = Step { span, hands: hands_within(snippet, span, step.hands), ..step };
            if !known(pair) {
                return Some((Move::Narrow, Place { step: pair, narrowed_from: Some(step) }));
            }
        }
        // Ease: nothing is left to narrow.
        let bpm = rules::eased(step.bpm, target)?;
        Some((Move::Ease, Place { step: Step { bpm, ..step }, ..self }))
    }

    /// The same step slower, or `None` at the slowest tempo worth trying.
    pub fn eased(self, snippet: &Snippet) -> Option<Place> {
        let bpm = rules::eased(self.step.bpm, snippet.tempo().bpm)?;
        Some(Place { step: Step { bpm, ..self.step }, ..self })
    }

    /// The hands that this place leads to: those of the step that was too hard, else all.
    fn wanted_hands(self) -> Hands {
        self.narrowed_from.map_or(Hands::Both, |from| from.hands)
    }
}

/// The hard hand if it plays in `added`, else one that does.
fn first_hand(snippet: &Snippet, added: Span) -> Hands {
    snippet.single_hands(added).first().copied().unwrap_or(snippet.hard_hand()).into()
}

/// Of the hands that play in `span`, those that are wanted; all where none of them is.
fn hands_within(snippet: &Snippet, span: Span, wanted: Hands) -> Hands {
    let all = snippet.hands_in(span).unwrap_or(wanted);
    let wanted_plays = || snippet.single_hands(span).into_iter().any(|hand| wanted == hand.into());
    if wanted != Hands::Both && wanted_plays() { wanted } else { all }
}

/// Whether `hands` play at any onset of `longer` that `shorter` lacks.
fn plays_more(snippet: &Snippet, longer: Span, shorter: Span, hands: Hands) -> bool {
    let new = (longer.first()..).zip(longer.of(snippet.passage().onsets())).filter(|(at, _)| !shorter.contains(*at));
    new.flat_map(|(_, onset)| &onset.notes).any(|note| hands.include(note.hand))
}
