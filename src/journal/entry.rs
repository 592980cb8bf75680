//! The journal's entries: each one thing that happened, on one device, once.

use crate::{
    clock::{Day, Moment},
    journal::{
        DeviceId, EntryId, PieceEdit, PieceId, Preference, ScoreFile, SnippetEdit, SnippetId,
        wire::{self, Later, NotAnEntry},
    },
    method::{Cause, Snippet, Step, Verdict},
    music::{Marks, Tempo},
};
use crc::{CRC_64_XZ, Crc, NoTable};
use std::rc::Rc;

/// Tells texts apart (CRC-64/XZ in the catalogue of parametrised CRC algorithms).
const FINGERPRINT: Crc<u64, NoTable> = Crc::<u64, NoTable>::new(&CRC_64_XZ);

/// One thing that happened, on one device, once.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Unique among all devices.
    pub id: EntryId,
    /// What the device's clock showed; for people, never for the order.
    pub at: Moment,
    /// What the entry says.
    pub kind: EntryKind,
}

/// A work being prepared.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// As the player calls it.
    pub title: String,
    /// Empty where the player named none.
    pub composer: String,
    /// Target tempo, where one is known.
    pub tempo: Option<Tempo>,
    /// Performance date.
    pub date: Option<Day>,
}

/// The kinds of entry. What a kind holds never changes: whatever a later version has to say besides is a kind of its
/// own, which this version passes on, or another version of the file, which it refuses. A known kind with an unknown
/// field is therefore damaged.
#[derive(Clone, Debug, PartialEq)]
#[expect(missing_docs, reason = "the fields say what they hold")]
pub enum EntryKind {
    /// A piece, known from now on by the entry's own identity.
    PieceAdded(Piece),
    /// All that is known of a piece, as it is from now on. Earlier versions wrote it; [`EntryKind::PieceEdited`]
    /// leaves the other fields to whoever changes them elsewhere.
    PieceChanged { piece: PieceId, to: Piece },
    /// Some fields of a piece, as they are from now on.
    PieceEdited { piece: PieceId, to: PieceEdit },
    /// A piece and its snippets are gone from the screens.
    PieceRemoved { piece: PieceId },
    /// All pieces in the player's order; those not named follow in the order they had.
    PiecesOrdered(Vec<PieceId>),
    /// The score that a piece has from now on.
    ScoreKept { piece: PieceId, file: ScoreFile },
    /// A snippet, known from now on by the entry's own identity.
    SnippetAdded { piece: PieceId, snippet: Rc<Snippet> },
    /// All that is known of a snippet, as it is from now on. Earlier versions wrote it for each change.
    SnippetChanged { snippet: SnippetId, to: Rc<Snippet> },
    /// Some fields of a snippet, as they are from now on.
    SnippetEdited { snippet: SnippetId, to: SnippetEdit },
    /// A snippet is gone from the screens.
    SnippetRemoved { snippet: SnippetId },
    /// All snippets of the piece in the player's order, as with pieces.
    SnippetsOrdered { piece: PieceId, snippets: Vec<SnippetId> },
    /// A preference, as it is from now on.
    Set(Preference),
    /// The player has so many minutes to practise, from this moment on.
    TimeGiven { minutes: u16 },
    /// The player sat down to a snippet.
    BlockBegan { snippet: SnippetId },
    /// One repetition, judged.
    Played { snippet: SnippetId, step: Step, verdict: Verdict },
    /// What was not yet right in a repetition.
    CauseNamed { repetition: EntryId, cause: Cause },
    /// At which onset of the snippet a repetition broke, by its index.
    BrokeAt { repetition: EntryId, onset: u16 },
    /// The player asked for another step than the coach's.
    Overruled { snippet: SnippetId, step: Step },
    /// The player stopped before the minutes were used.
    BlockEnded { snippet: SnippetId },
    /// The snippet is learned again from its first step.
    StartedAfresh { snippet: SnippetId },
    /// The player is content with the snippet: its block is over, and no other follows that day.
    GoodEnough { snippet: SnippetId },
    /// The player leaves the snippet out for the rest of that day.
    NotToday { snippet: SnippetId },
    /// The player practises the snippet before its rest is over, or once more than the day's share.
    RestOverruled { snippet: SnippetId },
    /// All the player's marks at an onset of the snippet, by its index, as they are from now on.
    OnsetMarked { snippet: SnippetId, onset: u16, marks: Marks },
    /// The entry counts no more. It is kept: a retraction can itself be retracted.
    Retracted { entry: EntryId },
    /// What a later version wrote: kept and passed on as it is.
    Unknown(Later),
}

impl EntryKind {
    /// The snippet to which this is something that happened in practising.
    pub fn practised(&self) -> Option<SnippetId> {
        match self {
            EntryKind::BlockBegan { snippet }
            | EntryKind::Played { snippet, .. }
            | EntryKind::Overruled { snippet, .. }
            | EntryKind::BlockEnded { snippet }
            | EntryKind::StartedAfresh { snippet }
            | EntryKind::GoodEnough { snippet }
            | EntryKind::NotToday { snippet }
            | EntryKind::RestOverruled { snippet } => Some(*snippet),
            _ => None,
        }
    }
}

impl Entry {
    /// Reads an entry as it was kept. What only a later version knows is an [`EntryKind::Unknown`]; a known
    /// kind with a damaged content is an error.
    ///
    /// # Errors
    /// [`NotAnEntry`] with what the reader could not read.
    pub fn read(text: &str) -> Result<Entry, NotAnEntry> {
        wire::read(text)
    }

    /// The same entry under a device of its own, derived from the entry's content alone, so that every device that
    /// finds two contents under one identity does the same.
    pub fn under_its_own_identity(&self) -> Entry {
        let device = DeviceId(FINGERPRINT.checksum(self.written().as_bytes()));
        Entry { id: EntryId { device, ..self.id }, ..self.clone() }
    }

    /// The entry as it is kept: one line of JSON.
    pub fn written(&self) -> String {
        wire::written(self)
    }
}
