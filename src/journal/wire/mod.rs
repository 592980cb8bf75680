//! The form in which entries are kept and exported, apart from the types of the domain.
//!
//! Each type here mirrors one of the domain, with a conversion both ways. A name that this version does not know (a new
//! cause, preference or kind of entry) makes the whole entry one that a later version wrote: its text is kept and
//! passed on unchanged, and what can still be read of it counts. Anything else that does not fit is damage.

mod edit;
mod kind;
mod later;
mod music;
mod name;
mod practice;
mod text;

pub use later::Later;
pub use name::Name;
pub(super) use text::Text;

use crate::journal::{Entry, EntryKind};

use std::fmt;

/// The kinds of entry that this version reads, by the name they are written with.
pub const KINDS: [&str; 25] = [
    "piece_added",
    "piece_changed",
    "piece_edited",
    "piece_removed",
    "pieces_ordered",
    "score_kept",
    "snippet_added",
    "snippet_changed",
    "snippet_edited",
    "snippet_removed",
    "snippets_ordered",
    "set",
    "time_given",
    "block_began",
    "played",
    "cause_named",
    "broke_at",
    "overruled",
    "block_ended",
    "started_afresh",
    "retracted",
    "good_enough",
    "not_today",
    "onset_marked",
    "rest_overruled",
];

/// The preferences that this version reads, by the name they are written with.
pub const PREFERENCES: [&str; 6] = ["strictness", "block_minutes", "rest_minutes", "blocks_a_day", "click", "theme"];

/// Why what was read is not a value of this version.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Only a later version knows it.
    Later,
    /// What is wrong with it.
    Damaged(String),
}

impl<E: std::error::Error> From<E> for Unread {
    fn from(error: E) -> Unread {
        Unread::Damaged(error.to_string())
    }
}

/// Why a text is no entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnEntry(String);

impl fmt::Display for NotAnEntry {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "it is not an entry of a journal ({})", self.0)
    }
}

impl std::error::Error for NotAnEntry {}

/// Reads one line.
///
/// # Errors
/// [`NotAnEntry`] with what the reader could not read.
pub(super) fn read(line: &str) -> Result<Entry, NotAnEntry> {
    let mut entry: kind::Entry = match serde_json::from_str(line) {
        Ok(entry) => entry,
        Err(stumbled) => return later::unknown_kind(line).ok_or(NotAnEntry(stumbled.to_string())),
    };
    let later = entry.kind.leave_later_values_out();
    match EntryKind::try_from(entry.kind) {
        Ok(kind) if !later => Ok(Entry { id: entry.id.0, at: entry.at.0, kind }),
        Err(Unread::Damaged(why)) => Err(NotAnEntry(why)),
        read => later::known_kind(line, read.ok()).ok_or_else(|| NotAnEntry("it holds a value twice".into())),
    }
}

/// Writes one line.
pub(super) fn written(entry: &Entry) -> String {
    let line = match kind::EntryKind::of(&entry.kind) {
        Ok(kind) => serde_json::to_string(&kind::Entry { id: Text(entry.id), at: Text(entry.at), kind }),
        Err(later) => later::written(entry, later),
    };
    line.expect("an entry has text keys only, so it can be written as JSON")
}

fn default_of<T: Default>() -> T {
    T::default()
}

fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// The derived reader lists every name it knows when it meets an unknown one.
    #[test]
    fn the_tables_of_kinds_and_settings_are_those_of_the_reader() {
        let kinds = serde_json::from_str::<kind::EntryKind>(r#"{"unheard_of":0}"#).err();
        let preferences = serde_json::from_str::<kind::Preference>(r#"{"unheard_of":0}"#).err();
        for (stumbled, table) in [(kinds, &KINDS[..]), (preferences, &PREFERENCES)] {
            let said = stumbled.expect("nothing of that name").to_string();
            let known: BTreeSet<&str> = said.split('`').skip(3).step_by(2).collect();
            assert_eq!(known, table.iter().copied().collect());
        }
    }
}
