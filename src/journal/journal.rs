//! The journal: all entries known here, their union with others, and the fold kept up to date.

use super::{DeviceId, Entry, EntryId, Event, State, limits, study};
use crate::clock::Moment;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// Something that could not be taken in. It is kept as it was and offered in the export.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetAside {
    /// Where it was found.
    pub place: String,
    pub text: String,
}

impl SetAside {
    /// Reads what [`SetAside::written`] wrote.
    pub fn read(line: &str) -> Option<SetAside> {
        serde_json::from_str(line).ok()
    }

    /// One line of JSON.
    pub fn written(&self) -> String {
        serde_json::to_string(self).expect("two texts can be written as JSON")
    }
}

/// What a union brought.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    pub added: usize,
    pub known_already: usize,
    /// Of those added, how many had the identity of another and were given their own.
    pub twins: usize,
}

/// The entries of every device this one has heard of, as a set, and the [`State`] they fold to.
#[derive(Clone, Debug, PartialEq)]
pub struct Journal {
    entries: BTreeMap<EntryId, Entry>,
    set_aside: BTreeSet<SetAside>,
    state: State,
}

impl Default for Journal {
    fn default() -> Self {
        Journal::new()
    }
}

impl Journal {
    /// A new player's journal: the study that comes with the program and nothing else. Its entries
    /// are the same on every device, so that a union of two journals holds it once.
    pub fn new() -> Self {
        let mut journal = Journal { entries: BTreeMap::new(), set_aside: BTreeSet::new(), state: State::default() };
        journal.merge(study::entries());
        journal
    }

    /// What the entries add up to.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// All entries in order.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values()
    }

    /// Whether the entry is here.
    pub fn holds(&self, id: EntryId) -> bool {
        self.entries.contains_key(&id)
    }

    /// What could not be taken in.
    pub fn set_aside(&self) -> impl Iterator<Item = &SetAside> {
        self.set_aside.iter()
    }

    /// Keeps everything that could not be read.
    pub(super) fn set_aside_all(&mut self, unread: impl IntoIterator<Item = SetAside>) {
        self.set_aside.extend(unread);
    }

    /// Keeps something that could not be read, and says whether it is new.
    pub fn put_aside(&mut self, unread: SetAside) -> bool {
        self.set_aside.insert(unread)
    }

    /// The entry that `device` would write next, its texts shortened to what every device takes. Nothing is taken in until [`Journal::append`].
    pub fn next(&self, device: DeviceId, at: Moment, what: Event) -> Entry {
        let number = self.entries.last_key_value().map_or(0, |(id, _)| id.number) + 1;
        Entry { id: EntryId { number, device }, at, what: limits::shortened(what) }
    }

    /// Takes in an entry made by [`Journal::next`] at the cost of that entry alone; only the
    /// retraction of something else than what happened in practising folds everything anew. An entry
    /// from elsewhere goes through [`Journal::merge`].
    pub fn append(&mut self, entry: Entry) {
        let newest = self.entries.last_key_value().is_none_or(|(id, _)| *id < entry.id);
        if !newest {
            self.merge([entry]);
            return;
        }
        let up_to_date = match entry.what {
            Event::Retracted { entry: retracted } => {
                self.entries.get(&retracted).is_some_and(|retracted| self.state.take_back(retracted))
            }
            _ => {
                self.state.take(&entry);
                true
            }
        };
        self.entries.insert(entry.id, entry);
        if !up_to_date {
            self.fold();
        }
    }

    /// The union with `others`. The same entry twice counts once. Where one identity has two contents,
    /// both happened, on a device and on its copy: both are kept, and on every device the same one of
    /// them (the one written first in the alphabet) keeps the identity and the other gets its own.
    pub fn merge(&mut self, others: impl IntoIterator<Item = Entry>) -> Merged {
        let mut merged = Merged::default();
        for entry in others {
            self.merge_one(entry, &mut merged);
        }
        if merged.added > 0 {
            self.fold();
        }
        merged
    }

    fn merge_one(&mut self, entry: Entry, merged: &mut Merged) {
        match self.entries.get(&entry.id) {
            None => {
                merged.added += 1;
                self.entries.insert(entry.id, entry);
            }
            Some(here) if *here == entry => merged.known_already += 1,
            Some(here) => {
                let (stays, twin) = if here.written() <= entry.written() { (here, &entry) } else { (&entry, here) };
                let (stays, twin) = (stays.clone(), twin.under_its_own_identity());
                self.entries.insert(stays.id, stays);
                let known = merged.known_already;
                self.merge_one(twin, merged);
                merged.twins += usize::from(merged.known_already == known);
            }
        }
    }

    /// Whether somebody else writes as `device`: there are entries of it among `others` that it did not
    /// write here.
    pub fn is_copied(&self, device: DeviceId, others: &[Entry]) -> bool {
        let unknown = |entry: &Entry| self.entries.get(&entry.id) != Some(entry);
        others.iter().filter(|entry| entry.id.device == device).any(unknown)
    }

    /// Folds everything from the start.
    fn fold(&mut self) {
        let retracted = self.retracted();
        self.state = State::of(self.entries.values().filter(|entry| !retracted.contains(&entry.id)));
    }

    /// The entries that do not count. A retraction comes after what it retracts, so going from the
    /// newest to the oldest every retraction is known to count or not when it is met.
    fn retracted(&self) -> BTreeSet<EntryId> {
        let mut retracted = BTreeSet::new();
        for entry in self.entries.values().rev() {
            if let Event::Retracted { entry: earlier } = entry.what
                && !retracted.contains(&entry.id)
                && earlier < entry.id
            {
                retracted.insert(earlier);
            }
        }
        retracted
    }
}
