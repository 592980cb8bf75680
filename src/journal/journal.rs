//! The journal: all entries known here, their union with others, and the fold kept up to date.
//!
//! Closed days lie packed and are unpacked one pack at a time when they are needed; what is recent lies
//! open. Every packed entry comes before every recent one.

use crate::{
    clock::{Day, Moment},
    journal::{
        DeviceId, Entry, EntryId, EntryKind, State, limits,
        pack::{self, Pack},
        study,
    },
    sort,
};
use serde::{Deserialize, Serialize};
use std::{
    collections::{
        BTreeMap, BTreeSet,
        btree_map::Entry::{Occupied, Vacant},
    },
    rc::Rc,
};

/// Something that could not be taken in. It is kept as it was and offered in the export.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetAside {
    /// Where it was found.
    pub place: String,
    /// As it was found.
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
    /// How many entries are new.
    pub added: usize,
    /// How many entries were there before.
    pub known_already: usize,
    /// How many entries were given an identity of their own, since another holds the one they had.
    pub twins: usize,
}

/// The entries of every device this one has heard of, as a set, and the [`State`] they fold to.
#[derive(Clone, Debug)]
pub struct Journal {
    /// In ascending order, none reaching into another.
    packs: Vec<Pack>,
    recent: BTreeMap<EntryId, Entry>,
    set_aside: BTreeSet<SetAside>,
    state: Rc<State>,
}

impl Default for Journal {
    fn default() -> Self {
        Journal::new()
    }
}

/// Two journals are equal where they hold the same, however much of it is packed.
impl PartialEq for Journal {
    fn eq(&self, other: &Journal) -> bool {
        self.set_aside == other.set_aside && self.state == other.state && self.entries().eq(other.entries())
    }
}

/// Most recent entries that are left unpacked.
const MOST_RECENT: usize = 2_000;

impl Journal {
    /// A new player's journal: the study that comes with the program and nothing else. Its entries
    /// are the same on every device, so that a union of two journals holds it once.
    pub fn new() -> Self {
        Journal::of(Vec::new(), Vec::new(), BTreeSet::new())
    }

    /// The journal that was found as packs, in ascending order, single entries and what was set aside.
    /// Packs that cannot be unpacked are set aside; of packs that reach into others each entry counts once.
    pub(super) fn of(packs: Vec<Pack>, single: Vec<Entry>, set_aside: BTreeSet<SetAside>) -> Self {
        let mut journal = Journal { packs: Vec::new(), recent: BTreeMap::new(), set_aside, state: Rc::default() };
        let mut loose = study::entries();
        for pack in packs {
            match journal.packs.last() {
                Some(before) if pack.first() <= before.last() => loose.extend(pack.entries()),
                _ => journal.packs.push(pack),
            }
        }
        loose.extend(single);
        journal.unite(loose);
        journal.fold();
        journal
    }

    /// What the entries add up to.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// The same, to be held while the journal goes on.
    pub fn shared_state(&self) -> Rc<State> {
        Rc::clone(&self.state)
    }

    /// All entries in order.
    pub fn entries(&self) -> impl Iterator<Item = Entry> {
        self.packs.iter().flat_map(Pack::entries).chain(self.recent.values().cloned())
    }

    /// How many entries there are.
    pub fn count(&self) -> usize {
        self.packs.iter().map(Pack::count).sum::<usize>() + self.recent.len()
    }

    /// The closed days, packed, in order.
    pub fn packs(&self) -> &[Pack] {
        &self.packs
    }

    /// The entries that are not packed, in order.
    pub fn recent(&self) -> impl Iterator<Item = &Entry> {
        self.recent.values()
    }

    /// The entry of this identity.
    pub fn entry(&self, id: EntryId) -> Option<Entry> {
        let packed = || {
            let pack = self.packs.get(self.pack_of(id))?;
            pack.entries().into_iter().find(|entry| entry.id == id)
        };
        self.recent.get(&id).cloned().or_else(packed)
    }

    /// Which pack holds the entry, or would; the number of packs where it comes after all of them.
    fn pack_of(&self, id: EntryId) -> usize {
        self.packs.partition_point(|pack| pack.last() < id)
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

    fn last(&self) -> Option<EntryId> {
        let packed = || self.packs.last().map(Pack::last);
        self.recent.last_key_value().map(|(id, _)| *id).or_else(packed)
    }

    /// The entry that `device` would write next, its texts shortened to what every device takes. Nothing
    /// is taken in until [`Journal::append`].
    pub fn next(&self, device: DeviceId, at: Moment, kind: EntryKind) -> Entry {
        let number = self.last().map_or(0, |id| id.number) + 1;
        Entry { id: EntryId { number, device }, at, kind: limits::shortened(kind) }
    }

    /// Takes in an entry made by [`Journal::next`] at the cost of that entry alone; only the
    /// retraction of something else than what happened in practising folds everything anew. An entry
    /// from elsewhere goes through [`Journal::merge`].
    pub fn append(&mut self, entry: Entry) {
        if self.last() >= Some(entry.id) {
            self.merge([entry]);
            return;
        }
        let up_to_date = match entry.kind {
            EntryKind::Retracted { entry: retracted } => Rc::make_mut(&mut self.state).take_back(retracted),
            _ => {
                Rc::make_mut(&mut self.state).take(&entry);
                true
            }
        };
        self.recent.insert(entry.id, entry);
        if !up_to_date {
            self.fold();
        }
    }

    /// The union with `others`. The same entry twice counts once. Where one identity has two contents,
    /// both happened, on a device and on its copy: both are kept, and on every device the same one of
    /// them (the one written first in the alphabet) keeps the identity and the other gets its own.
    pub fn merge(&mut self, others: impl IntoIterator<Item = Entry>) -> Merged {
        let merged = self.unite(others.into_iter().collect());
        if merged.added > 0 {
            self.fold();
        }
        merged
    }

    /// The union with another journal of this device.
    pub fn join(&mut self, other: Journal) -> Merged {
        let merged = self.merge(other.entries());
        self.set_aside.extend(other.set_aside);
        merged
    }

    fn unite(&mut self, others: Vec<Entry>) -> Merged {
        let mut merged = Merged::default();
        let mut arriving: Vec<_> = others.into_iter().map(Arriving::from_elsewhere).collect();
        while !arriving.is_empty() {
            let mut twins = Vec::new();
            let packed = self.packs.last().map(Pack::last);
            let (old, new): (Vec<_>, Vec<_>) = arriving.into_iter().partition(|one| Some(one.entry.id) <= packed);
            new.into_iter().for_each(|one| _ = merged.take(one, &mut self.recent, &mut twins));
            self.unite_with_packs(old, &mut merged, &mut twins);
            arriving = twins;
        }
        merged
    }

    /// Takes entries into the packs among which they belong, from the last to the first.
    fn unite_with_packs(&mut self, mut old: Vec<Arriving>, merged: &mut Merged, twins: &mut Vec<Arriving>) {
        sort::by_key(&mut old, |one| one.entry.id);
        while let Some(place) = old.last().map(|one| self.pack_of(one.entry.id)) {
            let from = old.partition_point(|one| self.pack_of(one.entry.id) < place);
            let mut entries = BTreeMap::new();
            let unpacked = self.packs[place].unpack(&mut |entry| _ = entries.insert(entry.id, entry));
            let mut changed = unpacked.is_err();
            if changed {
                self.set_aside.insert(damaged(&self.packs[place]));
            }
            for one in old.drain(from..) {
                changed |= merged.take(one, &mut entries, twins);
            }
            if changed {
                let entries: Vec<Entry> = entries.into_values().collect();
                self.packs.splice(place..=place, Pack::all_of(&entries));
            }
        }
    }

    /// Whether somebody else writes as `device`: there are entries of it among `others` that it did not
    /// write here.
    pub fn is_copied(&self, device: DeviceId, others: &[Entry]) -> bool {
        !self.knows(others.iter().filter(|entry| entry.id.device == device).cloned().collect())
    }

    /// Whether all the entries are here, under their identities or as twins.
    pub fn knows(&self, entries: Vec<Entry>) -> bool {
        let (packs, recent) = (self.packs.clone(), self.recent.clone());
        let mut here = Journal { packs, recent, set_aside: BTreeSet::new(), state: Rc::default() };
        here.unite(entries).added == 0
    }

    /// Packs what was written before `today`, and the oldest of today where that is very much.
    pub fn pack_closed_days(&mut self, today: Day) {
        let newest_first = self.recent.values().rev();
        let open = newest_first.take(MOST_RECENT).take_while(|entry| entry.at.day() == today).last();
        let open = match open.map(|entry| entry.id) {
            Some(first) => self.recent.split_off(&first),
            None => BTreeMap::new(),
        };
        let closed = std::mem::replace(&mut self.recent, open);
        if closed.is_empty() {
            return;
        }
        let mut entries =
            self.packs.pop_if(|last| last.count() < pack::MOST_ENTRIES).map_or_else(Vec::new, |last| last.entries());
        entries.extend(closed.into_values());
        self.packs.extend(Pack::all_of(&entries));
    }

    /// Folds everything from the start. A pack that cannot be unpacked is set aside; what can be read of it
    /// stays.
    fn fold(&mut self) {
        loop {
            match self.folded() {
                Ok(state) => return self.state = Rc::new(state),
                Err(place) => {
                    self.set_aside.insert(damaged(&self.packs[place]));
                    let readable = Pack::all_of(&self.packs[place].entries());
                    self.packs.splice(place..=place, readable);
                }
            }
        }
    }

    /// What the entries add up to, or which pack is damaged.
    fn folded(&self) -> Result<State, usize> {
        let (mut state, mut retractions, mut undone) = (State::default(), Vec::new(), true);
        self.each(&mut |entry| match entry.kind {
            EntryKind::Retracted { entry: earlier } => {
                retractions.push((entry.id, earlier));
                undone &= state.take_back(earlier);
            }
            _ => state.take(entry),
        })?;
        if undone {
            return Ok(state);
        }
        let (mut state, retracted) = (State::default(), retracted(&retractions));
        self.each(&mut |entry| {
            if !retracted.contains(&entry.id) {
                state.take(entry);
            }
        })?;
        Ok(state)
    }

    /// Hands on all entries in order; the place of a pack that is damaged.
    fn each(&self, take: &mut dyn FnMut(&Entry)) -> Result<(), usize> {
        for (place, pack) in self.packs.iter().enumerate() {
            pack.unpack(&mut |entry| take(&entry)).map_err(|_| place)?;
        }
        self.recent.values().for_each(take);
        Ok(())
    }
}

/// An entry on its way into the journal.
struct Arriving {
    entry: Entry,
    /// Not yet counted as added or as known.
    new: bool,
    /// Under an identity of its own, since another entry holds the one it was written under.
    twin: bool,
}

impl Arriving {
    fn from_elsewhere(entry: Entry) -> Self {
        Arriving { entry, new: true, twin: false }
    }
}

impl Merged {
    /// Takes an entry in among `entries`, and says whether that changed anything. A twin is left to be
    /// taken in where it belongs.
    fn take(&mut self, arriving: Arriving, entries: &mut BTreeMap<EntryId, Entry>, twins: &mut Vec<Arriving>) -> bool {
        let Arriving { entry, new, twin } = arriving;
        match entries.entry(entry.id) {
            Vacant(place) => {
                self.added += usize::from(new);
                self.twins += usize::from(twin);
                place.insert(entry);
                true
            }
            Occupied(here) if *here.get() == entry => {
                self.known_already += usize::from(new);
                false
            }
            Occupied(here) if here.get().written() <= entry.written() => {
                twins.push(Arriving { entry: entry.under_its_own_identity(), new, twin: true });
                false
            }
            Occupied(mut here) => {
                self.added += usize::from(new);
                let displaced = here.insert(entry);
                twins.push(Arriving { entry: displaced.under_its_own_identity(), new: false, twin: true });
                true
            }
        }
    }
}

fn damaged(pack: &Pack) -> SetAside {
    SetAside { place: format!("pack.{}", pack.first()), text: pack.text().into() }
}

/// The entries that do not count, by all retractions in ascending order with what each retracts. A
/// retraction comes after what it retracts, so going from the newest to the oldest every retraction is
/// known to count or not when it is met.
fn retracted(retractions: &[(EntryId, EntryId)]) -> BTreeSet<EntryId> {
    let mut retracted = BTreeSet::new();
    for (id, earlier) in retractions.iter().rev() {
        if !retracted.contains(id) && earlier < id {
            retracted.insert(*earlier);
        }
    }
    retracted
}
