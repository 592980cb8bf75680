//! The kinds of entry as they are written in the file.

use crate::{
    clock::{Day, Moment},
    journal::{
        self, EntryId, PieceId, SnippetId, Theme,
        wire::{
            Later, Name, Text, Unread,
            edit::{PieceEdit, SnippetEdit},
            music as written,
            practice::{Snippet, Step},
        },
    },
    method::{Cause, Strictness, Verdict},
    pulse::Click,
};
use serde::{Deserialize, Serialize};
use std::rc::Rc;

type Id = Text<EntryId>;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    pub id: Id,
    pub at: Text<Moment>,
    #[serde(rename = "what")]
    pub kind: EntryKind,
}

/// The kinds that this version reads. Names and fields never change; [`journal::EntryKind`] says what they mean.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum EntryKind {
    PieceAdded(Piece),
    PieceChanged { piece: Id, to: Piece },
    PieceEdited { piece: Id, to: PieceEdit },
    PieceRemoved { piece: Id },
    PiecesOrdered(Vec<Id>),
    ScoreKept { piece: Id, file: ScoreFile },
    SnippetAdded { piece: Id, snippet: Snippet },
    SnippetChanged { snippet: Id, to: Snippet },
    SnippetEdited { snippet: Id, to: SnippetEdit },
    SnippetRemoved { snippet: Id },
    SnippetsOrdered { piece: Id, snippets: Vec<Id> },
    Set(Preference),
    TimeGiven { minutes: u16 },
    BlockBegan { snippet: Id },
    Played { snippet: Id, step: Step, verdict: Name<Verdict> },
    CauseNamed { repetition: Id, cause: Name<Cause> },
    BrokeAt { repetition: Id, onset: u16 },
    Overruled { snippet: Id, step: Step },
    BlockEnded { snippet: Id },
    StartedAfresh { snippet: Id },
    GoodEnough { snippet: Id },
    NotToday { snippet: Id },
    RestOverruled { snippet: Id },
    OnsetMarked { snippet: Id, onset: u16, marks: written::Marks },
    Retracted { entry: Id },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    title: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    composer: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tempo: Option<written::Tempo>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    date: Option<Text<Day>>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScoreFile {
    name: String,
    deflated: Rc<str>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Preference {
    Strictness(Name<Strictness>),
    BlockMinutes(u32),
    RestMinutes(u32),
    BlocksADay(u32),
    Click(Name<Click>),
    Theme(Name<Theme>),
}

impl EntryKind {
    /// Leaves out what only a later version knows and this one can do without; says whether there was any.
    pub fn leave_later_values_out(&mut self) -> bool {
        match self {
            EntryKind::SnippetAdded { snippet, .. } | EntryKind::SnippetChanged { to: snippet, .. } => {
                snippet.leave_later_values_out()
            }
            EntryKind::SnippetEdited { to, .. } => to.leave_later_values_out(),
            _ => false,
        }
    }
}

impl From<&journal::Piece> for Piece {
    fn from(piece: &journal::Piece) -> Piece {
        Piece {
            title: piece.title.clone(),
            composer: piece.composer.clone(),
            tempo: piece.tempo.map(written::Tempo::from),
            date: piece.date.map(Text),
        }
    }
}

impl TryFrom<Piece> for journal::Piece {
    type Error = Unread;
    fn try_from(piece: Piece) -> Result<Self, Unread> {
        let tempo = piece.tempo.map(TryInto::try_into).transpose()?;
        let date = piece.date.map(|date| date.0);
        Ok(journal::Piece { title: piece.title, composer: piece.composer, tempo, date })
    }
}

impl From<&journal::ScoreFile> for ScoreFile {
    fn from(file: &journal::ScoreFile) -> ScoreFile {
        ScoreFile { name: file.name.clone(), deflated: Rc::clone(&file.deflated) }
    }
}

impl From<ScoreFile> for journal::ScoreFile {
    fn from(ScoreFile { name, deflated }: ScoreFile) -> journal::ScoreFile {
        journal::ScoreFile { name, deflated }
    }
}

impl From<journal::Preference> for Preference {
    fn from(preference: journal::Preference) -> Preference {
        use journal::Preference::*;
        match preference {
            Strictness(strictness) => Preference::Strictness(Name::Known(strictness)),
            BlockMinutes(minutes) => Preference::BlockMinutes(minutes),
            RestMinutes(minutes) => Preference::RestMinutes(minutes),
            BlocksADay(blocks) => Preference::BlocksADay(blocks),
            Click(click) => Preference::Click(Name::Known(click)),
            Theme(theme) => Preference::Theme(Name::Known(theme)),
        }
    }
}

impl TryFrom<Preference> for journal::Preference {
    type Error = Unread;
    fn try_from(preference: Preference) -> Result<Self, Unread> {
        use journal::Preference::*;
        Ok(match preference {
            Preference::Strictness(strictness) => Strictness(strictness.known()?),
            Preference::BlockMinutes(minutes) => BlockMinutes(minutes),
            Preference::RestMinutes(minutes) => RestMinutes(minutes),
            Preference::BlocksADay(blocks) => BlocksADay(blocks),
            Preference::Click(click) => Click(click.known()?),
            Preference::Theme(theme) => Theme(theme.known()?),
        })
    }
}

fn ids(ids: Vec<Id>) -> impl Iterator<Item = EntryId> {
    ids.into_iter().map(|id| id.0)
}

impl EntryKind {
    /// The kind as it is written.
    ///
    /// # Errors
    /// What a later version wrote, which is kept as its text.
    pub fn of(kind: &journal::EntryKind) -> Result<EntryKind, &Later> {
        use journal::EntryKind::*;
        let id = |snippet: &SnippetId| Text(snippet.0);
        Ok(match kind {
            PieceAdded(piece) => EntryKind::PieceAdded(piece.into()),
            PieceChanged { piece, to } => EntryKind::PieceChanged { piece: Text(piece.0), to: to.into() },
            PieceEdited { piece, to } => EntryKind::PieceEdited { piece: Text(piece.0), to: to.into() },
            PieceRemoved { piece } => EntryKind::PieceRemoved { piece: Text(piece.0) },
            PiecesOrdered(pieces) => EntryKind::PiecesOrdered(pieces.iter().map(|piece| Text(piece.0)).collect()),
            ScoreKept { piece, file } => EntryKind::ScoreKept { piece: Text(piece.0), file: file.into() },
            SnippetAdded { piece, snippet } => {
                EntryKind::SnippetAdded { piece: Text(piece.0), snippet: (&**snippet).into() }
            }
            SnippetChanged { snippet, to } => EntryKind::SnippetChanged { snippet: id(snippet), to: (&**to).into() },
            SnippetEdited { snippet, to } => EntryKind::SnippetEdited { snippet: id(snippet), to: to.into() },
            SnippetRemoved { snippet } => EntryKind::SnippetRemoved { snippet: id(snippet) },
            SnippetsOrdered { piece, snippets } => {
                EntryKind::SnippetsOrdered { piece: Text(piece.0), snippets: snippets.iter().map(id).collect() }
            }
            Set(preference) => EntryKind::Set((*preference).into()),
            TimeGiven { minutes } => EntryKind::TimeGiven { minutes: *minutes },
            BlockBegan { snippet } => EntryKind::BlockBegan { snippet: id(snippet) },
            Played { snippet, step, verdict } => {
                EntryKind::Played { snippet: id(snippet), step: (*step).into(), verdict: Name::Known(*verdict) }
            }
            CauseNamed { repetition, cause } => {
                EntryKind::CauseNamed { repetition: Text(*repetition), cause: Name::Known(*cause) }
            }
            BrokeAt { repetition, onset } => EntryKind::BrokeAt { repetition: Text(*repetition), onset: *onset },
            Overruled { snippet, step } => EntryKind::Overruled { snippet: id(snippet), step: (*step).into() },
            BlockEnded { snippet } => EntryKind::BlockEnded { snippet: id(snippet) },
            StartedAfresh { snippet } => EntryKind::StartedAfresh { snippet: id(snippet) },
            GoodEnough { snippet } => EntryKind::GoodEnough { snippet: id(snippet) },
            NotToday { snippet } => EntryKind::NotToday { snippet: id(snippet) },
            RestOverruled { snippet } => EntryKind::RestOverruled { snippet: id(snippet) },
            OnsetMarked { snippet, onset, marks } => {
                EntryKind::OnsetMarked { snippet: id(snippet), onset: *onset, marks: marks.into() }
            }
            Retracted { entry } => EntryKind::Retracted { entry: Text(*entry) },
            Unknown(later) => return Err(later),
        })
    }
}

impl TryFrom<EntryKind> for journal::EntryKind {
    type Error = Unread;
    fn try_from(kind: EntryKind) -> Result<Self, Unread> {
        use journal::EntryKind::*;
        let (piece_id, snippet_id) = (|id: Id| PieceId(id.0), |id: Id| SnippetId(id.0));
        Ok(match kind {
            EntryKind::PieceAdded(piece) => PieceAdded(piece.try_into()?),
            EntryKind::PieceChanged { piece, to } => PieceChanged { piece: piece_id(piece), to: to.try_into()? },
            EntryKind::PieceEdited { piece, to } => PieceEdited { piece: piece_id(piece), to: to.try_into()? },
            EntryKind::PieceRemoved { piece } => PieceRemoved { piece: piece_id(piece) },
            EntryKind::PiecesOrdered(pieces) => PiecesOrdered(ids(pieces).map(PieceId).collect()),
            EntryKind::ScoreKept { piece, file } => ScoreKept { piece: piece_id(piece), file: file.into() },
            EntryKind::SnippetAdded { piece, snippet } => {
                SnippetAdded { piece: piece_id(piece), snippet: Rc::new(snippet.try_into()?) }
            }
            EntryKind::SnippetChanged { snippet, to } => {
                SnippetChanged { snippet: snippet_id(snippet), to: Rc::new(to.try_into()?) }
            }
            EntryKind::SnippetEdited { snippet, to } => {
                SnippetEdited { snippet: snippet_id(snippet), to: to.try_into()? }
            }
            EntryKind::SnippetRemoved { snippet } => SnippetRemoved { snippet: snippet_id(snippet) },
            EntryKind::SnippetsOrdered { piece, snippets } => {
                SnippetsOrdered { piece: piece_id(piece), snippets: ids(snippets).map(SnippetId).collect() }
            }
            EntryKind::Set(preference) => Set(preference.try_into()?),
            EntryKind::TimeGiven { minutes } => TimeGiven { minutes },
            EntryKind::BlockBegan { snippet } => BlockBegan { snippet: snippet_id(snippet) },
            EntryKind::Played { snippet, step, verdict } => {
                Played { snippet: snippet_id(snippet), step: step.try_into()?, verdict: verdict.known()? }
            }
            EntryKind::CauseNamed { repetition, cause } => {
                CauseNamed { repetition: repetition.0, cause: cause.known()? }
            }
            EntryKind::BrokeAt { repetition, onset } => BrokeAt { repetition: repetition.0, onset },
            EntryKind::Overruled { snippet, step } => {
                Overruled { snippet: snippet_id(snippet), step: step.try_into()? }
            }
            EntryKind::BlockEnded { snippet } => BlockEnded { snippet: snippet_id(snippet) },
            EntryKind::StartedAfresh { snippet } => StartedAfresh { snippet: snippet_id(snippet) },
            EntryKind::GoodEnough { snippet } => GoodEnough { snippet: snippet_id(snippet) },
            EntryKind::NotToday { snippet } => NotToday { snippet: snippet_id(snippet) },
            EntryKind::RestOverruled { snippet } => RestOverruled { snippet: snippet_id(snippet) },
            EntryKind::OnsetMarked { snippet, onset, marks } => {
                OnsetMarked { snippet: snippet_id(snippet), onset, marks: marks.try_into()? }
            }
            EntryKind::Retracted { entry } => Retracted { entry: entry.0 },
        })
    }
}
