//! The fold: what all entries, taken in order, add up to.

use crate::{
    clock::Moment,
    journal::{
        Entry, EntryId, EntryKind, Item, Piece, PieceId, Preferences, Removed, ScoreFile, SnippetId, SnippetRecord,
        at_hand::AtHand,
    },
    method::{HappeningKind, Snippet},
    sort,
};
use std::{collections::BTreeMap, rc::Rc};

/// A piece as it stands, with its snippets in the player's order.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceRecord {
    /// The entry that added it.
    pub id: PieceId,
    /// What the player calls it.
    pub piece: Piece,
    /// The file it is read from, if it has one.
    pub score: Option<ScoreFile>,
    /// In the player's order.
    pub snippets: Vec<SnippetId>,
}

/// Everything the screens show.
#[derive(Clone, Debug, Default)]
pub struct State {
    pieces: Vec<PieceRecord>,
    snippets: AtHand<SnippetId, SnippetRecord>,
    removed: Vec<Removed>,
    written_later: usize,
    /// As they were set last.
    pub preferences: Preferences,
    /// From when on the player has had so many minutes to practise, as they said last.
    pub time_given: Option<(Moment, u16)>,
    /// Where something happened last, by the numbers of entries: what is said of a happening mostly follows it.
    latest: Option<SnippetId>,
}

impl PartialEq for State {
    fn eq(&self, other: &State) -> bool {
        let State { pieces, snippets, removed, written_later, preferences, time_given, latest: _ } = self;
        let State { preferences: others, .. } = other;
        (pieces, snippets, removed) == (&other.pieces, &other.snippets, &other.removed)
            && (written_later, preferences, time_given) == (&other.written_later, others, &other.time_given)
    }
}

impl State {
    /// The fold over `entries`, which come in the order of their identities with retracted ones
    /// and retractions left out.
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> State {
        let mut state = State::default();
        entries.into_iter().for_each(|entry| state.take(entry));
        state
    }

    /// The pieces in the player's order.
    pub fn pieces(&self) -> &[PieceRecord] {
        &self.pieces
    }

    /// A piece, unless it was removed.
    pub fn piece(&self, id: PieceId) -> Option<&PieceRecord> {
        self.pieces.iter().find(|record| record.id == id)
    }

    /// A snippet, unless it or its piece was removed.
    pub fn snippet(&self, id: SnippetId) -> Option<&SnippetRecord> {
        self.snippets.get(id)
    }

    /// All snippets, piece by piece in the player's order.
    pub fn snippets(&self) -> impl Iterator<Item = (SnippetId, &SnippetRecord)> + Clone {
        let ids = self.pieces.iter().flat_map(|piece| &piece.snippets);
        ids.filter_map(|id| Some((*id, self.snippets.get(*id)?)))
    }

    /// The snippet to which something happened last.
    pub fn latest(&self) -> Option<&SnippetRecord> {
        self.snippet(self.latest?)
    }

    /// What has been removed and can be brought back, the latest first; no snippet of a piece that is
    /// itself removed.
    pub fn removed(&self) -> impl Iterator<Item = &Removed> {
        let there = |removed: &&Removed| removed.of.as_ref().is_none_or(|(piece, _)| self.piece(*piece).is_some());
        self.removed.iter().rev().filter(there)
    }

    /// How many entries a later version wrote. They are kept; this version shows of them what it can read.
    pub fn written_later(&self) -> usize {
        self.written_later
    }

    /// Takes one more entry in. What speaks of a piece, snippet or repetition that is not there
    /// changes nothing: it was removed, or its entry has not been merged yet.
    pub fn take(&mut self, entry: &Entry) {
        self.take_as(entry, &entry.kind);
    }

    fn take_as(&mut self, entry: &Entry, what: &EntryKind) {
        match what {
            EntryKind::PieceAdded(piece) => self.add_piece(PieceId(entry.id), piece),
            EntryKind::PieceChanged { piece, to } => self.change_piece(*piece, |record| record.piece = to.clone()),
            EntryKind::PieceEdited { piece, to } => self.change_piece(*piece, |record| to.apply(&mut record.piece)),
            EntryKind::PieceRemoved { piece } => self.remove_piece(*piece, entry),
            EntryKind::PiecesOrdered(order) => {
                let place = places(order.iter().map(|piece| piece.0));
                sort::by_key(&mut self.pieces, |record| place(record.id.0));
            }
            EntryKind::ScoreKept { piece, file } => {
                self.change_piece(*piece, |record| record.score = Some(file.clone()));
            }
            EntryKind::SnippetsOrdered { piece, snippets } => {
                let place = places(snippets.iter().map(|snippet| snippet.0));
                self.change_piece(*piece, |record| sort::by_key(&mut record.snippets, |snippet| place(snippet.0)));
            }
            EntryKind::SnippetAdded { piece, snippet } => self.add_snippet(SnippetId(entry.id), *piece, snippet),
            EntryKind::SnippetChanged { snippet, to } => {
                self.change_snippet(*snippet, |record| record.snippet = to.clone());
            }
            EntryKind::SnippetEdited { snippet, to } => {
                self.change_snippet(*snippet, |record| record.snippet = Rc::new(to.applied(&record.snippet)));
            }
            EntryKind::SnippetRemoved { snippet } => self.remove_snippet(*snippet, entry),
            EntryKind::Set(preference) => self.preferences.set(*preference),
            EntryKind::TimeGiven { minutes } => self.time_given = Some((entry.at, *minutes)),
            EntryKind::CauseNamed { repetition, cause } => {
                let named = self.happening(*repetition);
                named.into_iter().for_each(|(record, index)| record.name_cause(index, *cause));
            }
            EntryKind::BrokeAt { repetition, onset } => {
                let broken = self.happening(*repetition);
                broken.into_iter().for_each(|(record, index)| record.broke_at(index, usize::from(*onset)));
            }
            EntryKind::BlockBegan { snippet } => {
                self.happened(*snippet, entry, HappeningKind::BlockBegan(self.preferences.method));
            }
            EntryKind::Played { snippet, step, verdict } => {
                let played = HappeningKind::Played { step: *step, verdict: *verdict, cause: None, broke_at: None };
                self.happened(*snippet, entry, played);
            }
            EntryKind::Overruled { snippet, step } => {
                self.happened(*snippet, entry, HappeningKind::Overruled(*step));
            }
            EntryKind::BlockEnded { snippet } => self.happened(*snippet, entry, HappeningKind::BlockEnded),
            EntryKind::StartedAfresh { snippet } => self.happened(*snippet, entry, HappeningKind::StartedAfresh),
            EntryKind::GoodEnough { snippet } => self.happened(*snippet, entry, HappeningKind::GoodEnough),
            EntryKind::NotToday { snippet } => self.happened(*snippet, entry, HappeningKind::NotToday),
            EntryKind::RestOverruled { snippet } => self.happened(*snippet, entry, HappeningKind::RestOverruled),
            EntryKind::OnsetMarked { snippet, onset, marks } => {
                self.change_snippet(*snippet, |record| record.mark(usize::from(*onset), marks));
            }
            EntryKind::Unknown(later) => {
                later.readable().into_iter().for_each(|readable| self.take_as(entry, readable));
                self.written_later += 1;
                later.about().into_iter().for_each(|about| self.note_later(about));
            }
            EntryKind::Retracted { .. } => {}
        }
    }

    /// Takes what happened to a snippet back out, leaving what a fold without it would give. `false` where `entry` is
    /// none of that and the fold has to be made again.
    pub(super) fn take_back(&mut self, entry: EntryId) -> bool {
        let Some((record, index)) = self.happening(entry) else { return false };
        record.take_out(index);
        true
    }

    /// Where something happened: the snippet's record and the place in its history.
    fn happening(&mut self, entry: EntryId) -> Option<(&mut SnippetRecord, usize)> {
        let place = |id, record: &SnippetRecord| record.place(entry).map(|place| (id, place));
        let latest = self.latest.and_then(|id| place(id, self.snippets.get(id)?));
        let (id, place) = latest.or_else(|| self.snippets.iter().find_map(|(id, record)| place(id, record)))?;
        Some((self.snippets.get_mut(id)?, place))
    }

    fn piece_mut(&mut self, id: PieceId) -> Option<&mut PieceRecord> {
        self.pieces.iter_mut().find(|record| record.id == id)
    }

    fn change_piece(&mut self, id: PieceId, change: impl FnOnce(&mut PieceRecord)) {
        if let Some(record) = self.piece_mut(id) {
            change(record);
        }
    }

    fn change_snippet(&mut self, id: SnippetId, change: impl FnOnce(&mut SnippetRecord)) {
        if let Some(record) = self.snippets.get_mut(id) {
            change(record);
        }
    }

    fn add_piece(&mut self, id: PieceId, piece: &Piece) {
        self.pieces.push(PieceRecord { id, piece: piece.clone(), score: None, snippets: Vec::new() });
    }

    fn add_snippet(&mut self, id: SnippetId, piece: PieceId, snippet: &Rc<Snippet>) {
        if let Some(record) = self.piece_mut(piece) {
            record.snippets.push(id);
            self.snippets.insert(id, SnippetRecord::new(piece, snippet.clone()));
        }
    }

    fn remove_snippet(&mut self, id: SnippetId, by: &Entry) {
        let Some(record) = self.snippets.remove(id) else { return self.remove_again(Item::Snippet(id), by) };
        let title = self.piece_mut(record.piece).map(|piece| {
            piece.snippets.retain(|other| *other != id);
            piece.piece.title.clone()
        });
        let (item, name) = (Item::Snippet(id), record.snippet.name().to_string());
        let of = title.map(|title| (record.piece, title));
        self.removed.push(Removed { item, name, of, at: by.at, entries: vec![by.id] });
    }

    fn remove_piece(&mut self, id: PieceId, by: &Entry) {
        let Some(index) = self.pieces.iter().position(|record| record.id == id) else {
            return self.remove_again(Item::Piece(id), by);
        };
        let record = self.pieces.remove(index);
        record.snippets.iter().for_each(|snippet| _ = self.snippets.remove(*snippet));
        let (item, name) = (Item::Piece(id), record.piece.title);
        self.removed.push(Removed { item, name, of: None, at: by.at, entries: vec![by.id] });
    }

    /// Another entry removes what is gone already.
    fn remove_again(&mut self, item: Item, by: &Entry) {
        let known = self.removed.iter_mut().find(|known| known.item == item);
        known.into_iter().for_each(|known| known.entries.push(by.id));
    }

    fn happened(&mut self, snippet: SnippetId, entry: &Entry, what: HappeningKind) {
        if let Some(record) = self.snippets.get_mut(snippet) {
            record.happened(entry, what);
            self.latest = Some(snippet);
        }
    }

    fn note_later(&mut self, about: EntryId) {
        let record = match self.snippets.get(SnippetId(about)) {
            Some(_) => self.snippets.get_mut(SnippetId(about)),
            None => self.happening(about).map(|(record, _)| record),
        };
        record.into_iter().for_each(|record| record.note_later(about));
    }
}

/// Where an item stands in the player's order. What is named twice stands where it is named
/// first; all that is not named comes last and keeps its own order.
fn places(order: impl Iterator<Item = EntryId>) -> impl Fn(EntryId) -> usize {
    let mut places = BTreeMap::new();
    for (place, item) in order.enumerate() {
        places.entry(item).or_insert(place);
    }
    move |item| places.get(&item).copied().unwrap_or(usize::MAX)
}
