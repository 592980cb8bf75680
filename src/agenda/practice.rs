//! What the practice screen shows of a snippet.

use crate::{
    clock::Moment,
    journal::{EntryId, EntryKind, SnippetRecord},
    method::{Cause, Done, HappeningKind, Settings, Standing, Step, Verdict, block},
};

/// What is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shown {
    /// A block may begin. `again` where it is not the first touch of the day.
    Ready {
        /// Whether it is not the first touch of the day.
        again: bool,
    },
    /// A block is under way, and its minutes run, but the pulse stands still.
    Paused {
        /// When its minutes are used.
        ends: Moment,
    },
    /// The pulse is running.
    Playing {
        /// When its minutes are used.
        ends: Moment,
    },
    /// What has been practised settles.
    Resting(Rest),
}

/// For how long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rest {
    /// To this moment.
    Until(Moment),
    /// For today.
    Today(Done),
}

impl Shown {
    /// What is shown at `now`; `running` tells whether the pulse was started on this page.
    pub fn of(record: &SnippetRecord, settings: &Settings, now: Moment, running: bool) -> Shown {
        let judging = || block::in_grace(record.history(), now).filter(|_| running).map(|ends| Shown::Playing { ends });
        match block::standing(record.history(), settings, now) {
            Standing::Ready { blocks_today } => Shown::Ready { again: blocks_today > 0 },
            Standing::Practising { ends, .. } if running => Shown::Playing { ends },
            Standing::Practising { ends, .. } => Shown::Paused { ends },
            Standing::Resting { until } => judging().unwrap_or(Shown::Resting(Rest::Until(until))),
            Standing::DoneToday(done) => judging().unwrap_or(Shown::Resting(Rest::Today(done))),
        }
    }

    /// Whether the device must not fall asleep: nobody touches it while playing, and a sleeping one could not
    /// call back from a rest.
    pub fn keeps_awake(self) -> bool {
        matches!(self, Shown::Playing { .. } | Shown::Resting(Rest::Until(_)))
    }
}

impl Rest {
    /// Whether the player may practise anyway: not where they have said themselves that it is enough.
    pub fn can_be_overruled(self) -> bool {
        matches!(self, Rest::Until(_) | Rest::Today(Done::BlocksPlayed))
    }
}

/// A repetition that was not yet clean, and what the player said of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Miss {
    /// Its entry.
    pub repetition: EntryId,
    /// What was played.
    pub step: Step,
    /// What was not right.
    pub cause: Option<Cause>,
    /// The onset at which it broke.
    pub broke_at: Option<usize>,
}

impl Miss {
    /// What a tap on `onset` says: that it broke there, where that was played. `None` where it says nothing, or nothing new.
    pub fn broke_at(&self, onset: usize) -> Option<EntryKind> {
        let new = self.step.span.contains(onset) && self.broke_at != Some(onset);
        let onset = u16::try_from(onset).ok().filter(|_| new)?;
        Some(EntryKind::BrokeAt { repetition: self.repetition, onset })
    }
}

/// The latest repetition, where it was not yet clean and nothing but the end of its block has followed.
pub fn last_miss(record: &SnippetRecord) -> Option<Miss> {
    let (index, last) =
        record.history().iter().enumerate().rev().find(|(_, happening)| happening.kind != HappeningKind::BlockEnded)?;
    match last.kind {
        HappeningKind::Played { step, verdict: Verdict::NotYet, cause, broke_at } => {
            Some(Miss { repetition: record.entry(index)?, step, cause, broke_at })
        }
        _ => None,
    }
}
