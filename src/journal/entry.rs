//! The journal's entries, exactly as they are kept and exported.

use super::{EntryId, PieceId, ScoreFile, Setting, SnippetId};
use crate::{
    clock::{Day, Moment},
    method::{Cause, Snippet, Step, Verdict},
    music::{Marks, Tempo},
};
use serde::{Deserialize, Serialize, Serializer, de::IgnoredAny};
use serde_json::value::RawValue;
use std::{collections::BTreeMap, fmt, rc::Rc};

/// One thing that happened, on one device, once.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    pub id: EntryId,
    /// What the device's clock showed; for people, never for the order.
    pub at: Moment,
    #[serde(serialize_with = "write_event")]
    pub what: Event,
}

/// A work being prepared.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
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

/// The kinds of entry. What a kind holds never changes: whatever a later version has to say besides
/// is a kind of its own, which this version hands on, or another version of the file, which it
/// refuses. A known kind with an unknown field is therefore damaged.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
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
    /// The player is content with the snippet: its block is over, and no other follows that day.
    GoodEnough {
        snippet: SnippetId,
    },
    /// The player leaves the snippet out for the rest of that day.
    NotToday {
        snippet: SnippetId,
    },
    /// All the player's marks at an onset of the snippet, by its index, as they are from now on.
    OnsetMarked {
        snippet: SnippetId,
        onset: u16,
        marks: Marks,
    },
    /// The entry counts no more. It is kept: a retraction can itself be retracted.
    Retracted {
        entry: EntryId,
    },
    /// A kind that a newer version wrote: kept and handed on as it is.
    #[serde(skip)]
    Unknown(Later),
}

impl Event {
    /// The snippet to which this is something that happened in practising.
    pub fn practised(&self) -> Option<SnippetId> {
        match self {
            Event::BlockBegan { snippet }
            | Event::Played { snippet, .. }
            | Event::Overruled { snippet, .. }
            | Event::BlockEnded { snippet }
            | Event::StartedAfresh { snippet }
            | Event::GoodEnough { snippet }
            | Event::NotToday { snippet } => Some(*snippet),
            _ => None,
        }
    }
}

/// What a newer version wrote, to the letter: a JSON object with the kind as its only key.
#[derive(Clone, Debug)]
pub struct Later(Box<RawValue>);

impl PartialEq for Later {
    fn eq(&self, other: &Later) -> bool {
        self.0.get() == other.0.get()
    }
}

fn write_event<S: Serializer>(what: &Event, to: S) -> Result<S::Ok, S::Error> {
    match what {
        Event::Unknown(Later(text)) => text.serialize(to),
        known => known.serialize(to),
    }
}

/// The kinds that this version reads, by the name they are written with.
pub const KINDS: [&str; 20] = [
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
    "good_enough",
    "not_today",
    "onset_marked",
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
    #[serde(deny_unknown_fields)]
    struct Raw<'a> {
        id: EntryId,
        at: Moment,
        #[serde(borrow)]
        what: &'a RawValue,
    }
    let Raw { id, at, what } = serde_json::from_str(text).ok()?;
    let fields: BTreeMap<String, IgnoredAny> = serde_json::from_str(what.get()).ok()?;
    let known = fields.keys().any(|kind| KINDS.contains(&kind.as_str()));
    if known || fields.len() != 1 {
        return None;
    }
    let later = RawValue::from_string(without_blanks(what.get())).ok()?;
    Some(Entry { id, at, what: Event::Unknown(Later(later)) })
}

/// The same JSON without the blanks between its parts.
fn without_blanks(json: &str) -> String {
    let (mut quoted, mut escaped) = (false, false);
    let keep = |letter: &char| {
        let blank = !quoted && letter.is_ascii_whitespace();
        quoted ^= *letter == '"' && !escaped;
        escaped = quoted && *letter == '\\' && !escaped;
        !blank
    };
    json.chars().filter(keep).collect()
}
