//! How a span grows and shrinks around its goal.
//!
//! Everything is written for a span that grows toward the front. A snippet that sets out from its goal is mirrored: its
//! onsets are counted from the other end.

use crate::method::{Direction, Snippet, Span, Step};

/// The next longer span, or `None` for the whole snippet. A span that does not arrive at the goal yet
/// is carried toward it; otherwise one unit (an onset, a beat or a bar, as the snippet grows) is put in
/// front, and once the snippet's edge is reached, one behind.
pub fn longer(snippet: &Snippet, span: Span) -> Option<Span> {
    let (goal, end) = (mirrored_onset(snippet, snippet.goal()), snippet.whole().last());
    let (first, last) = bounds(mirrored(snippet, span));
    let grown = match () {
        () if last < goal => Span::new(first, unit_end(snippet, last + 1, goal)),
        () if first > 0 => Span::new(unit_start(snippet, first - 1, 0), last),
        () if last < end => Span::new(first, unit_end(snippet, last + 1, end)),
        () => None,
    };
    grown.map(|span| mirrored(snippet, span))
}

/// The goal and the onsets of its unit that lead to it.
pub fn goal_unit(snippet: &Snippet) -> Span {
    let goal = mirrored_onset(snippet, snippet.goal());
    let unit = Span::new(unit_start(snippet, goal, 0), goal);
    unit.map_or(Span::only(snippet.goal()), |span| mirrored(snippet, span))
}

/// In the mirror, the first onset of the unit that `onset` is in, not before `least`.
fn unit_start(snippet: &Snippet, onset: usize, least: usize) -> usize {
    let together = |other: &usize| one_unit(snippet, *other, onset);
    (least..=onset).rev().take_while(together).last().unwrap_or(onset)
}

/// In the mirror, the last onset of the unit that `onset` is in, not after `most`.
fn unit_end(snippet: &Snippet, onset: usize, most: usize) -> usize {
    let together = |other: &usize| one_unit(snippet, *other, onset);
    (onset..=most).take_while(together).last().unwrap_or(onset)
}

/// Whether two onsets, in the mirror, are added together.
fn one_unit(snippet: &Snippet, one: usize, other: usize) -> bool {
    snippet.one_unit(mirrored_onset(snippet, one), mirrored_onset(snippet, other))
}

/// The onsets that `longer` has and `span` has not, where all of them are on one side of it.
pub fn added(span: Span, longer: Span) -> Option<Span> {
    let front = (longer.first() < span.first()).then(|| Span::new(longer.first(), span.first() - 1));
    let behind = (span.last() < longer.last()).then(|| Span::new(span.last() + 1, longer.last()));
    match (front, behind) {
        (Some(added), None) | (None, Some(added)) => added,
        _ => None,
    }
}

/// The next shorter span, or `None` for a single onset: what was put there last is left out first.
pub fn shorter(snippet: &Snippet, span: Span) -> Option<Span> {
    let (first, last) = bounds(mirrored(snippet, span));
    let goal = mirrored_onset(snippet, snippet.goal());
    let shrunk = if last == first {
        None
    } else if grew_behind(snippet, span) || last < goal {
        let least = if first <= goal && goal < last { goal } else { first };
        Span::new(first, unit_start(snippet, last, least + 1) - 1)
    } else {
        Span::new(unit_end(snippet, first, last - 1) + 1, last)
    };
    shrunk.map(|span| mirrored(snippet, span))
}

/// The smaller spans of a step that begin and end with an onset its hands play: those about what was added last come
/// first, the shorter ones before the longer ones.
pub fn parts(snippet: &Snippet, step: Step) -> Vec<Span> {
    let onsets = snippet.passage().onsets();
    let played = |onset: &usize| onsets[*onset].notes.iter().any(|note| step.hands.include(note.hand));
    let mut own: Vec<usize> = (step.span.first()..=step.span.last()).filter(played).collect();
    let added_first = grew_behind(snippet, step.span) == (snippet.direction() == Direction::SettingOut);
    if !added_first {
        own.reverse();
    }
    let mut parts = Vec::new();
    for count in 1..own.len() {
        let ends = |from: &[usize]| Span::new(from[0].min(from[count - 1]), from[0].max(from[count - 1]));
        parts.extend(own.windows(count).filter_map(ends));
    }
    parts
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
