//! The exported file: one readable JSON document with the whole journal.
//!
//! Its schema is published as `static/journal.schema.json`.

use crate::{
    clock::Moment,
    journal::{DeviceId, Entry, Journal, SetAside, limits, wire::Text},
};
use serde::Deserialize;
use serde_json::value::RawValue;

/// What the file calls itself.
const FORMAT: &str = "tailfirst journal";
/// The version that is written; every version up to it is read.
pub const VERSION: u32 = 1;
/// The whole journal as the text of a file, one entry a line.
pub fn export(journal: &Journal, device: DeviceId, exported: Moment) -> String {
    let entries = lines(journal.entries().map(|entry| entry.written()));
    let set_aside = lines(journal.set_aside().map(SetAside::written));
    format!(
        r#"{{
"format": "{FORMAT}", "version": {VERSION}, "exported": "{exported}", "device": "{device}",
"entries": [{entries}],
"set_aside": [{set_aside}]
}}
"#
    )
}

/// The items of an array, each on a line of its own.
fn lines(items: impl Iterator<Item = String>) -> String {
    let mut lines = String::new();
    for item in items {
        lines.push_str(if lines.is_empty() { "\n" } else { ",\n" });
        lines.push_str(&item);
    }
    lines
}

/// What a file holds, checked whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// When the file was written.
    pub exported: Moment,
    /// The device that wrote it.
    pub device: DeviceId,
    /// In order, each within the limits.
    pub entries: Vec<Entry>,
    /// What could not be read.
    pub set_aside: Vec<SetAside>,
}

/// Why a file was not taken in. Nothing has been changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ImportError {
    /// Larger than [`limits::FILE_BYTES`], or more than [`limits::ENTRIES`].
    TooLarge,
    /// No JSON, from this line on; the first is 1.
    NotJson {
        /// Counted from 1.
        line: usize,
    },
    /// JSON, but not of this program.
    NotAJournal,
    /// Written by a later version in a format that this one does not know.
    Newer {
        /// The format's version.
        version: u32,
    },
    /// A journal with a part that does not fit.
    Damaged {
        /// For people, in English.
        why: String,
    },
}

impl std::error::Error for ImportError {}

/// Reads an exported file whole.
///
/// # Errors
/// An [`ImportError`] whose sentence says what to do; there is no partial result.
pub fn read(text: &str) -> Result<Imported, ImportError> {
    #[derive(Deserialize)]
    struct Head {
        format: String,
        version: u32,
    }
    #[derive(Deserialize)]
    struct Body<'a> {
        exported: Text<Moment>,
        device: Text<DeviceId>,
        #[serde(borrow)]
        entries: Vec<&'a RawValue>,
        #[serde(default)]
        set_aside: Vec<SetAside>,
    }

    if text.len() > limits::FILE_BYTES {
        return Err(ImportError::TooLarge);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let head: Head = serde_json::from_str(text).map_err(|stumbled| match stumbled.classify() {
        serde_json::error::Category::Data => ImportError::NotAJournal,
        _ => ImportError::NotJson { line: stumbled.line() },
    })?;
    if head.format != FORMAT || head.version == 0 {
        return Err(ImportError::NotAJournal);
    }
    if head.version > VERSION {
        return Err(ImportError::Newer { version: head.version });
    }
    let body: Body =
        serde_json::from_str(text).map_err(|stumbled| ImportError::Damaged { why: stumbled.to_string() })?;
    if body.entries.len() > limits::ENTRIES {
        return Err(ImportError::TooLarge);
    }
    let entries = body.entries.iter().enumerate().map(|(index, raw)| {
        entry(raw.get(), body.entries.len())
            .map_err(|why| ImportError::Damaged { why: format!("entry {}: {why}", index + 1) })
    });
    Ok(Imported {
        exported: body.exported.0,
        device: body.device.0,
        entries: entries.collect::<Result<_, _>>()?,
        set_aside: body.set_aside,
    })
}

/// One of `count` entries.
fn entry(text: &str, count: usize) -> Result<Entry, String> {
    let entry = Entry::read(text).map_err(|why| why.to_string())?;
    limits::check(&entry, count).map_err(|beyond| format!("{}: {beyond}", entry.id))?;
    Ok(entry)
}

impl Journal {
    /// The union with what a file holds.
    pub fn take_in(&mut self, imported: Imported) -> crate::journal::Merged {
        imported.set_aside.into_iter().for_each(|aside| _ = self.put_aside(aside));
        self.merge(imported.entries)
    }
}
