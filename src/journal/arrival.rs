//! A journal that comes in pieces and is folded as it comes, so that no piece takes long.

use crate::journal::{Entries, Entry, EntryId, Journal, SetAside, State, pack::Pack, writers::Writers};
use std::collections::BTreeSet;

/// What has come so far: first what is retracted, then all packs and all recent entries, each in order.
#[derive(Default)]
pub struct Arrival {
    retracted: BTreeSet<EntryId>,
    packs: Vec<Pack>,
    recent: Vec<Entry>,
    set_aside: BTreeSet<SetAside>,
    state: State,
    writers: Writers,
}

impl Arrival {
    /// These entries do not count.
    pub fn retracted(&mut self, entries: Vec<EntryId>) {
        self.retracted.extend(entries);
    }

    /// Takes in a pack; `None` where it is damaged.
    pub fn pack(&mut self, pack: Pack) -> Option<()> {
        pack.unpack(&mut |entry| self.take(&entry)).ok()?;
        self.packs.push(pack);
        Some(())
    }

    /// Takes in recent entries.
    pub fn recent(&mut self, entries: Vec<Entry>) {
        entries.iter().for_each(|entry| self.take(entry));
        self.recent.extend(entries);
    }

    /// Takes in texts that could not be read.
    pub fn set_aside(&mut self, unread: Vec<SetAside>) {
        self.set_aside.extend(unread);
    }

    /// Everything has come.
    pub fn whole(self) -> Journal {
        let (entries, _) = Entries::of(self.packs, self.recent, self.set_aside);
        Journal::folded(entries, self.state, self.writers)
    }

    fn take(&mut self, entry: &Entry) {
        self.writers.take(entry);
        if !self.retracted.contains(&entry.id) {
            self.state.take(entry);
        }
    }
}
