//! What is to be played now, and how it is judged.

use crate::music::{Bpm, Hand, Onset};
use std::{fmt, str::FromStr};

/// The onsets played now, lead-in and goal together: `first..=last` by their index in the snippet.
/// Written as `3-7`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    first: usize,
    last: usize,
}

impl Span {
    /// `first..=last`, or `None` where they are in the wrong order.
    pub fn new(first: usize, last: usize) -> Option<Self> {
        (first <= last).then_some(Span { first, last })
    }

    /// A single onset.
    pub fn only(onset: usize) -> Self {
        Span { first: onset, last: onset }
    }

    /// Index of the first onset.
    pub fn first(self) -> usize {
        self.first
    }

    /// Index of the last onset, inclusive.
    pub fn last(self) -> usize {
        self.last
    }

    /// How many onsets, at least one.
    pub fn count(self) -> usize {
        self.last - self.first + 1
    }

    /// Whether the onset with this index is played.
    pub fn contains(self, onset: usize) -> bool {
        (self.first..=self.last).contains(&onset)
    }

    /// Whether every onset of `other` is played.
    pub fn holds(self, other: Span) -> bool {
        self.first <= other.first && other.last <= self.last
    }

    /// The onsets themselves. A span read from an old journal may reach beyond a snippet that was
    /// shortened since; what is not there is left out.
    pub fn of(self, onsets: &[Onset]) -> &[Onset] {
        let end = onsets.len().min(self.last + 1);
        &onsets[self.first.min(end)..end]
    }
}

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "{}-{}", self.first, self.last)
    }
}

/// A text that is no span.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotASpan(String);

impl fmt::Display for NotASpan {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "“{}” is not a span; write it as 3-7", self.0)
    }
}

impl std::error::Error for NotASpan {}

impl FromStr for Span {
    type Err = NotASpan;
    fn from_str(text: &str) -> Result<Self, NotASpan> {
        let bound = |text: &str| text.parse::<u16>().ok().map(usize::from);
        text.split_once('-')
            .and_then(|(first, last)| Span::new(bound(first)?, bound(last)?))
            .ok_or_else(|| NotASpan(text.into()))
    }
}

/// The hands that play a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hands {
    /// The left hand alone.
    Left,
    /// The right hand alone.
    Right,
    /// Both hands together.
    Both,
    /// The one line of a single-line instrument.
    Line,
}

impl Hands {
    /// Whether a note of `hand` is played.
    pub fn include(self, hand: Hand) -> bool {
        self == Hands::Both && hand != Hand::Line || self == Hands::from(hand)
    }

    /// Whether whoever plays these hands plays `other` too.
    pub fn hold(self, other: Hands) -> bool {
        self == other || self == Hands::Both && other != Hands::Line
    }
}

impl From<Hand> for Hands {
    fn from(hand: Hand) -> Hands {
        match hand {
            Hand::Left => Hands::Left,
            Hand::Right => Hands::Right,
            Hand::Line => Hands::Line,
        }
    }
}

/// Exactly what is to be played now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Step {
    /// The onsets that are played.
    pub span: Span,
    /// The hands that play them.
    pub hands: Hands,
    /// In the snippet's own beat unit.
    pub bpm: Bpm,
}

impl Step {
    /// Whether this asks less than `other`: fewer onsets; as many, but one hand instead of both; or
    /// the same at a slower tempo.
    pub fn is_smaller_than(self, other: Step) -> bool {
        let size = |step: Step| (step.span.count(), step.hands == Hands::Both, step.bpm);
        size(self) < size(other)
    }

    /// Whether whoever plays this step plays `other` too: every onset and hand of it, no slower.
    pub fn holds(self, other: Step) -> bool {
        self.span.holds(other.span) && self.hands.hold(other.hands) && self.bpm >= other.bpm
    }
}

/// The player's judgement of one repetition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// It went as it should.
    Clean,
    /// Something was not yet right.
    NotYet,
}

/// What was not yet right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cause {
    /// Louder than meant.
    TooLoud,
    /// Softer than meant.
    TooSoft,
    /// Before the pulse.
    Early,
    /// Behind the pulse.
    Late,
    /// Notes that should be alike were not.
    Uneven,
    /// A key that is not written.
    WrongNote,
    /// With more effort than it needs.
    Tense,
}

impl Cause {
    /// All causes, in the order they are offered.
    pub const ALL: [Cause; 7] =
        [Cause::TooLoud, Cause::TooSoft, Cause::Early, Cause::Late, Cause::Uneven, Cause::WrongNote, Cause::Tense];
}

/// What led from one step to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Move {
    /// The first step of all.
    Begin,
    /// The same step again.
    Again,
    /// A new day begins with one repetition of the longest span that has been secure.
    ColdTry,
    /// All hands that play here, after one alone.
    JoinHands,
    /// An onset, beat or bar more.
    Lengthen,
    /// A smaller task prepares the step that was too hard.
    Narrow,
    /// The smaller task grows toward the step it prepares.
    CarryThrough,
    /// The same at a slower tempo.
    Ease,
    /// Back up the metronome scale after easing.
    Climb,
    /// The player overruled the coach.
    Overruled,
    /// The block is over.
    Leave,
    /// From the first step again, as if nothing had been played.
    StartAfresh,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_hands_include_either_and_no_line() {
        assert!(Hands::Both.include(Hand::Left) && Hands::Both.include(Hand::Right));
        assert!(!Hands::Both.include(Hand::Line) && !Hands::Left.include(Hand::Right));
        assert!(Hands::Line.include(Hand::Line));
    }

    #[test]
    fn spans_are_written_plainly_and_never_run_backward() {
        let span = Span::new(3, 7).expect("in order");
        assert_eq!(span.to_string().parse(), Ok(span));
        assert!("7-3".parse::<Span>().is_err());
    }
}
