//! The copies of the journal on one device, as texts under keys: what they add up to when they are
//! opened, and what each of them lacks then.
//!
//! A device keeps two copies, one that is quick and one that survives the browser. Either may be missing, older than
//! the other or damaged. Everything readable in either copy counts. Unreadable text is set aside before it is
//! overwritten.

use crate::{
    clock::{Day, Moment},
    journal::{DeviceId, Entry, EntryId, Journal, Merged, SetAside, limits, pack::Pack, study},
    sort,
};
use std::{
    cmp::Reverse,
    collections::{BTreeMap, BTreeSet},
    hash::{DefaultHasher, Hash, Hasher},
};

/// The texts of a copy by their keys.
pub type Texts = BTreeMap<String, String>;

const ENTRY: &str = "entry.";
const PACK: &str = "pack.";
const ASIDE: &str = "aside.";
/// The key of the device's identity, which every copy holds that was not cleared.
pub const DEVICE: &str = "device";
/// The key of when the journal was exported last.
const EXPORTED: &str = "exported";
/// The key of how many entries were known to be missing.
const MISSING: &str = "missing";

/// What the copies add up to.
#[derive(Debug)]
pub struct Opened {
    /// All that could be read of either copy.
    pub journal: Journal,
    /// Who writes here. `None` where that is not certain: a device that may have lost entries, is not sure of
    /// its identity, or finds two contents under one number, must not give numbers that were given before, and
    /// goes on under a new one.
    pub device: Option<DeviceId>,
    /// How many texts were found that cannot be read and had not been set aside before.
    pub newly_set_aside: usize,
    /// How many entries are missing that were not known to be.
    pub newly_missing: u64,
    /// When the journal was exported last, as far as that is known.
    pub exported: Option<Moment>,
}

/// Opens the copies as their union; what was written before `today` is packed.
pub fn open(copies: &[Texts], today: Day) -> Opened {
    let mut set_aside = set_aside(copies);
    let known_aside = set_aside.len();
    let count = texts(copies, ENTRY).count();
    let entry = |key: &str, text: &str| kept_entry(key, text).filter(|entry| limits::may_be_numbered(entry.id, count));
    let entries = unless_read(texts(copies, ENTRY), entry, &mut set_aside);
    let pack = |key: &str, text: &str| Pack::read(text).ok().filter(|pack| pack_key(pack) == key);
    let mut packs = unless_read(texts(copies, PACK), pack, &mut set_aside);
    // Of two that begin with the same entry the longer one has what the other has.
    sort::by_key(&mut packs, |pack| (pack.first(), Reverse(pack.count())));
    packs.dedup();

    let (mut journal, disputed) = Journal::of(packs, entries, set_aside);
    journal.pack_closed_days(today);
    let newly_missing = journal.missing().saturating_sub(known_missing(copies));
    let newly_set_aside = journal.set_aside().count() - known_aside;
    let device = identity(copies).filter(|_| newly_set_aside == 0 && !disputed);
    let exported = copies.iter().filter_map(|copy| copy.get(EXPORTED)?.parse().ok()).max();
    Opened { journal, device, newly_set_aside, newly_missing, exported }
}

/// What the copies say was set aside.
fn set_aside(copies: &[Texts]) -> BTreeSet<SetAside> {
    let read = |(key, text): (&String, &String)| SetAside::read(text).unwrap_or_else(|| unread(key, text));
    texts(copies, ASIDE).map(read).collect()
}

/// What can be read of the texts; the rest is set aside.
fn unless_read<'a, T>(
    texts: impl Iterator<Item = (&'a String, &'a String)>,
    read: impl Fn(&str, &str) -> Option<T>,
    set_aside: &mut BTreeSet<SetAside>,
) -> Vec<T> {
    let mut all = Vec::new();
    for (key, text) in texts {
        match read(key, text) {
            Some(value) => all.push(value),
            None => _ = set_aside.insert(unread(key, text)),
        }
    }
    all
}

/// The texts whose keys begin with `start`, in all copies; what two copies hold alike comes once.
fn texts<'a>(copies: &'a [Texts], start: &'static str) -> impl Iterator<Item = (&'a String, &'a String)> {
    let all = copies.iter().enumerate().flat_map(|(nth, copy)| copy.iter().map(move |(key, text)| (nth, key, text)));
    let held_before = |nth: usize, key: &String, text| copies[..nth].iter().any(|copy| copy.get(key) == Some(text));
    let sought = all.filter(move |(nth, key, text)| key.starts_with(start) && !held_before(*nth, key, text));
    sought.map(|(_, key, text)| (key, text))
}

fn unread(key: &str, text: &str) -> SetAside {
    SetAside { place: key.into(), text: text.into() }
}

/// The identity on which all copies that hold one agree.
pub(super) fn identity(copies: &[Texts]) -> Option<DeviceId> {
    let mut held = copies.iter().filter_map(|copy| copy.get(DEVICE)).map(|text| text.parse().ok());
    let first = held.next()??;
    held.all(|other| other == Some(first)).then_some(first)
}

fn known_missing(copies: &[Texts]) -> u64 {
    let noted = copies.iter().filter_map(|copy| copy.get(MISSING)?.parse().ok());
    noted.max().unwrap_or(0)
}

/// What is to be done to a copy: first all of `put`, then, where that went well, all of `remove`.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Changes {
    /// Texts with their keys.
    pub put: Vec<(String, String)>,
    /// Keys of what lies packed by then.
    pub remove: Vec<String>,
}

/// What brings a copy that holds `held` up to the journal of `device`. Only what can be read and is known
/// is ever removed.
pub fn changes(journal: &Journal, device: DeviceId, held: &Texts) -> Changes {
    let mut wanted: Texts = wanted(journal, device).collect();
    if journal.missing() > 0 || held.contains_key(MISSING) {
        wanted.insert(MISSING.into(), journal.missing().to_string());
    }
    let surplus = || held.iter().filter(|(key, _)| !wanted.contains_key(*key));
    let (mut remove, mut entries) = (Vec::new(), Vec::new());
    for (key, text) in surplus().filter(|(key, _)| key.starts_with(ENTRY)) {
        if let Some(entry) = kept_entry(key, text) {
            remove.push(key.clone());
            entries.push(entry);
        }
    }
    for (key, text) in surplus().filter(|(key, _)| key.starts_with(PACK)) {
        if let Ok(pack) = Pack::read(text) {
            remove.push(key.clone());
            entries.extend(pack.entries());
        }
    }
    if !journal.knows(entries) {
        remove.clear();
    }
    let put = wanted.into_iter().filter(|(key, text)| held.get(key) != Some(text)).collect();
    Changes { put, remove }
}

/// What makes a copy that holds `held` into one of the journal of `device` and of nothing else: for going back to
/// what was before. What was set aside stays.
pub fn replacing(journal: &Journal, device: DeviceId, held: &Texts) -> Changes {
    let wanted: Texts = wanted(journal, device).collect();
    let of_entries = |key: &&String| key.starts_with(ENTRY) || key.starts_with(PACK);
    let remove = held.keys().filter(of_entries).filter(|key| !wanted.contains_key(*key)).cloned().collect();
    Changes { put: wanted.into_iter().filter(|(key, text)| held.get(key) != Some(text)).collect(), remove }
}

/// Takes in what another window has just written under a key; `None` where that is no entry.
pub fn hear(journal: &mut Journal, key: &str, text: &str) -> Option<Merged> {
    let entry = kept_entry(key, text)?;
    if journal.last() < Some(entry.id) {
        journal.append(entry);
        return Some(Merged::default());
    }
    Some(journal.merge([entry]))
}

/// Whether more than one entry may have changed under a key that another window wrote.
pub fn tells_of_many(key: &str) -> bool {
    key.starts_with(PACK)
}

/// All that a copy of the journal of `device` holds.
fn wanted(journal: &Journal, device: DeviceId) -> impl Iterator<Item = (String, String)> {
    let packs = journal.packs().iter().map(|pack| (pack_key(pack), pack.text().to_string()));
    // What comes with the program need not be kept.
    let entries = journal.recent().filter(|entry| !study::is_supplied(entry.id)).map(entry_text);
    let asides = journal.set_aside().map(|aside| (aside_key(aside), aside.written()));
    packs.chain(entries).chain(asides).chain([identity_text(device)])
}

/// The key and the text under which an entry is kept: when it was and what, for the key tells the rest.
pub fn entry_text(entry: &Entry) -> (String, String) {
    let line = entry.written();
    let what = line.split_once(",\"what\":").map_or(line.as_str(), |(_, what)| what);
    (entry_key(entry.id), format!("{} {}", entry.at, what.strip_suffix('}').unwrap_or(what)))
}

/// The entry that is kept under the key; earlier versions kept its whole line.
fn kept_entry(key: &str, text: &str) -> Option<Entry> {
    let read = match text.split_once(' ').filter(|_| !text.starts_with('{')) {
        None => Entry::read(text),
        Some((at, what)) => {
            let id = key.strip_prefix(ENTRY)?;
            Entry::read(&format!(r#"{{"id":"{id}","at":"{at}","what":{what}}}"#))
        }
    };
    read.ok().filter(|entry| entry_key(entry.id) == key)
}

/// The key and the text under which the device's identity is kept.
pub fn identity_text(device: DeviceId) -> (String, String) {
    (DEVICE.into(), device.to_string())
}

/// The key and the text under which is kept when the journal was exported last.
pub fn exported_text(at: Moment) -> (String, String) {
    (EXPORTED.into(), at.to_string())
}

fn pack_key(pack: &Pack) -> String {
    format!("{PACK}{}", pack.first())
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
