//! How a step differs from the one before: everything that may be said about the change.

use crate::method::{Grain, Hands, Snippet, Span, Step, growth};
use std::cmp::Ordering;

/// How a step differs from the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The onsets.
    pub span: SpanChange,
    /// The hands.
    pub hands: HandsChange,
    /// The new tempo compared with the one before.
    pub tempo: Ordering,
}

/// How the onsets that are played differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpanChange {
    /// The same onsets.
    Same,
    /// More onsets, all on one side.
    Longer(Added),
    /// Some of the onsets that were played before, and no others; so many.
    Part {
        /// How many, at least one.
        onsets: usize,
    },
    /// Onsets came and went.
    Other,
}

/// The onsets that were added to a span.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Added {
    /// Where they stand.
    pub side: Side,
    /// How many, at least one.
    pub onsets: usize,
    /// What they are together, where they are one whole beat or bar and nothing else.
    pub unit: Grain,
    /// What they have to do with the goal.
    pub goal: GoalChange,
}

/// Where the added onsets stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Before the first onset that was played.
    InFront,
    /// After the last onset that was played.
    Behind,
}

/// What the longer span has to do with the goal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GoalChange {
    /// The goal was played before and is played now.
    Played,
    /// The goal is among what was added.
    Reached,
    /// The goal is not played yet.
    Ahead,
}

/// How the hands that play differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandsChange {
    /// The same hands.
    Same,
    /// Both hands after one.
    Joined,
    /// One hand after both.
    Alone,
    /// The other one.
    Other,
}

impl Difference {
    /// The same step again.
    pub const NONE: Difference =
        Difference { span: SpanChange::Same, hands: HandsChange::Same, tempo: Ordering::Equal };

    /// How `to` differs from `from`, both steps of `snippet`.
    pub fn between(snippet: &Snippet, from: Step, to: Step) -> Self {
        Difference {
            span: SpanChange::between(snippet, from.span, to.span),
            hands: HandsChange::between(from.hands, to.hands),
            tempo: to.bpm.cmp(&from.bpm),
        }
    }
}

impl SpanChange {
    fn between(snippet: &Snippet, from: Span, to: Span) -> Self {
        match () {
            () if from == to => SpanChange::Same,
            () if from.holds(to) => SpanChange::Part { onsets: to.count() },
            () if to.holds(from) => growth::added(from, to)
                .map_or(SpanChange::Other, |added| SpanChange::Longer(Added::between(snippet, from, to, added))),
            () => SpanChange::Other,
        }
    }
}

impl Added {
    fn between(snippet: &Snippet, from: Span, to: Span, added: Span) -> Self {
        let side = if to.first() < from.first() { Side::InFront } else { Side::Behind };
        let goal = match (from.contains(snippet.goal()), to.contains(snippet.goal())) {
            (true, _) => GoalChange::Played,
            (false, true) => GoalChange::Reached,
            (false, false) => GoalChange::Ahead,
        };
        let one_unit = snippet.one_unit(added.first(), added.last()) && !shares_a_unit(snippet, added);
        let unit = if one_unit { snippet.grain() } else { Grain::Onset };
        Added { side, onsets: added.count(), unit, goal }
    }
}

/// Whether an onset beside `span` belongs to a unit that is in it: then `span` is no whole unit.
fn shares_a_unit(snippet: &Snippet, span: Span) -> bool {
    let before = span.first().checked_sub(1);
    let after = Some(span.last() + 1).filter(|after| snippet.whole().contains(*after));
    before.is_some_and(|before| snippet.one_unit(before, span.first()))
        || after.is_some_and(|after| snippet.one_unit(span.last(), after))
}

impl HandsChange {
    fn between(from: Hands, to: Hands) -> Self {
        match (from, to) {
            _ if from == to => HandsChange::Same,
            (_, Hands::Both) => HandsChange::Joined,
            (Hands::Both, _) => HandsChange::Alone,
            _ => HandsChange::Other,
        }
    }
}
