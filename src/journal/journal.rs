//! The journal: all entries known here, and the fold kept up to date.

use crate::{
    clock::{Day, Moment},
    journal::{
        DeviceId, Entries, Entry, EntryId, EntryKind, Merged, SetAside, State, limits,
        pack::Pack,
        study,
        writers::{Writer, Writers},
    },
};
use std::{collections::BTreeSet, ops::Deref, rc::Rc};

/// The entries of every device this one has heard of, as a set, and the [`State`] they fold to.
#[derive(Clone, Debug)]
pub struct Journal {
    entries: Entries,
    state: Rc<State>,
    writers: Writers,
}

impl Default for Journal {
    fn default() -> Self {
        Journal::new()
    }
}

impl Deref for Journal {
    type Target = Entries;
    fn deref(&self) -> &Entries {
        &self.entries
    }
}

/// Two journals are equal where they hold the same, however much of it is packed.
impl PartialEq for Journal {
    fn eq(&self, other: &Journal) -> bool {
        self.state == other.state && self.set_aside().eq(other.set_aside()) && self.entries().eq(other.entries())
    }
}

impl Journal {
    /// A new player's journal: the study that comes with the program and nothing else. Its entries
    /// are the same on every device, so that a union of two journals holds it once.
    pub fn new() -> Self {
        Journal::of(Vec::new(), Vec::new(), BTreeSet::new()).0
    }

    /// The journal that was found as packs, in ascending order, single entries and what was set aside.
    /// Packs that cannot be unpacked are set aside. With it comes whether any two had one identity and different
    /// contents.
    pub(super) fn of(packs: Vec<Pack>, single: Vec<Entry>, set_aside: BTreeSet<SetAside>) -> (Self, bool) {
        let single = study::entries().into_iter().chain(single);
        let (entries, merged) = Entries::of(packs, single, set_aside);
        let mut journal = Journal::folded(entries, State::default(), Writers::default());
        journal.fold();
        (journal, merged.twins > 0)
    }

    /// Entries with the state that they fold to and who wrote them.
    pub(super) fn folded(entries: Entries, state: State, writers: Writers) -> Self {
        Journal { entries, state: Rc::new(state), writers }
    }

    /// What the entries add up to.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// The same, to be held while the journal goes on.
    pub fn shared_state(&self) -> Rc<State> {
        Rc::clone(&self.state)
    }

    /// Keeps something that could not be read, and says whether it is new.
    pub fn put_aside(&mut self, unread: SetAside) -> bool {
        self.entries.put_aside(unread)
    }

    /// The entry that `device` would write next, its texts shortened to what every device takes. Nothing
    /// is taken in until [`Journal::append`].
    pub fn next(&self, device: DeviceId, at: Moment, kind: EntryKind) -> Entry {
        let number = self.last().map_or(0, |id| id.number) + 1;
        Entry { id: EntryId { number, device }, at, kind: limits::shortened(kind) }
    }

    /// Takes in an entry made by [`Journal::next`] at the cost of that entry alone; only the retraction of something
    /// else than what happened in practising folds everything again. An entry from elsewhere goes through
    /// [`Journal::merge`].
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
        self.writers.take(&entry);
        self.entries.push(entry);
        if !up_to_date {
            self.fold();
        }
    }

    /// The union with `others`; see [`Entries::unite`].
    pub fn merge(&mut self, others: impl IntoIterator<Item = Entry>) -> Merged {
        let merged = self.entries.unite(others);
        if merged.added > 0 {
            self.fold();
        }
        merged
    }

    /// The union with another journal of this device.
    pub fn join(&mut self, other: Journal) -> Merged {
        let merged = self.merge(other.entries());
        other.set_aside().for_each(|aside| _ = self.put_aside(aside.clone()));
        merged
    }

    /// Becomes what it has come to elsewhere, when it was `before`. What was written here since then is taken along.
    pub fn become_later(&mut self, mut later: Journal, before: &Entries) {
        self.set_aside().for_each(|aside| _ = later.put_aside(aside.clone()));
        let since = self.since(before);
        if !since.is_empty() {
            later.merge(since);
        }
        *self = later;
    }

    /// How many entries somebody has written that are neither here nor set aside.
    pub fn missing(&self) -> u64 {
        self.writers.missing(self.set_aside().filter_map(SetAside::number))
    }

    /// What each device has written, the study that comes with the program left out.
    pub fn writers(&self) -> impl Iterator<Item = (DeviceId, Writer)> {
        self.writers.all().filter(|(device, _)| !study::is_writer(*device))
    }

    /// Packs what was written before `today`, and the oldest of today where that is very much.
    pub fn pack_closed_days(&mut self, today: Day) {
        self.entries.pack_closed_days(today);
    }

    /// Folds everything from the start. A pack that cannot be unpacked is set aside; what can be read of it
    /// stays.
    fn fold(&mut self) {
        loop {
            match fold(&self.entries) {
                Ok((state, writers)) => return (self.state, self.writers) = (Rc::new(state), writers),
                Err(place) => self.entries.mend(place),
            }
        }
    }
}

/// What the entries add up to and who wrote them, or which pack is damaged.
fn fold(entries: &Entries) -> Result<(State, Writers), usize> {
    let (mut state, mut retractions, mut undone) = (State::default(), Vec::new(), true);
    let mut writers = Writers::default();
    entries.each(&mut |entry| {
        writers.take(entry);
        match entry.kind {
            EntryKind::Retracted { entry: earlier } => {
                retractions.push((entry.id, earlier));
                undone &= state.take_back(earlier);
            }
            _ => state.take(entry),
        }
    })?;
    if undone {
        return Ok((state, writers));
    }
    let (mut state, retracted) = (State::default(), retracted(&retractions));
    entries.each(&mut |entry| {
        if !retracted.contains(&entry.id) {
            state.take(entry);
        }
    })?;
    Ok((state, writers))
}

/// The entries that do not count, by all retractions in ascending order with what each retracts. A
/// retraction comes after what it retracts, so going from the newest to the oldest every retraction is
/// known to count or not when it is met.
pub fn retracted(retractions: &[(EntryId, EntryId)]) -> BTreeSet<EntryId> {
    let mut retracted = BTreeSet::new();
    for (id, earlier) in retractions.iter().rev() {
        if !retracted.contains(id) && earlier < id {
            retracted.insert(*earlier);
        }
    }
    retracted
}
