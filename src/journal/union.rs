//! Merging entries into those that are here: every pack is opened once at most, and a pack that nothing falls into
//! stays packed. Entries that come in ascending order, as every file has them, need little room, however many there
//! are.

use crate::{
    journal::{
        DeviceId, Entry, EntryId,
        pack::{MOST_ENTRIES, Pack},
    },
    sort,
};
use std::collections::{
    BTreeMap, BTreeSet, VecDeque,
    btree_map::Entry::{Occupied, Vacant},
};

/// What a union brought.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// How many entries are new.
    pub added: usize,
    /// How many entries were there before.
    pub known_already: usize,
    /// How many entries were given an identity of their own, since another holds the one they had.
    pub twins: usize,
    /// The devices that wrote what was added.
    pub writers: BTreeSet<DeviceId>,
}

/// A union under way.
#[derive(Default)]
pub struct Union {
    /// What nothing has come among yet, in order.
    ahead: VecDeque<Pack>,
    /// Entries in the open: those of `opened` with what came among them, or what came between two packs.
    open: BTreeMap<EntryId, Entry>,
    opened: Option<Pack>,
    /// Whether anything in the open stands in no pack yet.
    changed: bool,
    /// What lies behind, in order.
    done: Vec<Pack>,
    /// What belongs behind, or comes again under another identity.
    again: Vec<Arriving>,
    merged: Merged,
    damaged: Vec<Pack>,
}

/// What a union ends with.
pub struct United {
    /// All entries, in order.
    pub packs: Vec<Pack>,
    pub merged: Merged,
    /// Packs that could not be unpacked. What can be read of them is among the others.
    pub damaged: Vec<Pack>,
}

/// Most entries between two packs before they are packed themselves.
const MOST_OPEN: usize = 4 * MOST_ENTRIES;

impl Union {
    /// Among these, which come in order.
    pub fn with(packs: impl IntoIterator<Item = Pack>) -> Union {
        Union { ahead: packs.into_iter().collect(), ..Union::default() }
    }

    /// Takes in an entry from elsewhere. The same entry twice counts once. Where one identity has two contents, both
    /// happened, on a device and on its copy: both are kept, and on every device the same one of them (the one written
    /// first in the alphabet) keeps the identity and the other gets its own.
    pub fn take(&mut self, entry: Entry) {
        self.take_arriving(Arriving { writer: entry.id.device, entry, new: true, twin: false });
    }

    fn take_arriving(&mut self, arriving: Arriving) {
        let id = arriving.entry.id;
        if self.done.last().is_some_and(|pack| id <= pack.last()) {
            return self.again.push(arriving);
        }
        if self.opened.as_ref().is_some_and(|pack| pack.last() < id) {
            self.settle();
        }
        while let Some(pack) = self.next_ahead(|pack| pack.last() < id) {
            self.settle();
            self.done.push(pack);
        }
        if let Some(pack) = self.next_ahead(|pack| pack.first() <= id) {
            self.settle();
            self.open(pack);
        }
        self.changed |= self.merged.take(arriving, &mut self.open, &mut self.again);
        if self.opened.is_none() && self.open.len() >= MOST_OPEN {
            self.settle();
        }
    }

    fn next_ahead(&mut self, is_reached: impl Fn(&Pack) -> bool) -> Option<Pack> {
        self.ahead.front().is_some_and(is_reached).then(|| self.ahead.pop_front()).flatten()
    }

    fn open(&mut self, pack: Pack) {
        let open = &mut self.open;
        if pack.unpack(&mut |entry| _ = open.insert(entry.id, entry)).is_err() {
            self.damaged.push(pack.clone());
            self.changed = true;
        }
        self.opened = Some(pack);
    }

    /// Packs what lies in the open.
    fn settle(&mut self) {
        let open = std::mem::take(&mut self.open);
        match self.opened.take() {
            Some(pack) if !self.changed => self.done.push(pack),
            _ => self.done.extend(Pack::all_of(&open.into_values().collect::<Vec<_>>())),
        }
        self.changed = false;
    }

    /// Ends when everything has found its place.
    pub fn finish(mut self) -> United {
        loop {
            self.settle();
            self.done.extend(self.ahead.drain(..));
            if self.again.is_empty() {
                return United { packs: self.done, merged: self.merged, damaged: self.damaged };
            }
            self.ahead = std::mem::take(&mut self.done).into();
            let mut again = std::mem::take(&mut self.again);
            sort::by_key(&mut again, |one| one.entry.id);
            again.into_iter().for_each(|one| self.take_arriving(one));
        }
    }
}

/// An entry on its way in.
struct Arriving {
    entry: Entry,
    writer: DeviceId,
    /// Not yet counted as added or as known.
    new: bool,
    /// Under an identity of its own, since another entry holds the one it was written under.
    twin: bool,
}

impl Merged {
    /// Whether somebody else writes as `device`: entries of it came that it did not write here.
    pub fn is_copied(&self, device: DeviceId) -> bool {
        self.writers.contains(&device)
    }

    fn count(&mut self, writer: DeviceId) {
        self.added += 1;
        self.writers.insert(writer);
    }

    /// Takes an entry in among `entries`, and says whether that changed anything. A twin is left to be
    /// taken in where it belongs.
    fn take(&mut self, arriving: Arriving, entries: &mut BTreeMap<EntryId, Entry>, twins: &mut Vec<Arriving>) -> bool {
        let Arriving { entry, writer, new, twin } = arriving;
        let under_its_own = |entry: &Entry, new| {
            let (entry, writer) = (entry.under_its_own_identity(), entry.id.device);
            Arriving { entry, writer, new, twin: true }
        };
        match entries.entry(entry.id) {
            Occupied(here) if *here.get() == entry => {
                self.known_already += usize::from(new);
                return false;
            }
            Occupied(here) if here.get().written() <= entry.written() => {
                twins.push(Arriving { writer, ..under_its_own(&entry, new) });
                return false;
            }
            Occupied(mut here) => {
                let displaced = here.insert(entry);
                twins.push(under_its_own(&displaced, false));
            }
            Vacant(place) => {
                self.twins += usize::from(twin);
                place.insert(entry);
            }
        }
        if new {
            self.count(writer);
        }
        true
    }
}
