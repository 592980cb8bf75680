//! Which face the practice screen shows.

use crate::{
    clock::Moment,
    journal::SnippetRecord,
    method::{Done, Settings, Standing, block},
};

/// The faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Face {
    /// A block may begin, or one that began before the page was opened goes on. `again` where it is not the
    /// first touch of the day.
    Ready { goes_on: bool, again: bool },
    /// The pulse is running.
    Playing { ends: Moment },
    /// What has been practised settles.
    Resting(Rest),
}

/// For how long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rest {
    Until(Moment),
    /// For today.
    Today(Done),
}

impl Face {
    /// The face at `now`; `running` tells whether the pulse was started on this page.
    pub fn of(record: &SnippetRecord, settings: &Settings, now: Moment, running: bool) -> Face {
        let judging = || block::in_grace(record.history(), now).filter(|_| running).map(|ends| Face::Playing { ends });
        match block::standing(record.history(), settings, now) {
            Standing::Ready { blocks_today } => Face::Ready { goes_on: false, again: blocks_today > 0 },
            Standing::Practising { ends, .. } if running => Face::Playing { ends },
            Standing::Practising { .. } => Face::Ready { goes_on: true, again: true },
            Standing::Resting { until } => judging().unwrap_or(Face::Resting(Rest::Until(until))),
            Standing::DoneToday(done) => judging().unwrap_or(Face::Resting(Rest::Today(done))),
        }
    }
}
