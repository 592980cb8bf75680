//! The two copies of the journal on this device, local storage and IndexedDB: opened as their
//! union, written one entry at a time.

use super::device::{clock, indexed::Indexed, local};
use crate::{
    journal::{DeviceId, Entry, EntryId, Journal, SetAside, study},
    order,
};
use std::hash::{DefaultHasher, Hash, Hasher};

/// How well the latest write was kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// In both copies, or still on its way to the second.
    Well,
    /// One copy did not take it: the other is enough to go on, not to rely on.
    Once,
    /// Neither copy took it: it is lost when the page is closed.
    Nowhere,
}

/// The open copies.
pub struct Stores {
    indexed: Option<Indexed>,
}

/// What was found on opening.
pub struct Opened {
    pub stores: Stores,
    pub journal: Journal,
    pub device: DeviceId,
    pub kept: Kept,
}

const ENTRY: &str = "entry.";
const ASIDE: &str = "aside.";
const DEVICE: &str = "device";

/// Opens both copies and brings each up to their union.
pub async fn open() -> Opened {
    let indexed = Indexed::open().await.ok();
    let in_local = local::read_all("");
    let in_indexed = match &indexed {
        Some(indexed) => indexed.read_all().await.ok(),
        None => None,
    };
    let kept = match (&in_local, &in_indexed) {
        (Ok(_), Some(_)) => Kept::Well,
        (Err(_), None) => Kept::Nowhere,
        _ => Kept::Once,
    };
    let (in_local, in_indexed) = (in_local.unwrap_or_default(), in_indexed.unwrap_or_default());

    let mut journal = Journal::new();
    let unread = take_in(&mut journal, in_local.iter().chain(&in_indexed));
    let device = local::read(DEVICE).and_then(|text| text.parse().ok());
    let device = match device.filter(|_| unread == 0) {
        Some(device) => device,
        None => renew_device(),
    };
    let stores = Stores { indexed };
    stores.complete(&journal, &in_local, &in_indexed);
    Opened { stores, journal, device, kept }
}

/// Draws and keeps a new identity. A device that may have lost entries must not give their numbers
/// to others.
pub fn renew_device() -> DeviceId {
    let device = clock::new_device();
    let _told_at_the_first_entry = local::write(DEVICE, &device.to_string());
    device
}

/// Takes both copies into the journal and says how many texts could not be read that had not been set
/// aside before; all such texts are set aside.
fn take_in<'a>(journal: &mut Journal, copies: impl Iterator<Item = &'a (String, String)> + Clone) -> usize {
    for (key, text) in copies.clone().filter(|(key, _)| key.starts_with(ASIDE)) {
        let whole = || SetAside { place: key.clone(), text: text.clone() };
        journal.put_aside(serde_json::from_str(text).unwrap_or_else(|_| whole()));
    }
    let (mut entries, mut unread) = (Vec::new(), 0);
    for (key, text) in copies {
        let Some(id) = key.strip_prefix(ENTRY) else { continue };
        match Entry::read(text) {
            Ok(entry) if entry.id.to_string() == id => entries.push(entry),
            _ => unread += usize::from(journal.put_aside(SetAside { place: key.clone(), text: text.clone() })),
        }
    }
    journal.merge(entries);
    unread
}

impl Stores {
    /// Writes one entry. The first copy has it when this returns; `later` hears how the whole went
    /// when the second has answered.
    pub fn write(&self, entry: &Entry, later: impl FnOnce(Kept) + 'static) {
        self.write_all(vec![(entry_key(entry.id), entry.written())], later);
    }

    /// Writes whatever of the journal one of the copies does not hold.
    pub fn write_journal(&self, journal: &Journal, later: impl FnOnce(Kept) + 'static) {
        let in_local: Vec<_> = local::read_all("").unwrap_or_default();
        self.write_all(missing(&wanted(journal), &in_local), later);
    }

    fn write_all(&self, texts: Vec<(String, String)>, later: impl FnOnce(Kept) + 'static) {
        let locally = texts.iter().all(|(key, text)| local::write(key, text).is_ok());
        let indexing = self.indexed.as_ref().map(|indexed| indexed.write(&texts));
        wasm_bindgen_futures::spawn_local(async move {
            let indexed = match indexing {
                Some(writing) => writing.await.is_ok(),
                None => false,
            };
            later(match (locally, indexed) {
                (true, true) => Kept::Well,
                (false, false) => Kept::Nowhere,
                _ => Kept::Once,
            });
        });
    }

    /// Brings each copy up to the journal.
    fn complete(&self, journal: &Journal, in_local: &[(String, String)], in_indexed: &[(String, String)]) {
        let wanted = wanted(journal);
        for (key, text) in missing(&wanted, in_local) {
            let _told_at_the_next_entry = local::write(&key, &text);
        }
        if let Some(indexed) = &self.indexed {
            let writing = indexed.write(&missing(&wanted, in_indexed));
            wasm_bindgen_futures::spawn_local(async move {
                let _told_at_the_next_entry = writing.await;
            });
        }
    }
}

/// Everything that a copy should hold, by its key. What comes with the program need not be kept.
fn wanted(journal: &Journal) -> Vec<(String, String)> {
    let entries = journal.entries().filter(|entry| !study::is_supplied(entry.id));
    let entries = entries.map(|entry| (entry_key(entry.id), entry.written()));
    let asides = journal.set_aside().map(|aside| (aside_key(aside), aside.written()));
    entries.chain(asides).collect()
}

fn missing(wanted: &[(String, String)], held: &[(String, String)]) -> Vec<(String, String)> {
    let mut held: Vec<&(String, String)> = held.iter().collect();
    order::by(&mut held, Ord::cmp);
    wanted.iter().filter(|pair| held.binary_search(pair).is_err()).cloned().collect()
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
