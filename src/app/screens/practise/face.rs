//! Which face the practice screen shows.

use crate::{
    clock::Moment,
    journal::SnippetRecord,
    method::{Settings, Standing, What, block},
};

/// The faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Face {
    /// A block may begin, or one that began before the page was opened goes on.
    Ready { goes_on: bool },
    /// The pulse is running.
    Playing { ends: Moment },
    /// Until then, or for today.
    Resting { until: Option<Moment> },
}

/// A repetition that was begun within the minutes may be judged this long after them.
const GRACE_MS: i64 = 30_000;

impl Face {
    /// The face at `now`; `running` tells whether the pulse was started on this page.
    pub fn of(record: &SnippetRecord, settings: &Settings, now: Moment, running: bool) -> Face {
        let standing = block::standing(record.history(), settings, now);
        match standing {
            Standing::Ready { .. } => Face::Ready { goes_on: false },
            Standing::Practising { ends, .. } if running => Face::Playing { ends },
            Standing::Practising { .. } => Face::Ready { goes_on: true },
            Standing::Resting { until } => {
                in_grace(record, now, running).unwrap_or(Face::Resting { until: Some(until) })
            }
            Standing::EnoughToday => in_grace(record, now, running).unwrap_or(Face::Resting { until: None }),
        }
    }
}

/// The playing face, while the last repetition of a block whose minutes are used may still be
/// judged.
fn in_grace(record: &SnippetRecord, now: Moment, running: bool) -> Option<Face> {
    let mut newest_first = record.history().iter().rev();
    let block = newest_first.clone().find_map(|happening| match happening.what {
        What::BlockBegan(settings) => Some(happening.at.plus_minutes(settings.block_minutes)),
        _ => None,
    });
    let ends = block?;
    let judged_late = newest_first.next().is_some_and(|last| last.at > ends || matches!(last.what, What::BlockEnded));
    let late = now.ms_since(ends);
    (running && !judged_late && (0..GRACE_MS).contains(&late)).then_some(Face::Playing { ends })
}
