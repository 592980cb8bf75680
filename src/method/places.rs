//! Where a step can break: a hand on an onset, a hand's way from one onset to the next, and the hands' meeting.

use crate::{
    method::{Direction, Hands, Snippet, Span, Step},
    music::Hand,
};

/// What can break there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlaceKind {
    /// The hand finds its notes.
    Onset,
    /// The hand gets there from its onset before.
    Way,
    /// Both hands play together.
    Meeting,
}

/// One place of a snippet. It is played by every step that holds its onsets and hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// What can break there.
    pub kind: PlaceKind,
    /// The onset, or both ends of the way.
    pub span: Span,
    /// The hand, or both for a meeting.
    pub hands: Hands,
}

impl Place {
    /// Whether whoever plays `step` plays this place.
    pub fn is_in(&self, step: Step) -> bool {
        step.span.holds(self.span) && step.hands.hold(self.hands)
    }

    /// The onset at which a miss of it is heard.
    pub fn heard_at(&self) -> usize {
        self.span.last()
    }
}

/// All places of `snippet`, onset by onset, in the order in which the snippet's mirror has them: a snippet and its
/// mirror list the same places one by one, so that sums over them agree to the last bit.
pub fn of(snippet: &Snippet) -> Vec<Place> {
    let onsets = snippet.passage().onsets();
    let mut order: Vec<usize> = (0..onsets.len()).collect();
    if snippet.direction() == Direction::SettingOut {
        order.reverse();
    }
    let mut places = Vec::new();
    for (nth, onset) in order.iter().copied().enumerate() {
        let hands = [Hand::Left, Hand::Right, Hand::Line].into_iter().filter(|hand| onsets[onset].plays(*hand));
        for hand in hands.clone() {
            let before = order[..nth].iter().rev().find(|before| onsets[**before].plays(hand));
            let way = before.and_then(|before| Span::new(onset.min(*before), onset.max(*before)));
            places.extend(way.map(|span| Place { kind: PlaceKind::Way, span, hands: hand.into() }));
            places.push(Place { kind: PlaceKind::Onset, span: Span::only(onset), hands: hand.into() });
        }
        if hands.count() > 1 {
            places.push(Place { kind: PlaceKind::Meeting, span: Span::only(onset), hands: Hands::Both });
        }
    }
    places
}
