//! The two copies of the journal on this device, local storage and IndexedDB: opened as their
//! union, written one entry at a time. What the copies add up to is [`shelf`]'s to say.

use super::device::{clock, indexed::Indexed, local};
use crate::journal::{
    DeviceId, Entry, Journal,
    shelf::{self, Changes, Texts},
};

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

/// Opens both copies and brings each up to their union.
pub async fn open() -> Opened {
    let indexed = Indexed::open().await.ok();
    let in_local = local::read_all("").ok();
    let in_indexed = match &indexed {
        Some(indexed) => indexed.read_all().await.ok(),
        None => None,
    };
    let kept = match (&in_local, &in_indexed) {
        (Some(_), Some(_)) => Kept::Well,
        (None, None) => Kept::Nowhere,
        _ => Kept::Once,
    };
    let copies = [in_local, in_indexed].map(|copy| copy.unwrap_or_default().into_iter().collect::<Texts>());
    let shelf::Opened { journal, device, .. } = shelf::open(&copies, clock::now().day());
    let device = device.unwrap_or_else(clock::new_device);
    let stores = Stores { indexed };
    stores.complete(&journal, device, &copies);
    Opened { stores, journal, device, kept }
}

impl Stores {
    /// Writes one entry. The first copy has it when this returns; `later` hears how the whole went
    /// when the second has answered.
    pub fn write(&self, entry: &Entry, later: impl FnOnce(Kept) + 'static) {
        self.write_all(Changes { put: vec![shelf::entry_text(entry)], remove: Vec::new() }, later);
    }

    /// Writes whatever of the journal of `device` one of the copies does not hold.
    pub fn write_journal(&self, journal: &Journal, device: DeviceId, later: impl FnOnce(Kept) + 'static) {
        let in_local: Texts = local::read_all("").unwrap_or_default().into_iter().collect();
        self.write_all(shelf::changes(journal, device, &in_local), later);
    }

    fn write_all(&self, changes: Changes, later: impl FnOnce(Kept) + 'static) {
        let locally = local::change(&changes).is_ok();
        let indexing = self.indexed.as_ref().map(|indexed| indexed.change(&changes));
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
    fn complete(&self, journal: &Journal, device: DeviceId, [in_local, in_indexed]: &[Texts; 2]) {
        let _told_at_the_next_entry = local::change(&shelf::changes(journal, device, in_local));
        if let Some(indexed) = &self.indexed {
            let writing = indexed.change(&shelf::changes(journal, device, in_indexed));
            wasm_bindgen_futures::spawn_local(async move {
                let _told_at_the_next_entry = writing.await;
            });
        }
    }
}
