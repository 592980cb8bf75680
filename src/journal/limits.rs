//! What a journal may hold: everything that an import is measured against, in one table.
//!
//! A file within these limits is read in bounded time and can be practised from. What this device writes is
//! shortened to them, so that every other device takes it. The limits of a passage (bars, onsets) are
//! [`crate::music::passage`]'s, those of a tempo [`crate::music::Bpm`]'s.

use crate::{
    journal::{Entry, EntryId, EntryKind, Piece, PieceEdit, ScoreFile, SnippetEdit},
    method::Snippet,
    music::{Marks, Onset},
};
use std::rc::Rc;

/// Largest file that is read, in bytes: some ten years of practice.
pub const FILE_BYTES: usize = 400 << 20;
/// Most entries: more than twice ten years at 400 repetitions a day.
pub const ENTRIES: usize = 4_000_000;
/// Most numbers that may be missing below an entry's own. Devices number their entries without a
/// gap, so that only lost entries are missing. Without a limit one wrong number near the highest
/// there is would leave none for the entries to come; with it, whatever this device writes after
/// an import is within the limit again.
pub const NUMBERS_MISSING: u64 = 1 << 32;
/// How deep brackets may stand within brackets.
pub const DEPTH: usize = 100;
/// Longest title, name, reminder, fingering or sign, in characters.
pub const TEXT_CHARS: usize = 1_000;
/// Longest kept score file, in characters of base 64.
pub const SCORE_CHARS: usize = 600_000;
/// Most notes that begin together, most grace notes before one, most signs at one.
pub const NOTES: usize = 100;

/// What of an entry is beyond its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// Its number, by [`NUMBERS_MISSING`].
    Number,
    /// Its brackets, by [`DEPTH`].
    Depth,
    /// A text, by [`TEXT_CHARS`].
    Text,
    /// A score file, by [`SCORE_CHARS`].
    Score,
    /// What stands at one onset, by [`NOTES`].
    Notes,
}

impl std::error::Error for Beyond {}

/// Whether an entry is within the limits, but for its number.
///
/// # Errors
/// What is [`Beyond`] its limit.
pub fn check(entry: &Entry) -> Result<(), Beyond> {
    match &entry.kind {
        EntryKind::PieceAdded(piece) | EntryKind::PieceChanged { to: piece, .. } => {
            texts([&piece.title, &piece.composer])
        }
        EntryKind::PieceEdited { to, .. } => texts(to.title.iter().chain(&to.composer)),
        EntryKind::ScoreKept { file, .. } => score(file),
        EntryKind::SnippetAdded { snippet, .. } | EntryKind::SnippetChanged { to: snippet, .. } => {
            check_snippet(snippet)
        }
        EntryKind::SnippetEdited { to, .. } => texts(&to.name),
        EntryKind::OnsetMarked { marks, .. } => texts(marks.fingers.values().chain([&marks.reminder])),
        EntryKind::Unknown(later) if later.depth() > DEPTH => Err(Beyond::Depth),
        _ => Ok(()),
    }
}

/// Whether an entry that is one of `count` can have come to its number.
pub fn may_be_numbered(id: EntryId, count: usize) -> bool {
    id.number <= count as u64 + NUMBERS_MISSING
}

fn texts<'a>(texts: impl IntoIterator<Item = &'a String>) -> Result<(), Beyond> {
    let fits = |text: &String| text.len() <= TEXT_CHARS || text.chars().count() <= TEXT_CHARS;
    texts.into_iter().all(fits).then_some(()).ok_or(Beyond::Text)
}

fn score(file: &ScoreFile) -> Result<(), Beyond> {
    if file.deflated.len() > SCORE_CHARS {
        return Err(Beyond::Score);
    }
    texts([&file.name])
}

fn check_snippet(snippet: &Snippet) -> Result<(), Beyond> {
    let name = snippet.name().to_string();
    texts(snippet.passage().bars().iter().map(|bar| &bar.number).chain([&name]))?;
    snippet.passage().onsets().iter().try_for_each(check_onset)
}

fn check_onset(onset: &Onset) -> Result<(), Beyond> {
    texts(&onset.dynamic)?;
    texts(onset.notes.iter().filter_map(|note| note.fingering.as_ref()))?;
    let notes = onset.notes.iter().map(|note| note.graces.len().max(note.articulations.len()));
    let most = notes.max().unwrap_or(0).max(onset.notes.len());
    (most <= NOTES).then_some(()).ok_or(Beyond::Notes)
}

/// The kind as this device writes it: texts that the player entered are shortened to the limit.
pub fn shortened(kind: EntryKind) -> EntryKind {
    match kind {
        EntryKind::PieceAdded(piece) => EntryKind::PieceAdded(shortened_piece(piece)),
        EntryKind::PieceChanged { piece, to } => EntryKind::PieceChanged { piece, to: shortened_piece(to) },
        EntryKind::PieceEdited { piece, to } => {
            let (title, composer) = (to.title.map(shortened_text), to.composer.map(shortened_text));
            EntryKind::PieceEdited { piece, to: PieceEdit { title, composer, ..to } }
        }
        EntryKind::ScoreKept { piece, file } => {
            EntryKind::ScoreKept { piece, file: ScoreFile { name: shortened_text(file.name), ..file } }
        }
        EntryKind::SnippetAdded { piece, snippet } => {
            EntryKind::SnippetAdded { piece, snippet: shortened_snippet(snippet) }
        }
        EntryKind::SnippetChanged { snippet, to } => EntryKind::SnippetChanged { snippet, to: shortened_snippet(to) },
        EntryKind::SnippetEdited { snippet, to } => {
            EntryKind::SnippetEdited { snippet, to: SnippetEdit { name: to.name.map(shortened_text), ..to } }
        }
        EntryKind::OnsetMarked { snippet, onset, marks } => {
            let fingers = marks.fingers.into_iter().map(|(hand, fingers)| (hand, shortened_text(fingers)));
            let marks = Marks { fingers: fingers.collect(), reminder: shortened_text(marks.reminder) };
            EntryKind::OnsetMarked { snippet, onset, marks }
        }
        other => other,
    }
}

fn shortened_piece(piece: Piece) -> Piece {
    Piece { title: shortened_text(piece.title), composer: shortened_text(piece.composer), ..piece }
}

fn shortened_snippet(snippet: Rc<Snippet>) -> Rc<Snippet> {
    if snippet.name().len() <= TEXT_CHARS {
        return snippet;
    }
    let name = shortened_text(snippet.name().into());
    Rc::new(Snippet::clone(&snippet).named(name))
}

fn shortened_text(mut text: String) -> String {
    if let Some((end, _)) = text.char_indices().nth(TEXT_CHARS) {
        text.truncate(end);
    }
    text
}
