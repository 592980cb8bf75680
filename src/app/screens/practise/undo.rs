//! Taking back what was done last.

use super::super::super::desk::Desk;
use crate::{
    journal::{EntryId, Event, SnippetId, SnippetRecord},
    method::{What, block},
};

/// The place in the history of what the player did last in the latest block.
pub fn last_of_block(record: &SnippetRecord) -> Option<usize> {
    let last = record.history().iter().rposition(|happening| {
        let begins = matches!(happening.what, What::BlockBegan(_));
        begins || matches!(happening.what, What::Played { .. } | What::Overruled(_) | What::StartedAfresh)
    })?;
    (!matches!(record.history()[last].what, What::BlockBegan(_))).then_some(last)
}

/// Takes back what the player did last in the block, a verdict or a choice, and whatever it led to.
pub fn undo(desk: &Desk, id: SnippetId) {
    let retracted: Vec<EntryId> = {
        let state = desk.state();
        let Some(record) = state.snippet(id) else { return };
        let Some(last) = last_of_block(record) else { return };
        (last..record.history().len()).rev().filter_map(|index| record.entry(index)).collect()
    };
    for entry in retracted {
        desk.record(Event::Retracted { entry });
    }
}

/// Takes back what the player has said about the rest of today.
pub fn unsay(desk: &Desk, id: SnippetId) {
    let said = {
        let state = desk.state();
        let record = state.snippet(id);
        record.and_then(|record| record.entry(block::wish(record.history(), desk.now().day())?.0))
    };
    if let Some(entry) = said {
        desk.record(Event::Retracted { entry });
    }
}
