//! The snippet: a short passage with one goal, the unit that is practised and rested.

use crate::{
    method::step::{Hands, Span, Step},
    music::{Bpm, Hand, Onset, Passage, Tempo},
    sort,
};
use std::rc::Rc;

/// Which way the span grows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Onsets are put in front; every repetition arrives at the goal.
    #[default]
    TowardGoal,
    /// Onsets are added behind; every repetition sets out from the chosen onset.
    SettingOut,
}

/// How much is added at a time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Grain {
    /// Each onset by itself.
    #[default]
    Onset,
    /// All onsets of a beat.
    Beat,
    /// All onsets of a bar: for what was joined from finished snippets.
    Bar,
}

/// A passage with its goal. The goal is one of its onsets. A copy that differs in name, goal or tempo shares the passage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snippet {
    name: String,
    passage: Rc<Passage>,
    goal: usize,
    direction: Direction,
    grain: Grain,
    hard_hand: Hand,
    tempo: Tempo,
}

/// Why something is no snippet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SnippetError {
    /// The goal is not one of the passage's onsets.
    GoalOutside,
}

impl std::error::Error for SnippetError {}

impl Snippet {
    /// A snippet of `passage` that arrives at the onset with index `goal`, at `tempo`, in the
    /// default direction and beginning with the hand that has more onsets.
    ///
    /// # Errors
    /// [`SnippetError::GoalOutside`] where the passage has no such onset.
    pub fn new(name: String, passage: Passage, goal: usize, tempo: Tempo) -> Result<Self, SnippetError> {
        if goal >= passage.onsets().len() {
            return Err(SnippetError::GoalOutside);
        }
        let hard_hand = busier_hand(&passage);
        let (direction, grain) = (Direction::TowardGoal, Grain::Onset);
        Ok(Snippet { name, passage: Rc::new(passage), goal, direction, grain, hard_hand, tempo })
    }

    /// The same snippet with another goal.
    ///
    /// # Errors
    /// [`SnippetError::GoalOutside`] where the passage has no such onset.
    pub fn arriving_at(self, goal: usize) -> Result<Self, SnippetError> {
        if goal >= self.passage.onsets().len() {
            return Err(SnippetError::GoalOutside);
        }
        Ok(Snippet { goal, ..self })
    }

    /// The same snippet under another name.
    pub fn named(self, name: String) -> Self {
        Snippet { name, ..self }
    }

    /// The same snippet from one onset to another, by their indices; its goal is brought in between. `None` where there
    /// are no such onsets.
    pub fn between(&self, first: usize, last: usize) -> Option<Snippet> {
        let passage = self.passage.between(first..=last)?;
        let goal = self.goal.clamp(first, last) - first;
        let hard_hand_plays = passage.onsets().iter().any(|onset| onset.plays(self.hard_hand));
        let hard_hand = if hard_hand_plays { self.hard_hand } else { busier_hand(&passage) };
        Some(Snippet { passage: Rc::new(passage), goal, hard_hand, ..self.clone() })
    }

    /// The same snippet growing in another direction.
    pub fn growing(self, direction: Direction) -> Self {
        Snippet { direction, ..self }
    }

    /// The same snippet growing by more or less at a time.
    pub fn growing_by(self, grain: Grain) -> Self {
        Snippet { grain, ..self }
    }

    /// **Join snippets**: this one and the `next`, whose bars go on where these end or share some of
    /// them, as one that arrives at the next one's goal and grows by bars. `None` where they are no
    /// neighbours.
    pub fn joined(&self, next: &Snippet) -> Option<Snippet> {
        let passage = self.passage.joined(&next.passage)?;
        let shift = passage.onsets().len() - next.passage.onsets().len();
        let name = format!("{} + {}", self.name, next.name);
        let union = Snippet::new(name, passage, shift + next.goal, next.tempo).ok()?;
        Some(union.growing(next.direction).growing_by(Grain::Bar))
    }

    /// The same snippet with another hand first. A hand that has nothing to play changes nothing.
    pub fn led_by(self, hand: Hand) -> Self {
        let hard_hand = if self.passage.onsets().iter().any(|onset| onset.plays(hand)) { hand } else { self.hard_hand };
        Snippet { hard_hand, ..self }
    }

    /// The same snippet at another target tempo.
    pub fn at_tempo(self, tempo: Tempo) -> Self {
        Snippet { tempo, ..self }
    }

    /// As the player calls it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The bars and onsets it is made of.
    pub fn passage(&self) -> &Passage {
        &self.passage
    }

    /// Index of the goal among the onsets.
    pub fn goal(&self) -> usize {
        self.goal
    }

    /// Which way it grows.
    pub fn direction(&self) -> Direction {
        self.direction
    }

    /// How much is added at a time.
    pub fn grain(&self) -> Grain {
        self.grain
    }

    /// Whether the two onsets belong to one unit of what is added at a time.
    pub fn one_unit(&self, one: usize, other: usize) -> bool {
        let onsets = self.passage.onsets();
        let (one, other) = (&onsets[one], &onsets[other]);
        let bar = |onset: &Onset| self.passage.bar_at(onset.at).start;
        match self.grain {
            Grain::Onset => one.at == other.at,
            Grain::Bar => bar(one) == bar(other),
            Grain::Beat => {
                let beat = self.tempo.beat.quarters();
                let place = |onset: &Onset| (bar(onset), ((onset.at - bar(onset)) / beat).floor());
                place(one) == place(other)
            }
        }
    }

    /// The hand that carries the difficulty; it goes first.
    pub fn hard_hand(&self) -> Hand {
        self.hard_hand
    }

    /// The target tempo.
    pub fn tempo(&self) -> Tempo {
        self.tempo
    }

    /// So many beats per minute as they are shown and heard: counted in the beat in which the goal's bar is felt, to
    /// the nearest whole number.
    pub fn pulse(&self, bpm: Bpm) -> Tempo {
        let goal = self.passage.onsets()[self.goal].at;
        self.passage.bar_at(goal).meter.felt(self.tempo.at(bpm))
    }

    /// The whole snippet as a span.
    pub fn whole(&self) -> Span {
        Span::new(0, self.passage.onsets().len() - 1).unwrap_or(Span::only(0))
    }

    /// Every hand that has something to play in `span`, joined.
    pub fn hands_in(&self, span: Span) -> Option<Hands> {
        let notes = || span.of(self.passage.onsets()).iter().flat_map(|onset| &onset.notes);
        let first = notes().next()?.hand;
        let one_hand = notes().all(|note| note.hand == first);
        Some(if one_hand { first.into() } else { Hands::Both })
    }

    /// The hands that play alone somewhere in `span`, the hard one first.
    pub fn single_hands(&self, span: Span) -> Vec<Hand> {
        let onsets = span.of(self.passage.onsets());
        let mut hands = vec![Hand::Left, Hand::Right, Hand::Line];
        hands.retain(|hand| onsets.iter().any(|onset| onset.plays(*hand)));
        sort::by_key(&mut hands, |hand| *hand != self.hard_hand);
        hands
    }

    /// Whether `step` can be played: its onsets are all here and its hands have notes in them. A step
    /// from before the snippet was edited may not.
    pub fn can_play(&self, step: Step) -> bool {
        let inside = self.whole().holds(step.span);
        let single = || self.single_hands(step.span).into_iter().any(|hand| step.hands == hand.into());
        inside && (self.hands_in(step.span) == Some(step.hands) || single())
    }
}

/// The hand with more onsets; the right one where they have equally many.
fn busier_hand(passage: &Passage) -> Hand {
    let count = |hand| passage.onsets().iter().filter(|onset| onset.plays(hand)).count();
    [Hand::Left, Hand::Right, Hand::Line].into_iter().max_by_key(|hand| count(*hand)).unwrap_or(Hand::Line)
}
