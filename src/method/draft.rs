//! A snippet that is being edited: its first and last onset, and its goal.

use crate::method::{Snippet, Span};
use std::rc::Rc;

/// All that was cut, and the span of it that the snippet will be. The goal is always in the span.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    whole: Rc<Snippet>,
    span: Span,
}

/// What a tap on an onset sets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Landmark {
    /// The snippet's first onset.
    Begin,
    /// Where it arrives.
    #[default]
    Goal,
    /// The snippet's last onset.
    End,
}

impl Draft {
    /// All of a snippet.
    pub fn of(whole: Snippet) -> Draft {
        Draft { span: whole.whole(), whole: Rc::new(whole) }
    }

    /// All that was cut.
    pub fn whole(&self) -> &Rc<Snippet> {
        &self.whole
    }

    /// The onsets that the snippet will have.
    pub fn span(&self) -> Span {
        self.span
    }

    /// The same with its begin, goal or end at another onset; the other two move where they must.
    pub fn with(&self, marks: Landmark, onset: usize) -> Draft {
        let onset = onset.min(self.whole.whole().last());
        let (first, goal, last) = match marks {
            Landmark::Begin => (onset, self.whole.goal().max(onset), self.span.last().max(onset)),
            Landmark::Goal => (self.span.first().min(onset), onset, self.span.last().max(onset)),
            Landmark::End => (self.span.first().min(onset), self.whole.goal().min(onset), onset),
        };
        let aimed = (*self.whole).clone().arriving_at(goal);
        let whole = aimed.map_or_else(|_| Rc::clone(&self.whole), Rc::new);
        Draft { whole, span: Span::new(first, last).unwrap_or(self.span) }
    }

    /// The same with another name, tempo or way to grow.
    pub fn reshaped(&self, whole: Snippet) -> Draft {
        Draft { whole: Rc::new(whole), span: self.span }.with(Landmark::Goal, self.whole.goal())
    }

    /// The snippet: the span alone.
    pub fn finished(&self) -> Snippet {
        self.whole.between(self.span.first(), self.span.last()).unwrap_or_else(|| (*self.whole).clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::music::{BeatUnit, Bpm};
    use crate::music::{Hand, Meter, Quarters, Tempo, counted};

    /// Nine onsets in 4/4, one on each beat; the last is the goal.
    fn nine() -> Draft {
        let passage = counted(9, &[Hand::Right], Meter::COMMON).expect("a passage");
        let tempo = Tempo { beat: BeatUnit::QUARTER, bpm: Bpm::nearest(72.0) };
        Draft::of(Snippet::new("nine".into(), passage, 8, tempo).expect("a snippet"))
    }

    fn shape(draft: &Draft) -> (usize, usize, usize) {
        (draft.span().first(), draft.whole().goal(), draft.span().last())
    }

    #[test]
    fn begin_goal_and_end_stay_in_order() {
        let draft = nine().with(Landmark::Begin, 2).with(Landmark::End, 6);
        assert_eq!(shape(&draft), (2, 6, 6));
        assert_eq!(shape(&draft.with(Landmark::Goal, 4)), (2, 4, 6));
        assert_eq!(shape(&draft.with(Landmark::Goal, 0)), (0, 0, 6));
        assert_eq!(shape(&draft.with(Landmark::Begin, 7)), (7, 7, 7));
        assert_eq!(shape(&draft.with(Landmark::End, 1)), (1, 1, 1));
        assert_eq!(shape(&draft.with(Landmark::End, 99)), (2, 6, 8));
    }

    #[test]
    fn the_snippet_keeps_its_places_in_its_bars() {
        let whole = nine();
        let bar_of = |draft: &Draft, onset: usize| {
            let snippet = draft.finished();
            let at = snippet.passage().onsets()[onset].at;
            let bar = snippet.passage().bar_at(at);
            (bar.number.clone(), at - bar.start)
        };
        let draft = whole.with(Landmark::Begin, 3).with(Landmark::End, 5);
        assert_eq!(draft.finished().passage().onsets().len(), 3);
        for onset in 0..3 {
            assert_eq!(bar_of(&draft, onset), bar_of(&whole, onset + 3));
        }
        assert_eq!(draft.finished().passage().bars()[0].start, Quarters::ZERO);
    }
}
