//! Undo: it takes back exactly one thing and says which.

use crate::{
    clock::Day,
    journal::{EntryId, SnippetRecord},
    method::{Done, Verdict, What, block},
};

/// What can be taken back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Undone {
    Verdict(Verdict),
    /// The player's own choice of a step.
    Step,
    FreshStart,
    /// The end of a block before its minutes were used.
    End,
    GoodEnough,
    LeftOut,
}

/// One thing that can be taken back, and the entry to retract for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Undo {
    pub entry: EntryId,
    pub what: Undone,
}

/// What happened last to the snippet since its latest block began; `None` where nothing has. An end that
/// came after the minutes ended nothing, so it is passed over.
pub fn last(record: &SnippetRecord) -> Option<Undo> {
    let history = record.history();
    let index = (0..history.len()).rev().find(|index| !block::ended_late(history, *index))?;
    undo(record, index)
}

/// What the player has said on the day `today` about the rest of it.
pub fn wish(record: &SnippetRecord, today: Day) -> Option<Undo> {
    let (index, _): (usize, Done) = block::wish(record.history(), today)?;
    undo(record, index)
}

fn undo(record: &SnippetRecord, index: usize) -> Option<Undo> {
    let what = match record.history()[index].what {
        What::BlockBegan(_) => return None,
        What::Played { verdict, .. } => Undone::Verdict(verdict),
        What::Overruled(_) => Undone::Step,
        What::StartedAfresh => Undone::FreshStart,
        What::BlockEnded => Undone::End,
        What::GoodEnough => Undone::GoodEnough,
        What::NotToday => Undone::LeftOut,
    };
    Some(Undo { entry: record.entry(index)?, what })
}
