//! The moves: from a step that goes well onward, from one that is too hard back.

use crate::method::{Grain, Hands, Move, Snippet, Span, Step, growth, rules};

/// What the player is at: the step, and the step it prepares if that was too hard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Task {
    pub step: Step,
    pub narrowed_from: Option<Step>,
}

/// A move and the task it leads to.
pub type Candidate = (Move, Task);

impl Task {
    /// **Begin** with the goal alone, in the hand that carries the difficulty, at the target tempo; what was joined from finished
    /// snippets with the goal's whole bar in all its hands, for its onsets are known.
    pub fn first(snippet: &Snippet) -> Self {
        let (goal, bar) = (Span::only(snippet.goal()), growth::goal_unit(snippet));
        let (span, hands) = match snippet.grain() {
            Grain::Bar => (bar, hands_within(snippet, bar, Hands::Both)),
            Grain::Onset | Grain::Beat => (goal, first_hand(snippet, goal)),
        };
        Task::plain(Step { span, hands, bpm: snippet.tempo().bpm })
    }

    /// A step that prepares no other.
    pub fn plain(step: Step) -> Self {
        Task { step, narrowed_from: None }
    }

    /// What a player who chose `step` is at: a choice inside the narrowed task stays in it.
    pub fn chosen(self, step: Step) -> Self {
        let inside = |from: &Step| from.span != step.span && from.span.holds(step.span) && from.hands.hold(step.hands);
        Task { step, narrowed_from: self.narrowed_from.filter(inside) }
    }

    /// The moves from a step that goes well, the smallest first; none from the whole snippet. `stride` is the most
    /// onsets that may be added at once, `together` tells whether both hands may have them at once.
    pub fn onward(self, snippet: &Snippet, stride: usize, together: bool) -> Vec<Candidate> {
        let (step, target) = (self.step, snippet.tempo().bpm);
        // Climb: nothing is joined or lengthened below the target tempo.
        if step.bpm < target {
            let bpm = rules::climbed(step.bpm, target);
            return vec![(Move::Climb, Task { step: Step { bpm, ..step }, ..self })];
        }
        // Join hands: in all that play here, or in those that the narrowed task is for.
        let hands = hands_within(snippet, step.span, self.wanted_hands());
        if step.hands != hands {
            return vec![(Move::JoinHands, Task { step: Step { hands, bpm: target, ..step }, ..self })];
        }
        if self.narrowed_from.is_some() || !step.span.contains(snippet.goal()) {
            return self.carried_through(snippet).into_iter().collect();
        }
        // Lengthen: an onset (or beat, or bar) more or several, in one hand first or, where both had the last and may go on,
        // at once.
        let mut longer = Vec::new();
        for span in self.longer(snippet, stride) {
            let Some(added) = growth::added(step.span, span) else { continue };
            let at_once = together && step.hands == Hands::Both;
            let hands = if at_once { Hands::Both } else { first_hand(snippet, added) };
            longer.push(Step { span, hands, bpm: target });
        }
        longer.into_iter().map(|step| (Move::Lengthen, Task::plain(step))).collect()
    }

    /// The spans with one unit more, two, four and so on, at most `stride`; all on one side, onsets only.
    fn longer(self, snippet: &Snippet, stride: usize) -> Vec<Span> {
        let stride = if snippet.grain() == Grain::Onset { stride } else { 1 };
        let mut spans = Vec::new();
        let mut span = Some(self.step.span);
        for units in 1..=stride {
            span = span.and_then(|span| growth::longer(snippet, span));
            let one_sided = span.filter(|span| growth::added(self.step.span, *span).is_some());
            spans.extend(one_sided.filter(|_| units.is_power_of_two()));
        }
        spans
    }

    /// **Carry through**: the narrowed task grows by one onset that its hands play, until it is the step
    /// that was too hard or arrives at the goal.
    fn carried_through(self, snippet: &Snippet) -> Option<Candidate> {
        let wanted = self.wanted_hands();
        let arrived = |span: Span| self.narrowed_from.is_none_or(|from| span.holds(from.span));
        let mut span = growth::longer(snippet, self.step.span)?;
        while !arrived(span) && !plays_more(snippet, span, self.step.span, wanted) {
            span = growth::longer(snippet, span)?;
        }
        let hands = hands_within(snippet, span, wanted);
        let step = Step { span, hands, bpm: snippet.tempo().bpm };
        let narrowed_from = self.narrowed_from.filter(|_| !arrived(span));
        Some((Move::CarryThrough, Task { step, narrowed_from }))
    }

    /// The smaller tasks that a step which is too hard is narrowed to: one hand alone, or some of its onsets. `known` tells what
    /// has gone well today: nothing is narrowed to what is known, so narrowing ends.
    pub fn narrower(self, snippet: &Snippet, known: impl Fn(Step) -> bool) -> Vec<Candidate> {
        let step = self.step;
        let mut narrower = Vec::new();
        if step.hands == Hands::Both {
            let alone = snippet.single_hands(step.span).into_iter().map(|hand| Step { hands: hand.into(), ..step });
            narrower.extend(alone.filter(|step| !known(*step)).map(|step| Task { step, ..self }));
        }
        let parts = growth::parts(snippet, step);
        let parts = parts.into_iter().map(|span| Step { span, hands: hands_within(snippet, span, step.hands), ..step });
        let unknown = parts.filter(|part| !known(*part));
        narrower.extend(unknown.map(|part| Task { step: part, narrowed_from: Some(step) }));
        narrower.into_iter().map(|task| (Move::Narrow, task)).collect()
    }

    /// **Ease**: the same step slower, what was asked faster than the target at the target; `None` at the slowest tempo worth
    /// trying.
    pub fn eased(self, snippet: &Snippet) -> Option<Candidate> {
        let target = snippet.tempo().bpm;
        let bpm = if self.step.bpm > target { target } else { rules::eased(self.step.bpm, target)? };
        Some((Move::Ease, Task { step: Step { bpm, ..self.step }, ..self }))
    }

    /// The hands that this task leads to: those of the step that was too hard, else all.
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
