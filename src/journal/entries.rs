//! The entries of every device this one has heard of, as a set.
//!
//! Closed days lie packed and are unpacked one pack at a time when they are needed; what is recent lies
//! open. Every packed entry comes before every recent one.

use crate::{
    clock::Day,
    journal::{
        Entry, EntryId,
        pack::{self, Pack},
        union::{Merged, Union, United},
    },
};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

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

    /// The number of the single entry whose text it was, where its place tells.
    pub(super) fn number(&self) -> Option<u64> {
        let id: EntryId = self.place.strip_prefix("entry.")?.parse().ok()?;
        Some(id.number)
    }

    /// One line of JSON.
    pub fn written(&self) -> String {
        serde_json::to_string(self).expect("two texts can be written as JSON")
    }
}

/// All entries, and what could not be read as one.
#[derive(Clone, Debug, Default)]
pub struct Entries {
    /// In ascending order, none reaching into another.
    packs: Vec<Pack>,
    recent: BTreeMap<EntryId, Entry>,
    set_aside: BTreeSet<SetAside>,
}

/// Most recent entries that are left unpacked.
const MOST_RECENT: usize = 2_000;

impl Entries {
    /// What was found as packs and single entries. Of packs that reach into others each entry counts once.
    /// With them comes what became of them, so that it shows whether any two had one identity.
    pub fn of(
        packs: Vec<Pack>,
        single: impl IntoIterator<Item = Entry>,
        set_aside: BTreeSet<SetAside>,
    ) -> (Self, Merged) {
        let mut entries = Entries { set_aside, ..Entries::default() };
        let mut loose: Vec<Entry> = single.into_iter().collect();
        for pack in packs {
            match entries.packs.last() {
                Some(before) if pack.first() <= before.last() => loose.extend(pack.entries()),
                _ => entries.packs.push(pack),
            }
        }
        let merged = entries.unite(loose);
        (entries, merged)
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
            let pack = self.packs.get(self.packs.partition_point(|pack| pack.last() < id))?;
            pack.entries().into_iter().find(|entry| entry.id == id)
        };
        self.recent.get(&id).cloned().or_else(packed)
    }

    /// The identity that comes last.
    pub fn last(&self) -> Option<EntryId> {
        let packed = || self.packs.last().map(Pack::last);
        self.recent.last_key_value().map(|(id, _)| *id).or_else(packed)
    }

    /// What could not be taken in.
    pub fn set_aside(&self) -> impl Iterator<Item = &SetAside> {
        self.set_aside.iter()
    }

    /// Keeps something that could not be read, and says whether it is new.
    pub fn put_aside(&mut self, unread: SetAside) -> bool {
        self.set_aside.insert(unread)
    }

    /// Adds an entry that comes after all that are here.
    pub(super) fn push(&mut self, entry: Entry) {
        self.recent.insert(entry.id, entry);
    }

    /// Passes on all entries in order.
    ///
    /// # Errors
    /// The place of a pack that is damaged.
    pub fn each(&self, take: &mut dyn FnMut(&Entry)) -> Result<(), usize> {
        for (place, pack) in self.packs.iter().enumerate() {
            pack.unpack(&mut |entry| take(&entry)).map_err(|_| place)?;
        }
        self.recent.values().for_each(take);
        Ok(())
    }

    /// Sets the pack at this place aside and keeps what can be read of it.
    pub(super) fn mend(&mut self, place: usize) {
        self.set_aside.insert(damaged(&self.packs[place]));
        let readable = Pack::all_of(&self.packs[place].entries());
        self.packs.splice(place..=place, readable);
    }

    /// A union with these, to which others can be added one by one.
    pub fn union(&self) -> Union {
        let recent: Vec<Entry> = self.recent.values().cloned().collect();
        Union::with(self.packs.iter().cloned().chain(Pack::all_of(&recent)))
    }

    /// Becomes what a union with these has come to.
    pub fn become_united(&mut self, United { packs, merged, damaged: unread }: United) -> Merged {
        let packed = self.packs.last().map(Pack::last);
        self.set_aside.extend(unread.iter().map(damaged));
        self.packs = packs;
        self.recent.clear();
        while self.recent.len() < MOST_RECENT
            && let Some(pack) = self.packs.pop_if(|pack| Some(pack.first()) > packed)
        {
            self.recent.extend(pack.entries().into_iter().map(|entry| (entry.id, entry)));
        }
        merged
    }

    /// The union with `others`, in any order.
    pub fn unite(&mut self, others: impl IntoIterator<Item = Entry>) -> Merged {
        let mut union = self.union();
        others.into_iter().for_each(|entry| union.take(entry));
        self.become_united(union.finish())
    }

    /// Whether all of these are here, under their identities or as twins.
    pub fn knows(&self, others: impl IntoIterator<Item = Entry>) -> bool {
        let mut union = self.union();
        others.into_iter().for_each(|entry| union.take(entry));
        union.finish().merged.added == 0
    }

    /// What was written since these were `before`.
    pub(super) fn since(&self, before: &Entries) -> Vec<Entry> {
        if self.packs != before.packs {
            return self.entries().collect();
        }
        self.recent().filter(|entry| !before.recent.contains_key(&entry.id)).cloned().collect()
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
}

fn damaged(pack: &Pack) -> SetAside {
    SetAside { place: format!("pack.{}", pack.first()), text: pack.text().into() }
}
