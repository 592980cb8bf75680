//! The kinds of entry as they are written in the file.

use super::{
    Later, Name, Text, Unread, music as written,
    practice::{Snippet, Step},
};
use crate::{
    clock::{Day, Moment},
    journal::{self, EntryId, PieceId, SnippetId, Theme},
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
    pub what: Event,
}

/// The kinds that this version reads. Names and fields never change; [`journal::Event`] says what they mean.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Event {
    PieceAdded(Piece),
    PieceChanged { piece: Id, to: Piece },
    PieceRemoved { piece: Id },
    PiecesOrdered(Vec<Id>),
    ScoreKept { piece: Id, file: ScoreFile },
    SnippetAdded { piece: Id, snippet: Snippet },
    SnippetChanged { snippet: Id, to: Snippet },
    SnippetRemoved { snippet: Id },
    SnippetsOrdered { piece: Id, snippets: Vec<Id> },
    Set(Setting),
    BlockBegan { snippet: Id },
    Played { snippet: Id, step: Step, verdict: Name<Verdict> },
    CauseNamed { repetition: Id, cause: Name<Cause> },
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
pub enum Setting {
    Strictness(Name<Strictness>),
    BlockMinutes(u32),
    RestMinutes(u32),
    BlocksADay(u32),
    Click(Name<Click>),
    Theme(Name<Theme>),
}

impl Event {
    /// Leaves out what only a later version knows and this one can do without; says whether there was any.
    pub fn leave_later_values_out(&mut self) -> bool {
        match self {
            Event::SnippetAdded { snippet, .. } | Event::SnippetChanged { to: snippet, .. } => {
                snippet.leave_later_values_out()
            }
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

impl From<journal::Setting> for Setting {
    fn from(setting: journal::Setting) -> Setting {
        use journal::Setting::*;
        match setting {
            Strictness(strictness) => Setting::Strictness(Name::Known(strictness)),
            BlockMinutes(minutes) => Setting::BlockMinutes(minutes),
            RestMinutes(minutes) => Setting::RestMinutes(minutes),
            BlocksADay(blocks) => Setting::BlocksADay(blocks),
            Click(click) => Setting::Click(Name::Known(click)),
            Theme(theme) => Setting::Theme(Name::Known(theme)),
        }
    }
}

impl TryFrom<Setting> for journal::Setting {
    type Error = Unread;
    fn try_from(setting: Setting) -> Result<Self, Unread> {
        use journal::Setting::*;
        Ok(match setting {
            Setting::Strictness(strictness) => Strictness(strictness.known()?),
            Setting::BlockMinutes(minutes) => BlockMinutes(minutes),
            Setting::RestMinutes(minutes) => RestMinutes(minutes),
            Setting::BlocksADay(blocks) => BlocksADay(blocks),
            Setting::Click(click) => Click(click.known()?),
            Setting::Theme(theme) => Theme(theme.known()?),
        })
    }
}

fn ids(ids: Vec<Id>) -> impl Iterator<Item = EntryId> {
    ids.into_iter().map(|id| id.0)
}

impl Event {
    /// The event as it is written.
    ///
    /// # Errors
    /// What a later version wrote, which is kept as its text.
    pub fn of(event: &journal::Event) -> Result<Event, &Later> {
        use journal::Event::*;
        let id = |snippet: &SnippetId| Text(snippet.0);
        Ok(match event {
            PieceAdded(piece) => Event::PieceAdded(piece.into()),
            PieceChanged { piece, to } => Event::PieceChanged { piece: Text(piece.0), to: to.into() },
            PieceRemoved { piece } => Event::PieceRemoved { piece: Text(piece.0) },
            PiecesOrdered(pieces) => Event::PiecesOrdered(pieces.iter().map(|piece| Text(piece.0)).collect()),
            ScoreKept { piece, file } => Event::ScoreKept { piece: Text(piece.0), file: file.into() },
            SnippetAdded { piece, snippet } => {
                Event::SnippetAdded { piece: Text(piece.0), snippet: (&**snippet).into() }
            }
            SnippetChanged { snippet, to } => Event::SnippetChanged { snippet: id(snippet), to: (&**to).into() },
            SnippetRemoved { snippet } => Event::SnippetRemoved { snippet: id(snippet) },
            SnippetsOrdered { piece, snippets } => {
                Event::SnippetsOrdered { piece: Text(piece.0), snippets: snippets.iter().map(id).collect() }
            }
            Set(setting) => Event::Set((*setting).into()),
            BlockBegan { snippet } => Event::BlockBegan { snippet: id(snippet) },
            Played { snippet, step, verdict } => {
                Event::Played { snippet: id(snippet), step: (*step).into(), verdict: Name::Known(*verdict) }
            }
            CauseNamed { repetition, cause } => {
                Event::CauseNamed { repetition: Text(*repetition), cause: Name::Known(*cause) }
            }
            Overruled { snippet, step } => Event::Overruled { snippet: id(snippet), step: (*step).into() },
            BlockEnded { snippet } => Event::BlockEnded { snippet: id(snippet) },
            StartedAfresh { snippet } => Event::StartedAfresh { snippet: id(snippet) },
            GoodEnough { snippet } => Event::GoodEnough { snippet: id(snippet) },
            NotToday { snippet } => Event::NotToday { snippet: id(snippet) },
            RestOverruled { snippet } => Event::RestOverruled { snippet: id(snippet) },
            OnsetMarked { snippet, onset, marks } => {
                Event::OnsetMarked { snippet: id(snippet), onset: *onset, marks: marks.into() }
            }
            Retracted { entry } => Event::Retracted { entry: Text(*entry) },
            Unknown(later) => return Err(later),
        })
    }
}

impl TryFrom<Event> for journal::Event {
    type Error = Unread;
    fn try_from(event: Event) -> Result<Self, Unread> {
        use journal::Event::*;
        let (piece_id, snippet_id) = (|id: Id| PieceId(id.0), |id: Id| SnippetId(id.0));
        Ok(match event {
            Event::PieceAdded(piece) => PieceAdded(piece.try_into()?),
            Event::PieceChanged { piece, to } => PieceChanged { piece: piece_id(piece), to: to.try_into()? },
            Event::PieceRemoved { piece } => PieceRemoved { piece: piece_id(piece) },
            Event::PiecesOrdered(pieces) => PiecesOrdered(ids(pieces).map(PieceId).collect()),
            Event::ScoreKept { piece, file } => ScoreKept { piece: piece_id(piece), file: file.into() },
            Event::SnippetAdded { piece, snippet } => {
                SnippetAdded { piece: piece_id(piece), snippet: Rc::new(snippet.try_into()?) }
            }
            Event::SnippetChanged { snippet, to } => {
                SnippetChanged { snippet: snippet_id(snippet), to: Rc::new(to.try_into()?) }
            }
            Event::SnippetRemoved { snippet } => SnippetRemoved { snippet: snippet_id(snippet) },
            Event::SnippetsOrdered { piece, snippets } => {
                SnippetsOrdered { piece: piece_id(piece), snippets: ids(snippets).map(SnippetId).collect() }
            }
            Event::Set(setting) => Set(setting.try_into()?),
            Event::BlockBegan { snippet } => BlockBegan { snippet: snippet_id(snippet) },
            Event::Played { snippet, step, verdict } => {
                Played { snippet: snippet_id(snippet), step: step.try_into()?, verdict: verdict.known()? }
            }
            Event::CauseNamed { repetition, cause } => CauseNamed { repetition: repetition.0, cause: cause.known()? },
            Event::Overruled { snippet, step } => Overruled { snippet: snippet_id(snippet), step: step.try_into()? },
            Event::BlockEnded { snippet } => BlockEnded { snippet: snippet_id(snippet) },
            Event::StartedAfresh { snippet } => StartedAfresh { snippet: snippet_id(snippet) },
            Event::GoodEnough { snippet } => GoodEnough { snippet: snippet_id(snippet) },
            Event::NotToday { snippet } => NotToday { snippet: snippet_id(snippet) },
            Event::RestOverruled { snippet } => RestOverruled { snippet: snippet_id(snippet) },
            Event::OnsetMarked { snippet, onset, marks } => {
                OnsetMarked { snippet: snippet_id(snippet), onset, marks: marks.try_into()? }
            }
            Event::Retracted { entry } => Retracted { entry: entry.0 },
        })
    }
}
