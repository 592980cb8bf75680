//! What the coach remembers from block to block and from day to day.

use crate::{
    clock::Day,
    method::{Snippet, Step, Verdict, rules::stale},
};

/// The memory since the snippet was last started afresh.
#[derive(Clone, Debug, Default)]
pub struct Record {
    well_today: Vec<Step>,
    longest: Option<Step>,
    last_played: Option<Day>,
    whole_was_secure: bool,
    whole_held: bool,
    missed_cold_tries: u32,
}

impl Record {
    /// The step went well. Of the steps of a day only those are kept that no other holds.
    pub fn went_well(&mut self, snippet: &Snippet, step: Step) {
        if !self.went_well_today(step) {
            self.well_today.retain(|other| !step.holds(*other));
            self.well_today.push(step);
        }
        let arrives = step.span.contains(snippet.goal()) && step.bpm >= snippet.tempo().bpm;
        let all_hands = snippet.hands_in(step.span) == Some(step.hands);
        let longest = self.longest.is_none_or(|longest| longest.span.count() <= step.span.count());
        if arrives && all_hands && longest {
            self.longest = Some(Step { bpm: snippet.tempo().bpm, ..step });
        }
    }

    /// The whole snippet was found secure.
    pub fn secured(&mut self) {
        self.whole_was_secure = true;
    }

    /// Whether the whole snippet has been secure.
    pub fn was_secure(&self) -> bool {
        self.whole_was_secure
    }

    /// Whether the step, or one that holds it, went well today.
    pub fn went_well_today(&self, step: Step) -> bool {
        self.well_today.iter().any(|well| well.holds(step))
    }

    /// The longest span that has ever gone well in all its hands at the target tempo.
    pub fn longest(&self) -> Option<Step> {
        self.longest
    }

    /// Something was played on `day`. A clock that was set back is believed from then on: otherwise one
    /// repetition dated a year ahead would leave a year without nights.
    pub fn played(&mut self, day: Day) {
        self.last_played = Some(day);
    }

    /// Nights since the last repetition, none where the clock was set back; `None` where there was no
    /// repetition.
    pub fn nights_until(&self, day: Day) -> Option<u32> {
        self.last_played.map(|last| u32::try_from(day - last).unwrap_or(0))
    }

    /// What went well yesterday must show itself again.
    pub fn sleep(&mut self) {
        self.well_today.clear();
    }

    /// A cold try of `tried` was played.
    pub fn cold_try(&mut self, snippet: &Snippet, tried: Step, verdict: Verdict) {
        self.whole_held |= self.whole_was_secure && verdict == Verdict::Clean && tried.span == snippet.whole();
        self.missed_cold_tries = match verdict {
            Verdict::Clean => 0,
            Verdict::NotYet => self.missed_cold_tries + 1,
        };
    }

    /// Whether the whole snippet has held over a night.
    pub fn has_held(&self) -> bool {
        self.whole_held
    }

    /// Whether the snippet has stopped improving.
    pub fn is_stale(&self) -> bool {
        stale(self.whole_was_secure, self.missed_cold_tries)
    }
}
