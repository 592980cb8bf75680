//! Undo: it takes back exactly one thing and says which.

use crate::{
    clock::Day,
    journal::{EntryId, EntryKind, SnippetRecord},
    method::{Done, HappeningKind, Verdict, block},
};

/// What can be taken back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Undone {
    /// The judgement of a repetition.
    Verdict(Verdict),
    /// The player's own choice of a step.
    Step,
    /// Learning the snippet again from its first step.
    FreshStart,
    /// The end of a block before its minutes were used.
    End,
    /// That it is good enough for today.
    GoodEnough,
    /// That it is left out today.
    LeftOut,
    /// That a rest was cut short.
    RestOverruled,
}

/// One thing that can be taken back, and the entry to retract for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Undo {
    /// What is retracted.
    pub entry: EntryId,
    /// What that entry said.
    pub kind: Undone,
}

impl Undo {
    /// The entry to be written.
    pub fn retracts(self) -> EntryKind {
        EntryKind::Retracted { entry: self.entry }
    }
}

/// The last thing that happened to the snippet since its latest block began, if any. An end after the minutes were used
/// ended nothing, so it is skipped.
pub fn last(record: &SnippetRecord) -> Option<Undo> {
    let history = record.history();
    let index = (0..history.len()).rev().find(|index| !block::ended_late(history, *index))?;
    undo(record, index)
}

/// What can be taken back before a block begins: while one is under way, what [`last`] gives; otherwise what was said
/// since the last block, but not the block itself, which is a rest ago.
pub fn before_beginning(record: &SnippetRecord, under_way: bool) -> Option<Undo> {
    let said = |undo: &Undo| matches!(undo.kind, Undone::FreshStart | Undone::RestOverruled);
    last(record).filter(|undo| under_way || said(undo))
}

/// What the player has said on the day `today` about the rest of it.
pub fn wish(record: &SnippetRecord, today: Day) -> Option<Undo> {
    let (index, _): (usize, Done) = block::wish(record.history(), today)?;
    undo(record, index)
}

fn undo(record: &SnippetRecord, index: usize) -> Option<Undo> {
    let what = match record.history()[index].kind {
        HappeningKind::BlockBegan(_) => return None,
        HappeningKind::Played { verdict, .. } => Undone::Verdict(verdict),
        HappeningKind::Overruled(_) => Undone::Step,
        HappeningKind::StartedAfresh => Undone::FreshStart,
        HappeningKind::BlockEnded => Undone::End,
        HappeningKind::GoodEnough => Undone::GoodEnough,
        HappeningKind::NotToday => Undone::LeftOut,
        HappeningKind::RestOverruled => Undone::RestOverruled,
    };
    Some(Undo { entry: record.entry(index)?, kind: what })
}
