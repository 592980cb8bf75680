//! How a span grows and shrinks around its goal.
//!
//! Everything is said for a span that grows toward the front. A snippet that sets out from its goal
//! is the same thing in a mirror: its onsets are counted from the other end.
//!
//! Refuses to know why a span should grow or shrink.

use super::{Direction, Snippet, Span, Step};

/// The next longer span, or `None` for the whole snippet. A span that does not arrive at the goal yet
/// is carried toward it; otherwise one onset is put in front, and once the snippet's edge is
/// reached, one behind.
pub fn longer(snippet: &Snippet, span: Span) -> Option<Span> {
    let (goal, end) = (mirrored_onset(snippet, snippet.goal()), snippet.whole().last());
    let (first, last) = bounds(mirrored(snippet, span));
    let grown = match () {
        () if last < goal => Span::new(first, last + 1),
        () if first > 0 => Span::new(first - 1, last),
        () if last < end => Span::new(first, last + 1),
        () => None,
    };
    grown.map(|span| mirrored(snippet, span))
}

/// The next shorter span, or `None` for a single onset: what was put there last is left out first.
pub fn shorter(snippet: &Snippet, span: Span) -> Option<Span> {
    let (first, last) = bounds(mirrored(snippet, span));
    let shrunk = if last == first {
        None
    } else if grew_behind(snippet, span) || last < mirrored_onset(snippet, snippet.goal()) {
        Span::new(first, last - 1)
    } else {
        Span::new(first + 1, last)
    };
    shrunk.map(|span| mirrored(snippet, span))
}

/// The onset just added to the step and the one after it, as its hands play them; `None` where the
/// step has no more than these two.
pub fn newest_pair(snippet: &Snippet, step: Step) -> Option<Span> {
    let onsets = snippet.passage().onsets();
    let played = |onset: &usize| onsets[*onset].notes.iter().any(|note| step.hands.include(note.hand));
    let mut own: Vec<usize> = (step.span.first()..=step.span.last()).filter(played).collect();
    let added_first = grew_behind(snippet, step.span) == (snippet.direction() == Direction::SettingOut);
    if !added_first {
        own.reverse();
    }
    match own[..] {
        [newest, after, _, ..] => Span::new(newest.min(after), newest.max(after)),
        _ => None,
    }
}

/// The onset that a repetition of `span` is about: the goal, or the end where a narrowed span does not
/// hold it.
pub fn aim(snippet: &Snippet, span: Span) -> usize {
    match snippet.direction() {
        _ if span.contains(snippet.goal()) => snippet.goal(),
        Direction::TowardGoal => span.last(),
        Direction::SettingOut => span.first(),
    }
}

/// Whether, in the mirror, the newest onset lies beyond the goal because nothing is left to put in
/// front.
fn grew_behind(snippet: &Snippet, span: Span) -> bool {
    let (first, last) = bounds(mirrored(snippet, span));
    first == 0 && last > mirrored_onset(snippet, snippet.goal())
}

fn bounds(span: Span) -> (usize, usize) {
    (span.first(), span.last())
}

/// The onset as seen from where the snippet grows toward; seen twice, it is itself again.
fn mirrored_onset(snippet: &Snippet, onset: usize) -> usize {
    match snippet.direction() {
        Direction::TowardGoal => onset,
        Direction::SettingOut => snippet.whole().last() - onset,
    }
}

fn mirrored(snippet: &Snippet, span: Span) -> Span {
    let (one, other) = (mirrored_onset(snippet, span.first()), mirrored_onset(snippet, span.last()));
    Span::new(one.min(other), one.max(other)).unwrap_or(span)
}
