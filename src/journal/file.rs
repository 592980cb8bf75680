//! The exported file: one readable JSON document with the whole journal, written and read an entry at a time, so that ten
//! years need little room.
//!
//! Its schema is published as `static/journal.schema.json`.

use crate::{
    clock::{Day, Moment},
    journal::{DeviceId, Entries, Entry, EntryId, Merged, SetAside, limits, rescue, shelf::Texts, wire::Text},
};
use serde::{
    Deserializer,
    de::{DeserializeSeed, Error as _, IgnoredAny, MapAccess, SeqAccess, Visitor},
};
use serde_json::{Error, error::Category, value::RawValue};
use std::{
    fmt,
    io::{self, BufReader, Read, Write},
};

/// What the file calls itself.
const FORMAT: &str = "tailfirst journal";
/// The version that is written; every version up to it is read.
pub const VERSION: u32 = 1;

/// What a file holds besides entries.
#[derive(Clone, Debug, PartialEq)]
pub struct Head {
    /// When the file was written.
    pub exported: Moment,
    /// The device that wrote it.
    pub device: DeviceId,
    /// What could not be read.
    pub set_aside: Vec<SetAside>,
}

/// Writes a file, one entry per line.
///
/// # Errors
/// Whatever `file` says.
pub fn write(head: &Head, entries: impl Iterator<Item = Entry>, file: &mut dyn Write) -> io::Result<()> {
    let Head { exported, device, set_aside } = head;
    write!(
        file,
        r#"{{
"format": "{FORMAT}", "version": {VERSION}, "exported": "{exported}", "device": "{device}",
"entries": ["#
    )?;
    write_lines(entries.map(|entry| entry.written()), file)?;
    write!(file, "],\n\"set_aside\": [")?;
    write_lines(set_aside.iter().map(SetAside::written), file)?;
    write!(file, "]\n}}\n")?;
    file.flush()
}

/// The items of an array, each on a line of its own.
fn write_lines(items: impl Iterator<Item = String>, file: &mut dyn Write) -> io::Result<()> {
    for (nth, item) in items.enumerate() {
        file.write_all(if nth == 0 { b"\n" } else { b",\n" })?;
        file.write_all(item.as_bytes())?;
    }
    Ok(())
}

/// Why a file was not taken in. Nothing has been changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ImportError {
    /// Larger than [`limits::FILE_BYTES`], or more than [`limits::ENTRIES`].
    TooLarge,
    /// It breaks off while it is read, though not by its own fault.
    Unreadable,
    /// No JSON, or cut off.
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

/// Reads an exported file whole and passes on each entry as it comes.
///
/// # Errors
/// An [`ImportError`] whose sentence says what to do. What was passed on until then is to be forgotten.
pub fn read(file: impl Read, take: &mut dyn FnMut(Entry)) -> Result<Head, ImportError> {
    let mut file = file.take(limits::FILE_BYTES as u64 + 1);
    let mut start = Vec::new();
    let begun = file.by_ref().take(BYTE_ORDER_MARK.len() as u64).read_to_end(&mut start);
    begun.map_err(|_| ImportError::Unreadable)?;
    if start == BYTE_ORDER_MARK {
        start.clear();
    }
    let mut json = serde_json::Deserializer::from_reader(BufReader::new(start.as_slice().chain(file.by_ref())));
    let mut reading = Reading::new(take);
    let read = json.deserialize_map(&mut reading).and_then(|()| json.end());
    drop(json);
    if file.limit() == 0 {
        return Err(ImportError::TooLarge);
    }
    reading.end(read.err())
}

/// What some editors put in front of a text.
/// What an exported file is called.
pub fn name(day: Day) -> String {
    format!("tailfirst-{day}.json")
}

/// Whether a file of this name may be an exported one.
pub fn has_its_name(name: &str) -> bool {
    name.to_ascii_lowercase().ends_with(".json")
}

const BYTE_ORDER_MARK: &[u8] = "\u{feff}".as_bytes();

/// A document being read.
struct Reading<'a> {
    take: &'a mut dyn FnMut(Entry),
    format: Option<String>,
    version: Option<u32>,
    exported: Option<Text<Moment>>,
    device: Option<Text<DeviceId>>,
    set_aside: Option<Vec<SetAside>>,
    copies: Option<Vec<Texts>>,
    /// How many entries there were, once there were any.
    count: Option<usize>,
    /// The entry with the highest number, and which of them all it is.
    highest: Option<(EntryId, usize)>,
    /// What is wrong with the first entry that is damaged.
    damage: Option<String>,
}

impl<'a> Reading<'a> {
    fn new(take: &'a mut dyn FnMut(Entry)) -> Self {
        let (format, version, exported, device, set_aside, copies) = (None, None, None, None, None, None);
        Reading { take, format, version, exported, device, set_aside, copies, count: None, highest: None, damage: None }
    }

    /// What the document's first lines say it is.
    fn known(&self) -> Result<(), ImportError> {
        match self.version {
            _ if ![Some(FORMAT), Some(rescue::FORMAT)].contains(&self.format.as_deref()) => {
                Err(ImportError::NotAJournal)
            }
            None | Some(0) => Err(ImportError::NotAJournal),
            Some(version) if version > VERSION => Err(ImportError::Newer { version }),
            Some(_) => Ok(()),
        }
    }

    /// Whether reading further is pointless.
    fn is_decided(&self) -> bool {
        let is_known = self.format.is_some() && self.version.is_some();
        is_known && (self.known().is_err() || self.damage.is_some()) || self.count > Some(limits::ENTRIES)
    }

    fn end(self, stumbled: Option<Error>) -> Result<Head, ImportError> {
        match stumbled.as_ref().map(|stumbled| (stumbled.classify(), stumbled.line())) {
            Some((Category::Io, _)) => return Err(ImportError::Unreadable),
            Some((Category::Syntax | Category::Eof, line)) => return Err(ImportError::NotJson { line }),
            Some((Category::Data, _)) | None => self.known()?,
        }
        if self.format.as_deref() == Some(rescue::FORMAT) {
            return match (stumbled, self.exported, self.copies) {
                (None, Some(Text(exported)), Some(copies)) => Ok(rescue::read(&copies, exported, self.take)),
                (why, ..) => Err(damaged(why.map(|why| why.to_string()))),
            };
        }
        let count = self.count.unwrap_or(0);
        if count > limits::ENTRIES {
            return Err(ImportError::TooLarge);
        }
        let too_high = self.highest.filter(|(id, _)| !limits::may_be_numbered(*id, count));
        let too_high = too_high.map(|(id, nth)| format!("entry {nth}: {id}: {}", limits::Beyond::Number));
        let why = self.damage.or(stumbled.map(|stumbled| stumbled.to_string())).or(too_high);
        match (why, self.count, self.exported, self.device) {
            (None, Some(_), Some(Text(exported)), Some(Text(device))) => {
                Ok(Head { exported, device, set_aside: self.set_aside.unwrap_or_default() })
            }
            (why, ..) => Err(damaged(why)),
        }
    }

    fn entry(&mut self, text: &str) {
        let nth = self.count.map_or(1, |count| count + 1);
        self.count = Some(nth);
        if self.damage.is_some() {
            return;
        }
        let read = Entry::read(text).map_err(|why| why.to_string());
        let within = |entry: &Entry| limits::check(entry).map_err(|beyond| format!("{}: {beyond}", entry.id));
        match read.and_then(|entry| within(&entry).map(|()| entry)) {
            Err(why) => self.damage = Some(format!("entry {nth}: {why}")),
            Ok(entry) => {
                self.highest = self.highest.filter(|(id, _)| *id > entry.id).or(Some((entry.id, nth)));
                (self.take)(entry);
            }
        }
    }
}

fn damaged(why: Option<String>) -> ImportError {
    ImportError::Damaged { why: why.unwrap_or("a field is missing".into()) }
}

/// The value of a field that may come once.
fn once<'de, M: MapAccess<'de>, T: serde::Deserialize<'de>>(
    field: &mut Option<T>,
    map: &mut M,
) -> Result<(), M::Error> {
    match field.replace(map.next_value()?) {
        None => Ok(()),
        Some(_) => Err(M::Error::custom("a field comes twice")),
    }
}

impl<'de> Visitor<'de> for &mut Reading<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a journal")
    }

    fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<(), M::Error> {
        while let Some(field) = map.next_key::<String>()? {
            match field.as_str() {
                "format" => once(&mut self.format, &mut map)?,
                "version" => once(&mut self.version, &mut map)?,
                "exported" => once(&mut self.exported, &mut map)?,
                "device" => once(&mut self.device, &mut map)?,
                "set_aside" => once(&mut self.set_aside, &mut map)?,
                "copies" => once(&mut self.copies, &mut map)?,
                "entries" if self.count.is_some() => return Err(M::Error::custom("a field comes twice")),
                "entries" => map.next_value_seed(Lines(self))?,
                _ => _ = map.next_value::<IgnoredAny>()?,
            }
            if self.is_decided() {
                return Err(M::Error::custom("not to be read on"));
            }
        }
        Ok(())
    }
}

/// The array of entries.
struct Lines<'a, 'b>(&'a mut Reading<'b>);

impl<'de> DeserializeSeed<'de> for Lines<'_, '_> {
    type Value = ();
    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for Lines<'_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("entries")
    }

    fn visit_seq<S: SeqAccess<'de>>(self, mut lines: S) -> Result<(), S::Error> {
        self.0.count = Some(0);
        while let Some(line) = lines.next_element::<Box<RawValue>>()? {
            self.0.entry(line.get());
            if self.0.is_decided() {
                return Err(S::Error::custom("not to be read on"));
            }
        }
        Ok(())
    }
}

/// What a file brought.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Brought {
    /// What became of its entries.
    pub merged: Merged,
    /// How many texts came with it that nobody could read, and were not here.
    pub set_aside: usize,
}

impl Entries {
    /// The union with what a file holds. Where it is refused, nothing is changed.
    ///
    /// # Errors
    /// What [`read`] says.
    pub fn take_in(&mut self, file: impl Read) -> Result<Brought, ImportError> {
        let mut union = self.union();
        let head = read(file, &mut |entry| union.take(entry))?;
        let merged = self.become_united(union.finish());
        let set_aside = head.set_aside.into_iter().filter(|aside| self.put_aside(aside.clone())).count();
        Ok(Brought { merged, set_aside })
    }
}
