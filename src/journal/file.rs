//! The exported file: one readable JSON document with the whole journal.
//!
//! Its schema is published as `static/journal.schema.json`. Refuses to know how a file reaches the
//! device or leaves it.

use super::{DeviceId, Entry, Journal, SetAside};
use crate::clock::Moment;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::fmt;

/// What the file calls itself.
const FORMAT: &str = "tailfirst journal";
/// The version that is written; every version up to it is read.
pub const VERSION: u32 = 1;
/// Largest file that is read, in bytes: some ten years of practice.
pub const LARGEST: usize = 400 << 20;

#[derive(Serialize)]
struct Written<'a> {
    format: &'static str,
    version: u32,
    exported: Moment,
    device: DeviceId,
    entries: Vec<&'a Entry>,
    set_aside: Vec<Unread<'a>>,
}

#[derive(Serialize)]
struct Unread<'a> {
    place: &'a str,
    text: &'a str,
}

/// The whole journal as the text of a file, one entry a line.
pub fn export(journal: &Journal, device: DeviceId, exported: Moment) -> String {
    let written = Written {
        format: FORMAT,
        version: VERSION,
        exported,
        device,
        entries: journal.entries().collect(),
        set_aside: journal.set_aside().map(|SetAside { place, text }| Unread { place, text }).collect(),
    };
    serde_json::to_string_pretty(&written).expect("a journal has text keys only, so it can be written as JSON")
}

/// What a file holds, checked whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    pub exported: Moment,
    pub device: DeviceId,
    pub entries: Vec<Entry>,
    pub set_aside: Vec<SetAside>,
}

/// Why a file was not taken in. Nothing has been changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ImportError {
    /// Larger than [`LARGEST`].
    TooLarge,
    NotJson {
        line: usize,
    },
    NotAJournal,
    Newer {
        version: u32,
    },
    Damaged {
        /// Which of the entries, counted from one.
        entry: usize,
        why: String,
    },
}

impl fmt::Display for ImportError {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self {
            ImportError::TooLarge => {
                write!(f, "This file is too large to be a journal; choose the file that an export made.")
            }
            ImportError::NotJson { line } => {
                write!(f, "This file breaks off or is damaged at line {line}; export it again on the other device.")
            }
            ImportError::NotAJournal => write!(f, "This file is no journal; choose the file that an export made."),
            ImportError::Newer { version } => write!(
                f,
                "This file was written by a newer version of the program (format {version}); update this device, then import it again."
            ),
            ImportError::Damaged { entry, why } => {
                write!(f, "Entry {entry} of this file is damaged: {why}. Export it again on the other device.")
            }
        }
    }
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
        exported: Moment,
        device: DeviceId,
        #[serde(borrow)]
        entries: Vec<&'a RawValue>,
        #[serde(default)]
        set_aside: Vec<Aside>,
    }
    #[derive(Deserialize)]
    struct Aside {
        place: String,
        text: String,
    }

    if text.len() > LARGEST {
        return Err(ImportError::TooLarge);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let head: Head = serde_json::from_str(text).map_err(|stumbled| not_a_journal(&stumbled))?;
    if head.format != FORMAT || head.version == 0 {
        return Err(ImportError::NotAJournal);
    }
    if head.version > VERSION {
        return Err(ImportError::Newer { version: head.version });
    }
    let body: Body = serde_json::from_str(text).map_err(|stumbled| not_a_journal(&stumbled))?;
    let entries = body.entries.iter().enumerate().map(|(index, raw)| {
        Entry::read(raw.get()).map_err(|why| ImportError::Damaged { entry: index + 1, why: why.to_string() })
    });
    Ok(Imported {
        exported: body.exported,
        device: body.device,
        entries: entries.collect::<Result<_, _>>()?,
        set_aside: body.set_aside.into_iter().map(|Aside { place, text }| SetAside { place, text }).collect(),
    })
}

fn not_a_journal(stumbled: &serde_json::Error) -> ImportError {
    match stumbled.classify() {
        serde_json::error::Category::Data => ImportError::NotAJournal,
        _ => ImportError::NotJson { line: stumbled.line() },
    }
}

impl Journal {
    /// The union with what a file holds.
    pub fn take_in(&mut self, imported: Imported) -> super::Merged {
        imported.set_aside.into_iter().for_each(|unread| self.put_aside(unread));
        self.merge(imported.entries)
    }
}
