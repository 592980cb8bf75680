//! What a later version wrote: kept unchanged, and read as far as this version can.

use crate::{
    clock::Moment,
    journal::{
        Entry, EntryId, EntryKind,
        wire::{KINDS, PREFERENCES, Text, name::is_name},
    },
};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::collections::BTreeMap;

/// A JSON object with the kind of entry as its only key, as a later version wrote it.
#[derive(Clone, Debug)]
pub struct Later {
    text: Box<RawValue>,
    readable: Option<Box<EntryKind>>,
    about: Option<EntryId>,
}

impl Later {
    /// What this version can read of it. The rest is kept, but shows nowhere.
    pub fn readable(&self) -> Option<&EntryKind> {
        self.readable.as_deref()
    }

    /// The repetition or the snippet that it speaks of, if it does so as entries of this version do.
    pub fn about(&self) -> Option<EntryId> {
        self.about
    }

    /// How deep brackets stand within brackets.
    pub fn depth(&self) -> usize {
        let (mut depth, mut deepest) = (0_usize, 0);
        for letter in outside_strings(self.text.get()) {
            match letter {
                '[' | '{' => depth += 1,
                ']' | '}' => depth -= 1,
                _ => {}
            }
            deepest = deepest.max(depth);
        }
        deepest
    }
}

impl PartialEq for Later {
    fn eq(&self, other: &Later) -> bool {
        self.text.get() == other.text.get()
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line<'a> {
    id: Text<EntryId>,
    at: Text<Moment>,
    #[serde(borrow)]
    what: &'a RawValue,
}

/// The entry, where its kind or its preference is one that only a later version knows.
pub fn unknown_kind(line: &str) -> Option<Entry> {
    let raw: Line = serde_json::from_str(line).ok()?;
    let (kind, content) = only_field(raw.what)?;
    let later = if kind == "set" { is_later(&only_field(content)?.0, &PREFERENCES) } else { is_later(&kind, &KINDS) };
    later.then(|| entry(&raw, None)).flatten()
}

fn only_field(object: &RawValue) -> Option<(String, &RawValue)> {
    let mut fields: BTreeMap<String, &RawValue> = serde_json::from_str(object.get()).ok()?;
    (fields.len() == 1).then(|| fields.pop_first()).flatten()
}

fn is_later(name: &str, known: &[&str]) -> bool {
    is_name(name) && !known.contains(&name)
}

/// The entry of a known kind in which a value is one that only a later version knows; `readable` is what
/// is left of it without that value.
pub fn known_kind(line: &str, readable: Option<EntryKind>) -> Option<Entry> {
    entry(&serde_json::from_str(line).ok()?, readable.map(Box::new))
}

fn entry(raw: &Line, readable: Option<Box<EntryKind>>) -> Option<Entry> {
    let text = RawValue::from_string(without_blanks(raw.what.get())).ok()?;
    let later = Later { text, readable, about: about(raw.what) };
    Some(Entry { id: raw.id.0, at: raw.at.0, kind: EntryKind::Unknown(later) })
}

fn about(what: &RawValue) -> Option<EntryId> {
    let (_, content) = only_field(what)?;
    let fields: BTreeMap<String, &RawValue> = serde_json::from_str(content.get()).ok()?;
    let named = ["repetition", "snippet"].iter().find_map(|name| fields.get(*name))?;
    serde_json::from_str::<Text<EntryId>>(named.get()).ok().map(|id| id.0)
}

/// The line as it is kept.
pub fn written(entry: &Entry, later: &Later) -> serde_json::Result<String> {
    serde_json::to_string(&Line { id: Text(entry.id), at: Text(entry.at), what: &later.text })
}

/// The same JSON without the white space between its parts.
fn without_blanks(json: &str) -> String {
    let mut inside = in_strings();
    json.chars().filter(|letter| inside(*letter) || !letter.is_ascii_whitespace()).collect()
}

/// The characters of the JSON outside its strings.
fn outside_strings(json: &str) -> impl Iterator<Item = char> {
    let mut inside = in_strings();
    json.chars().filter(move |letter| !inside(*letter))
}

/// For each character of a JSON text, in order, whether it is inside a string; the quotes are not.
fn in_strings() -> impl FnMut(char) -> bool {
    let (mut quoted, mut escaped) = (false, false);
    move |letter| {
        let quote = letter == '"' && !escaped;
        let inside = quoted && !quote;
        quoted ^= quote;
        escaped = inside && letter == '\\' && !escaped;
        inside
    }
}
