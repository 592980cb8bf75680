//! How a block begins: with a cold try, where the last one stopped, or with something easier.

use crate::{
    clock::Moment,
    method::{
        Leaving, Move, Reason, Settings, Span, Step,
        coach::{Coach, ColdTry, block_so_far::BlockSoFar},
        moves::{Candidate, Task},
    },
};

impl Coach {
    /// A new day begins with a cold try of the longest span that went well, a new block of the same day where
    /// the last one stopped; both with something easier where the last block was left failing.
    pub(super) fn begin_block(&mut self, at: Moment, settings: Settings) {
        // A cold try that was not played has not moved the work from where it stopped.
        if let Some(task) = self.cold.take().and_then(|cold| cold.resume) {
            self.task = task;
        }
        let failed = match self.block.left {
            Some(Leaving::GoodEnough) => false,
            left => left.is_some_and(Leaving::is_of_failure) || self.rules.failing(&self.tries),
        };
        match self.record.nights_until(at.day()) {
            None => {}
            Some(0) => {
                self.belief.rest();
                self.begin_again(0, failed);
            }
            Some(nights) => {
                self.belief.sleep();
                self.record.sleep();
                match self.record.longest() {
                    Some(longest) => self.try_cold(nights, longest, failed),
                    None => self.begin_again(nights, failed),
                }
            }
        }
        self.block = BlockSoFar { began: Some(at), settings, ..BlockSoFar::before_any(&self.belief) };
    }

    fn begin_again(&mut self, nights: u32, failed: bool) {
        if !failed {
            return self.go(Move::Again, self.task, Reason::GoesOn { nights });
        }
        let too_hard = self.task.narrowed_from.unwrap_or(self.task.step).span;
        let part = |longest: Span| too_hard != longest && too_hard.holds(longest);
        if let Some(mended) = self.block.mended {
            let led_by = if mended.step.span == self.task.step.span { Move::Ease } else { Move::Narrow };
            self.go(led_by, mended, Reason::LeftFailing);
        } else if let Some(longest) = self.record.longest().filter(|longest| part(longest.span)) {
            self.go(Move::Narrow, Task::plain(longest), Reason::LeftFailing);
        } else if let Some((led_by, task)) = self.task.eased(&self.snippet) {
            self.go(led_by, task, Reason::LeftFailing);
        } else {
            let (led_by, task) = self.something_else();
            self.go(led_by, task, Reason::SomethingElse);
        }
    }

    /// Stuck at the slowest tempo: fewer onsets or one hand at the target tempo, where there are such; else the same at the
    /// target tempo, which is another motion.
    fn something_else(&self) -> Candidate {
        let at_target = Task { step: Step { bpm: self.snippet.tempo().bpm, ..self.task.step }, ..self.task };
        let smaller = at_target.narrower(&self.snippet, |_| false);
        self.chosen_of(smaller).unwrap_or((Move::Climb, at_target))
    }

    fn try_cold(&mut self, nights: u32, longest: Step, failed: bool) {
        let stopped_at = self.task.step.span;
        let further = stopped_at != longest.span && stopped_at.holds(longest.span);
        let resume = (further && !failed).then_some(self.task);
        self.cold = Some(ColdTry { nights, resume });
        self.go(Move::ColdTry, Task::plain(longest), Reason::ColdTry { nights });
    }
}
