//! The journal's entries, exactly as they are kept and exported.
//!
//! Refuses to know what entries add up to.

use super::{EntryId, PieceId, Setting, SnippetId};
use crate::{
    clock::{Day, Moment},
    method::{Cause, Snippet, Step, Verdict},
    music::Tempo,
};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::{fmt, rc::Rc};

/// One thing that happened, on one device, once.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    pub id: EntryId,
    /// What the device's clock showed; for people, never for the order.
    pub at: Moment,
    pub what: Event,
}

/// A work being prepared.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Piece {
    pub title: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub composer: String,
    /// Target tempo, where one is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tempo: Option<Tempo>,
    /// Performance date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Day>,
}

/// The score file a piece came from, kept as it was so that more can be read from it later:
/// deflated (RFC 1951) and written in base 64 (RFC 4648).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ScoreFile {
    /// As it was called on the device.
    pub name: String,
    pub deflated: Rc<str>,
}

/// The kinds of entry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Event {
    PieceAdded(Piece),
    PieceChanged {
        piece: PieceId,
        to: Piece,
    },
    PieceRemoved {
        piece: PieceId,
    },
    /// All pieces in the player's order; those not named follow in the order they had.
    PiecesOrdered(Vec<PieceId>),
    ScoreKept {
        piece: PieceId,
        file: ScoreFile,
    },
    SnippetAdded {
        piece: PieceId,
        snippet: Rc<Snippet>,
    },
    SnippetChanged {
        snippet: SnippetId,
        to: Rc<Snippet>,
    },
    SnippetRemoved {
        snippet: SnippetId,
    },
    /// All snippets of the piece in the player's order, as with pieces.
    SnippetsOrdered {
        piece: PieceId,
        snippets: Vec<SnippetId>,
    },
    Set(Setting),
    BlockBegan {
        snippet: SnippetId,
    },
    Played {
        snippet: SnippetId,
        step: Step,
        verdict: Verdict,
    },
    CauseNamed {
        repetition: EntryId,
        cause: Cause,
    },
    Overruled {
        snippet: SnippetId,
        step: Step,
    },
    BlockEnded {
        snippet: SnippetId,
    },
    StartedAfresh {
        snippet: SnippetId,
    },
    /// The entry counts no more. It is kept: a retraction can itself be retracted.
    Retracted {
        entry: EntryId,
    },
    /// A kind that a newer version wrote: kept and handed on as it is.
    #[serde(untagged, skip_deserializing)]
    Unknown(Value),
}

/// The kinds that this version reads, by the name they are written with.
pub const KINDS: [&str; 17] = [
    "piece_added",
    "piece_changed",
    "piece_removed",
    "pieces_ordered",
    "score_kept",
    "snippet_added",
    "snippet_changed",
    "snippet_removed",
    "snippets_ordered",
    "set",
    "block_began",
    "played",
    "cause_named",
    "overruled",
    "block_ended",
    "started_afresh",
    "retracted",
];

/// Why a text is no entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnEntry(String);

impl fmt::Display for NotAnEntry {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "it is not an entry of a journal ({})", self.0)
    }
}

impl std::error::Error for NotAnEntry {}

impl Entry {
    /// Reads an entry as it was kept. A kind that this version does not know is an
    /// [`Event::Unknown`]; a known kind with a damaged content is an error.
    ///
    /// # Errors
    /// [`NotAnEntry`] with what the reader stumbled over.
    pub fn read(text: &str) -> Result<Entry, NotAnEntry> {
        serde_json::from_str(text).or_else(|stumbled| later_kind(text).ok_or(NotAnEntry(stumbled.to_string())))
    }

    /// The entry as it is kept: one line of JSON.
    pub fn written(&self) -> String {
        serde_json::to_string(self).expect("an entry has text keys only, so it can be written as JSON")
    }
}

/// The entry, where its kind is one that only a newer version knows.
fn later_kind(text: &str) -> Option<Entry> {
    #[derive(Deserialize)]
    struct Raw {
        id: EntryId,
        at: Moment,
        what: Value,
    }
    let Raw { id, at, what } = serde_json::from_str(text).ok()?;
    let kind = match &what {
        Value::Object(fields) if fields.len() == 1 => fields.keys().next()?,
        _ => return None,
    };
    (!KINDS.contains(&kind.as_str())).then_some(Entry { id, at, what: Event::Unknown(what) })
}
