//! The copies of a journal as they lie on the device, as one file: what can be handed out where the journal
//! itself cannot be opened. Every text is there to the letter, and an import reads it like any other file.

use crate::{
    clock::Moment,
    journal::{
        DeviceId, Entry, SetAside,
        file::{self, Head},
        limits,
        shelf::{self, Texts},
        wire::Text,
    },
};
use serde::Serialize;

/// What the file calls itself.
pub(super) const FORMAT: &str = "tailfirst copies";

#[derive(Serialize)]
struct File {
    format: &'static str,
    version: u32,
    exported: Text<Moment>,
    copies: Vec<Texts>,
}

/// The copies as the text of a file.
pub fn written(copies: Vec<Texts>, exported: Moment) -> String {
    let file = File { format: FORMAT, version: file::VERSION, exported: Text(exported), copies };
    serde_json::to_string(&file).expect("texts can be written as JSON")
}

/// What the copies add up to. What is beyond the limits is set aside.
pub(super) fn read(copies: &[Texts], exported: Moment, take: &mut dyn FnMut(Entry)) -> Head {
    let (device, journal) = (shelf::identity(copies), shelf::open(copies, exported.day()).journal);
    let mut set_aside: Vec<SetAside> = journal.set_aside().cloned().collect();
    for entry in journal.entries() {
        match limits::check(&entry) {
            Ok(()) => take(entry),
            Err(_) => set_aside.push(SetAside { place: format!("entry.{}", entry.id), text: entry.written() }),
        }
    }
    Head { exported, device: device.unwrap_or(DeviceId(0)), set_aside }
}
