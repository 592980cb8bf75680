//! The copies of the journal on one device, as texts under keys: what they add up to when they are
//! opened, and what each of them lacks then.
//!
//! A device keeps two copies, one that is quick and one that survives the browser. Either may be missing,
//! older than the other or damaged. All that can be read of both counts. What cannot be read is set aside;
//! only then is a whole text written over it.

use crate::journal::{DeviceId, Entry, EntryId, Journal, SetAside, limits, study};
use std::{
    collections::BTreeMap,
    hash::{DefaultHasher, Hash, Hasher},
};

/// The texts of a copy by their keys.
pub type Texts = BTreeMap<String, String>;

const ENTRY: &str = "entry.";
const ASIDE: &str = "aside.";
const DEVICE: &str = "device";

/// What the copies add up to.
#[derive(Debug)]
pub struct Opened {
    pub journal: Journal,
    /// Who writes here. `None` where that is not certain: a device that may have lost entries, or is not
    /// sure of its identity, must not give numbers that were given before, and goes on under a new one.
    pub device: Option<DeviceId>,
    /// How many texts were found that cannot be read and had not been set aside before.
    pub newly_set_aside: usize,
}

/// Opens the copies as their union.
pub fn open(copies: &[Texts]) -> Opened {
    let mut journal = Journal::new();
    for (key, text) in texts(copies, ASIDE) {
        journal.put_aside(SetAside::read(text).unwrap_or_else(|| unread(key, text)));
    }
    let (mut entries, mut newly_set_aside) = (Vec::new(), 0);
    let count = texts(copies, ENTRY).count();
    for (key, text) in texts(copies, ENTRY) {
        match Entry::read(text) {
            Ok(entry) if entry_key(entry.id) == *key && limits::may_be_numbered(entry.id, count) => entries.push(entry),
            _ => newly_set_aside += usize::from(journal.put_aside(unread(key, text))),
        }
    }
    journal.merge(entries);
    let device = identity(copies).filter(|_| newly_set_aside == 0);
    Opened { journal, device, newly_set_aside }
}

/// The texts whose keys begin with `start`, in all copies.
fn texts<'a>(copies: &'a [Texts], start: &'static str) -> impl Iterator<Item = (&'a String, &'a String)> {
    copies.iter().flatten().filter(move |(key, _)| key.starts_with(start))
}

fn unread(key: &str, text: &str) -> SetAside {
    SetAside { place: key.into(), text: text.into() }
}

/// The identity on which all copies that hold one agree.
fn identity(copies: &[Texts]) -> Option<DeviceId> {
    let mut held = copies.iter().filter_map(|copy| copy.get(DEVICE)).map(|text| text.parse().ok());
    let first = held.next()??;
    held.all(|other| other == Some(first)).then_some(first)
}

/// What a copy that holds `held` lacks of the journal of `device`.
pub fn lacking(journal: &Journal, device: DeviceId, held: &Texts) -> Vec<(String, String)> {
    // What comes with the program need not be kept.
    let entries = journal.entries().filter(|entry| !study::is_supplied(entry.id)).map(entry_text);
    let asides = journal.set_aside().map(|aside| (aside_key(aside), aside.written()));
    let all = entries.chain(asides).chain([identity_text(device)]);
    all.filter(|(key, text)| held.get(key) != Some(text)).collect()
}

/// The key and the text under which an entry is kept.
pub fn entry_text(entry: &Entry) -> (String, String) {
    (entry_key(entry.id), entry.written())
}

/// The key and the text under which the device's identity is kept.
pub fn identity_text(device: DeviceId) -> (String, String) {
    (DEVICE.into(), device.to_string())
}

fn entry_key(id: EntryId) -> String {
    format!("{ENTRY}{id}")
}

/// The same text from the same place always has the same key, so that it is kept once.
fn aside_key(aside: &SetAside) -> String {
    let mut hasher = DefaultHasher::new();
    (&aside.place, &aside.text).hash(&mut hasher);
    format!("{ASIDE}{:016x}", hasher.finish())
}
