//! The terms of the method, and which of them is explained beside an advice: each where the player first meets it.
//!
//! What has been explained follows from what was played, so that it survives a reload and is part of the journal.

use crate::method::{Advice, Hands, Happening, HappeningKind, Reason, Rules, Snippet, Step};

/// A word that a musician does not bring along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Term {
    /// What all repetitions are about, and the sign that marks it over the staff.
    Goal,
    /// The notes of the hand that does not play.
    RestingHand,
    /// What is added at a time.
    Onset,
    /// The first repetition after a night.
    ColdTry,
}

impl Term {
    /// All of them, in the order in which they are explained.
    pub const ALL: [Term; 4] = [Term::Goal, Term::RestingHand, Term::Onset, Term::ColdTry];

    /// The one word to explain beside `advice` about `snippet`, where `histories` are those of all snippets: a
    /// word that is met now and has not had its repetition yet. The first word gets the first repetition that
    /// meets it, the second the second, and so on, so that they come one at a time.
    pub fn to_explain<'a>(
        advice: &Advice,
        snippet: &Snippet,
        histories: impl Iterator<Item = (&'a Snippet, &'a [Happening])> + Clone,
    ) -> Option<Term> {
        let had = |term: Term, turns: usize| {
            let repetitions = histories.clone().flat_map(|(snippet, history)| meetings(term, snippet, history));
            repetitions.take(turns).count() == turns
        };
        if matches!(advice.reason, Reason::ColdTry { .. }) {
            return Some(Term::ColdTry).filter(|term| !had(*term, 1));
        }
        let met = Term::ALL.into_iter().filter(|term| is_met(*term, snippet, advice.step));
        met.zip(1..).find(|(term, turns)| !had(*term, *turns)).map(|(term, _)| term)
    }
}

/// Whether the word is met in playing `step`; a step alone does not tell a cold try.
fn is_met(term: Term, snippet: &Snippet, step: Step) -> bool {
    match term {
        Term::Goal => true,
        Term::RestingHand => step.hands != Hands::Both && snippet.hands_in(step.span) == Some(Hands::Both),
        Term::Onset => step.span.count() > 1,
        Term::ColdTry => false,
    }
}

/// The repetitions of a history that meet the word, one item each.
fn meetings<'a>(term: Term, snippet: &'a Snippet, history: &'a [Happening]) -> impl Iterator<Item = ()> + 'a {
    let meets = move |index: usize| match (term, &history[index].kind) {
        (Term::ColdTry, HappeningKind::Played { .. }) => is_first_after_a_night(history, index),
        (_, HappeningKind::Played { step, .. }) => is_met(term, snippet, *step),
        _ => false,
    };
    (0..history.len()).filter(move |index| meets(*index)).map(|_| ())
}

/// Whether a block began with this repetition, the snippet was played on an earlier day, and this very step often enough
/// then that it may have been secure.
fn is_first_after_a_night(history: &[Happening], index: usize) -> bool {
    let HappeningKind::Played { step: tried, .. } = history[index].kind else { return false };
    let begins = index > 0 && matches!(history[index - 1].kind, HappeningKind::BlockBegan(_));
    let before = &history[..index];
    let last = before.iter().rev().find(|one| matches!(one.kind, HappeningKind::Played { .. }));
    let tries = |one: &&Happening| matches!(one.kind, HappeningKind::Played { step, .. } if step == tried);
    begins
        && last.is_some_and(|last| last.at.day() < history[index].at.day())
        && before.iter().filter(tries).count() >= Rules::CHOSEN.lenient.fewest_clean as usize
}
