//! A snippet as it stands, with all that has happened to it in the order in which it was played.
//!
//! What one device wrote stays in the order of its numbers, whatever its clock showed. Two devices that
//! practised apart know nothing of each other's numbers, so that their blocks go by their clocks; no block is
//! torn apart by another.

use crate::{
    clock::Moment,
    journal::{Entry, EntryId, PieceId},
    method::{Cause, Happening, HappeningKind, Snippet, Verdict},
    music::Marks,
    sort,
};
use std::{collections::BTreeMap, rc::Rc};

/// A snippet as it stands, with all that has happened to it.
#[derive(Clone, Debug)]
pub struct SnippetRecord {
    /// The piece it belongs to.
    pub piece: PieceId,
    /// As it was changed last.
    pub snippet: Rc<Snippet>,
    /// The player's marks, by the index of their onset.
    pub marks: Rc<BTreeMap<usize, Marks>>,
    history: Vec<Happening>,
    /// The entry behind each happening.
    entries: Vec<EntryId>,
    /// What the entries of a later version speak of: this snippet, or a repetition of it.
    later: Vec<EntryId>,
    /// What the history is made of, without a gap.
    stretches: Vec<Stretch>,
}

/// The stretches follow from the rest.
impl PartialEq for SnippetRecord {
    fn eq(&self, other: &SnippetRecord) -> bool {
        let SnippetRecord { piece, snippet, marks, history, entries, later, stretches: _ } = self;
        (piece, snippet, marks, history, entries, later)
            == (&other.piece, &other.snippet, &other.marks, &other.history, &other.entries, &other.later)
    }
}

/// A part of the history that one device wrote in one go: a block, or what was said outside of one.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    /// When it began, but never before the device's stretch before it.
    began: Moment,
    first: EntryId,
    /// The index in the history behind its last.
    end: usize,
}

impl SnippetRecord {
    pub(super) fn new(piece: PieceId, snippet: Rc<Snippet>) -> SnippetRecord {
        let (marks, history, entries, later, stretches) = (Rc::default(), vec![], vec![], vec![], vec![]);
        SnippetRecord { piece, snippet, marks, history, entries, later, stretches }
    }

    /// What happened to the snippet, in order.
    pub fn history(&self) -> &[Happening] {
        &self.history
    }

    /// The entry behind the happening at `index` of the history.
    pub fn entry(&self, index: usize) -> Option<EntryId> {
        self.entries.get(index).copied()
    }

    /// The latest repetition's entry and its happening.
    pub fn last_repetition(&self) -> Option<(EntryId, &Happening)> {
        let played = |happening: &&Happening| matches!(happening.kind, HappeningKind::Played { .. });
        let newest_first = self.entries.iter().zip(&self.history).rev();
        newest_first.map(|(id, happening)| (*id, happening)).find(|(_, happening)| played(happening))
    }

    /// How many entries about the snippet and its repetitions a later version wrote.
    pub fn written_later(&self) -> usize {
        self.later.len()
    }

    /// An entry of a later version speaks of this snippet, or of a repetition of it.
    pub(super) fn note_later(&mut self, about: EntryId) {
        self.later.push(about);
    }

    /// How the latest repetition was judged.
    pub fn last_verdict(&self) -> Option<Verdict> {
        match self.last_repetition()?.1.kind {
            HappeningKind::Played { verdict, .. } => Some(verdict),
            _ => None,
        }
    }

    pub(super) fn mark(&mut self, onset: usize, marks: &Marks) {
        let all = Rc::make_mut(&mut self.marks);
        match marks.is_empty() {
            true => _ = all.remove(&onset),
            false => _ = all.insert(onset, marks.clone()),
        }
    }

    /// Where in the history the entry stands. Its stretch is the last of its device that began before it.
    pub(super) fn place(&self, entry: EntryId) -> Option<usize> {
        let its = |stretch: &Stretch| stretch.first.device == entry.device && stretch.first <= entry;
        let stretch = self.stretches.iter().rposition(its)?;
        let (start, end) = (self.start(stretch), self.stretches[stretch].end);
        Some(start + self.entries[start..end].binary_search(&entry).ok()?)
    }

    fn start(&self, stretch: usize) -> usize {
        stretch.checked_sub(1).map_or(0, |before| self.stretches[before].end)
    }

    /// Takes in what happened next on its device.
    pub(super) fn happened(&mut self, entry: &Entry, what: HappeningKind) {
        self.insert(entry.id, Happening { at: entry.at, kind: what });
    }

    fn insert(&mut self, id: EntryId, happening: Happening) {
        let own = self.stretches.iter().rposition(|stretch| stretch.first.device == id.device);
        let stretch = match own {
            Some(own) if !begins_a_stretch(&happening.kind) => own,
            _ => self.begin_stretch(id, own.map_or(happening.at, |own| happening.at.max(self.stretches[own].began))),
        };
        let place = self.stretches[stretch].end;
        self.history.insert(place, happening);
        self.entries.insert(place, id);
        self.stretches[stretch..].iter_mut().for_each(|stretch| stretch.end += 1);
    }

    /// An empty stretch among the others.
    fn begin_stretch(&mut self, first: EntryId, began: Moment) -> usize {
        let place = self.stretches.partition_point(|stretch| (stretch.began, stretch.first) < (began, first));
        let end = self.start(place);
        self.stretches.insert(place, Stretch { began, first, end });
        place
    }

    /// Names what was not yet right in a repetition.
    pub(super) fn name_cause(&mut self, index: usize, named: Cause) {
        if let HappeningKind::Played { cause, .. } = &mut self.history[index].kind {
            *cause = Some(named);
        }
    }

    /// Says at which onset a repetition broke.
    pub(super) fn broke_at(&mut self, index: usize, onset: usize) {
        if let HappeningKind::Played { broke_at, .. } = &mut self.history[index].kind {
            *broke_at = Some(onset);
        }
    }

    /// Takes out one happening; the rest stands as if it had never been.
    pub(super) fn take_out(&mut self, index: usize) {
        let id = self.entries.remove(index);
        self.history.remove(index);
        self.later.retain(|about| *about != id);
        let stretch = self.stretches.partition_point(|stretch| stretch.end <= index);
        if self.stretches[stretch].first != id {
            self.stretches[stretch..].iter_mut().for_each(|stretch| stretch.end -= 1);
            return;
        }
        // What followed it belongs to another stretch now, which may stand elsewhere.
        let mut left: Vec<_> = self.entries.drain(..).zip(self.history.drain(..)).collect();
        sort::by_key(&mut left, |(id, _)| *id);
        self.stretches.clear();
        left.into_iter().for_each(|(id, happening)| self.insert(id, happening));
    }
}

/// What happens outside of a block, or begins one.
fn begins_a_stretch(what: &HappeningKind) -> bool {
    use HappeningKind::*;
    matches!(what, BlockBegan(_) | StartedAfresh | NotToday | RestOverruled)
}
