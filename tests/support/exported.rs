//! Journals as the text of a file, and back.

use tailfirst::{
    clock::Moment,
    journal::{
        DeviceId, Entry, Journal, Merged,
        file::{self, Head, ImportError},
    },
};

/// The whole journal as a file.
pub fn export(journal: &Journal, device: DeviceId, exported: Moment) -> String {
    let head = Head { exported, device, set_aside: journal.set_aside().cloned().collect() };
    let mut text = Vec::new();
    file::write(&head, journal.entries(), &mut text).expect("memory can be written");
    String::from_utf8(text).expect("a text")
}

/// What a file holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    pub head: Head,
    pub entries: Vec<Entry>,
}

pub fn read(text: &str) -> Result<Imported, ImportError> {
    let mut entries = Vec::new();
    let head = file::read(text.as_bytes(), &mut |entry| entries.push(entry))?;
    Ok(Imported { head, entries })
}

impl Imported {
    pub fn into_journal(self, journal: &mut Journal) -> Merged {
        self.head.set_aside.into_iter().for_each(|aside| _ = journal.put_aside(aside));
        journal.merge(self.entries)
    }
}
