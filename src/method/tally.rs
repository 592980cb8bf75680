//! How far the work on a snippet has come: what was played, never what was asked for.

use crate::method::{Cause, Hands, Happening, HappeningKind, Snippet, Step, Verdict};

/// What was played of a snippet, over all its days.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// All repetitions that were judged.
    pub repetitions: u32,
    /// Those that were clean.
    pub clean: u32,
    /// The longest step that was played clean since the snippet was last started afresh; of equally long ones that in
    /// both hands, then the fastest.
    pub furthest_clean: Option<Step>,
    /// The cause that was named more often than any other.
    pub most_named: Option<Cause>,
}

impl Tally {
    /// Counts a `history` of `snippet`. Steps that cannot be played since the snippet was edited count as
    /// repetitions, not as what was reached.
    pub fn of(snippet: &Snippet, history: &[Happening]) -> Self {
        let mut tally = Tally::default();
        for happening in history {
            match happening.kind {
                HappeningKind::Played { step, verdict, .. } => tally.count(snippet, step, verdict),
                HappeningKind::StartedAfresh => tally.furthest_clean = None,
                _ => {}
            }
        }
        Tally { most_named: most_named(history), ..tally }
    }

    fn count(&mut self, snippet: &Snippet, step: Step, verdict: Verdict) {
        self.repetitions += 1;
        if verdict == Verdict::Clean {
            self.clean += 1;
            let size = |step: &Step| (step.span.count(), step.hands == Hands::Both, step.bpm);
            let played = Some(step).filter(|step| snippet.can_play(*step));
            self.furthest_clean = self.furthest_clean.into_iter().chain(played).max_by_key(size);
        }
    }
}

/// `None` where no cause was named, or two equally often.
fn most_named(history: &[Happening]) -> Option<Cause> {
    let named = |wanted: Cause| {
        let is_named =
            |one: &&Happening| matches!(one.kind, HappeningKind::Played { cause: Some(cause), .. } if cause == wanted);
        history.iter().filter(is_named).count()
    };
    let most = Cause::ALL.into_iter().map(named).max().filter(|times| *times > 0)?;
    let mut first = Cause::ALL.into_iter().filter(|cause| named(*cause) == most);
    first.next().filter(|_| first.next().is_none())
}
