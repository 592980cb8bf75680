//! The study that a new journal begins with: invented for this program, there to be practised at
//! once. Its entries are written by a device of their own and are the same everywhere, so that a
//! union holds them once and a removal on one device removes it on all.

use crate::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryId, EntryKind, Piece, PieceId},
    method::Snippet,
    music::{
        Part,
        study::{self, Excerpt},
    },
};
use std::rc::Rc;

/// "study1" in base 36: the writer of this edition. Other notes need another writer.
const WRITER: DeviceId = DeviceId(1_743_179_545);

/// The study's entries, numbered from one: the piece, then its snippets.
pub fn entries() -> Vec<Entry> {
    let score = study::score();
    let Some(part) = score.parts.first() else { return Vec::new() };
    let tempo = part.bars.first().and_then(|bar| bar.tempo);
    let piece = Piece { title: score.title.clone(), composer: score.composer.clone(), tempo, date: None };
    let added = entry(1, EntryKind::PieceAdded(piece));
    let of = PieceId(added.id);
    let snippets = study::excerpts(part).into_iter().filter_map(|excerpt| snippet(part, excerpt));
    let snippets = snippets
        .zip(2..)
        .map(|(snippet, number)| entry(number, EntryKind::SnippetAdded { piece: of, snippet: Rc::new(snippet) }));
    std::iter::once(added).chain(snippets.collect::<Vec<_>>()).collect()
}

/// Whether the piece is the study, whose score comes with the program and is kept in no journal.
pub fn is_study(piece: PieceId) -> bool {
    is_supplied(piece.0)
}

/// Whether the entry comes with the program, so that no copy need hold it.
pub fn is_supplied(entry: EntryId) -> bool {
    is_writer(entry.device)
}

/// Whether the device is the one under which the study's entries are written.
pub fn is_writer(device: DeviceId) -> bool {
    device == WRITER
}

fn entry(number: u64, what: EntryKind) -> Entry {
    Entry { id: EntryId { number, device: WRITER }, at: Moment::new(0, 0), kind: what }
}

fn snippet(part: &Part, excerpt: Excerpt) -> Option<Snippet> {
    let tempo = part.bars.first()?.tempo?;
    let passage = part.cut(excerpt.bars, &part.usual_hands()).ok()?;
    Snippet::new(excerpt.name.into(), passage, excerpt.goal, tempo).ok()
}
