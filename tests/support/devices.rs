//! Random histories: devices that act on their own and exchange files, whole or in part, in any order; and what holds of
//! them whatever they do.
//!
//! Every action is made valid by taking its numbers modulo what there is, so that no sampled run is thrown away.

use crate::{
    exported,
    samples::{LATER, leap, piece, rhythm, step},
};
use proptest::{collection::vec, prelude::*, sample::Index, test_runner::TestCaseError};
use std::collections::BTreeSet;
use tailfirst::{
    clock::Moment,
    journal::{
        DeviceId, Entry, EntryId, EntryKind, Journal, PieceEdit, PieceId, Preference, ScoreFile, SnippetEdit,
        SnippetId, State, Theme,
    },
    method::{Advice, Cause, Hands, HappeningKind, Strictness, Verdict, advise},
};

pub const DISTINCT: [DeviceId; 4] = [DeviceId(5), DeviceId(3), DeviceId(u64::MAX), DeviceId(6)];
/// The last one is a copy of the first: a profile carried over to another machine.
const WITH_A_COPY: [DeviceId; 4] = [DeviceId(5), DeviceId(3), DeviceId(u64::MAX), DeviceId(5)];

#[derive(Clone, Copy, Debug)]
enum Action {
    AddPiece,
    ChangePiece,
    EditPiece,
    RemovePiece,
    OrderPieces,
    KeepScore,
    AddSnippet,
    ChangeSnippet,
    EditSnippet,
    RemoveSnippet,
    OrderSnippets,
    Set,
    GiveTime,
    Begin,
    Play,
    NameCause,
    Point,
    Overrule,
    End,
    StartAfresh,
    SayEnough,
    LeaveOut,
    OverruleRest,
    Retract,
    RetractRetraction,
    WriteLater,
    TakeInAll,
    TakeInPart,
}

impl Action {
    /// Snippets, repetitions, retractions and exchanges come more often than the rest.
    fn any() -> impl Strategy<Value = Action> {
        use Action::*;
        prop::sample::select(vec![
            AddPiece,
            ChangePiece,
            EditPiece,
            RemovePiece,
            OrderPieces,
            KeepScore,
            AddSnippet,
            AddSnippet,
            AddSnippet,
            ChangeSnippet,
            EditSnippet,
            RemoveSnippet,
            OrderSnippets,
            Set,
            Begin,
            GiveTime,
            Begin,
            Play,
            Play,
            Play,
            Play,
            NameCause,
            Point,
            Overrule,
            End,
            StartAfresh,
            SayEnough,
            LeaveOut,
            OverruleRest,
            Retract,
            Retract,
            Retract,
            RetractRetraction,
            WriteLater,
            TakeInAll,
            TakeInAll,
            TakeInPart,
            TakeInPart,
        ])
    }
}

/// One action of one device.
#[derive(Clone, Debug)]
pub struct Turn {
    device: Index,
    action: Action,
    /// Which piece, snippet, entry or other device.
    which: Index,
    detail: u8,
    /// The wall clock at that time: it may show anything.
    at: Moment,
}

impl Turn {
    /// The same with the clock at this time.
    pub fn at(&self, at: Moment) -> Turn {
        Turn { at, ..self.clone() }
    }
}

/// What devices do in so many turns at most.
pub fn turns(most: usize) -> impl Strategy<Value = Vec<Turn>> {
    vec(turn(), 1..most)
}

/// In which order four devices take in each other's files.
pub fn exchanges() -> impl Strategy<Value = Vec<usize>> {
    Just((0..16).collect::<Vec<usize>>()).prop_shuffle()
}

fn turn() -> impl Strategy<Value = Turn> {
    let moment = (any::<i64>(), any::<i16>()).prop_map(|(ms, offset)| Moment::new(ms, offset));
    (any::<Index>(), Action::any(), any::<Index>(), any::<u8>(), moment)
        .prop_map(|(device, action, which, detail, at)| Turn { device, action, which, detail, at })
}

fn one<T: Copy>(items: impl Iterator<Item = T>, which: Index) -> Option<T> {
    let items: Vec<T> = items.collect();
    (!items.is_empty()).then(|| *which.get(&items))
}

/// What the turn writes into `journal`, where there is something to do it to.
fn event(journal: &Journal, turn: &Turn) -> Option<EntryKind> {
    let Turn { which, detail, .. } = *turn;
    let state = journal.state();
    let some_piece = || one(state.pieces().iter().map(|record| record.id), which);
    let some_snippet = || one(state.snippets().map(|(id, _)| id), which);
    let played = |entry: &Entry| matches!(entry.kind, EntryKind::Played { .. });
    let retraction = |entry: &Entry| matches!(entry.kind, EntryKind::Retracted { .. });
    let some_step = || step(usize::from(detail) % 4, 3, Hands::Right, 96);
    let some_music = || if detail % 2 == 0 { leap().into() } else { rhythm().into() };
    Some(match turn.action {
        Action::AddPiece => EntryKind::PieceAdded(piece(&detail.to_string())),
        Action::ChangePiece => EntryKind::PieceChanged { piece: some_piece()?, to: piece(&detail.to_string()) },
        Action::EditPiece => {
            let to = match detail % 4 {
                0 => PieceEdit { title: Some(detail.to_string()), ..PieceEdit::default() },
                1 => PieceEdit { tempo: Some(Some(leap().tempo())), ..PieceEdit::default() },
                2 => PieceEdit { tempo: Some(None), ..PieceEdit::default() },
                _ => PieceEdit { date: Some(Some(Moment::new(0, 0).day())), ..PieceEdit::default() },
            };
            EntryKind::PieceEdited { piece: some_piece()?, to }
        }
        Action::RemovePiece => EntryKind::PieceRemoved { piece: some_piece()? },
        Action::OrderPieces => EntryKind::PiecesOrdered(shuffled(state.pieces().iter().map(|record| record.id), turn)),
        Action::KeepScore => {
            let file = ScoreFile { name: detail.to_string(), deflated: "AwA=".into() };
            EntryKind::ScoreKept { piece: some_piece()?, file }
        }
        Action::AddSnippet => EntryKind::SnippetAdded { piece: some_piece()?, snippet: some_music() },
        Action::ChangeSnippet => EntryKind::SnippetChanged { snippet: some_snippet()?, to: some_music() },
        Action::EditSnippet => {
            let to = match detail % 3 {
                0 => SnippetEdit { name: Some(detail.to_string()), ..SnippetEdit::default() },
                1 => SnippetEdit { goal: Some(usize::from(detail)), ..SnippetEdit::default() },
                _ => SnippetEdit { tempo: Some(rhythm().tempo()), ..SnippetEdit::default() },
            };
            EntryKind::SnippetEdited { snippet: some_snippet()?, to }
        }
        Action::RemoveSnippet => EntryKind::SnippetRemoved { snippet: some_snippet()? },
        Action::OrderSnippets => {
            let piece: PieceId = some_piece()?;
            let snippets: Vec<SnippetId> = state.piece(piece)?.snippets.clone();
            EntryKind::SnippetsOrdered { piece, snippets: shuffled(snippets.into_iter(), turn) }
        }
        Action::Set => EntryKind::Set(match detail % 3 {
            0 => Preference::Strictness(Strictness::Strict),
            1 => Preference::BlockMinutes(u32::from(detail)),
            _ => Preference::Theme(Theme::Stage),
        }),
        Action::GiveTime => EntryKind::TimeGiven { minutes: u16::from(detail) },
        Action::Begin => EntryKind::BlockBegan { snippet: some_snippet()? },
        Action::Play => {
            let verdict = if detail % 2 == 0 { Verdict::Clean } else { Verdict::NotYet };
            EntryKind::Played { snippet: some_snippet()?, step: some_step(), verdict }
        }
        Action::NameCause => {
            let repetition = one(journal.entries().filter(played).map(|entry| entry.id), which)?;
            EntryKind::CauseNamed { repetition, cause: Cause::ALL[usize::from(detail) % Cause::ALL.len()] }
        }
        Action::Point => {
            let repetition = one(journal.entries().filter(played).map(|entry| entry.id), which)?;
            EntryKind::BrokeAt { repetition, onset: u16::from(detail) }
        }
        Action::Overrule => EntryKind::Overruled { snippet: some_snippet()?, step: some_step() },
        Action::End => EntryKind::BlockEnded { snippet: some_snippet()? },
        Action::StartAfresh => EntryKind::StartedAfresh { snippet: some_snippet()? },
        Action::SayEnough => EntryKind::GoodEnough { snippet: some_snippet()? },
        Action::LeaveOut => EntryKind::NotToday { snippet: some_snippet()? },
        Action::OverruleRest => EntryKind::RestOverruled { snippet: some_snippet()? },
        Action::Retract => EntryKind::Retracted { entry: one(journal.entries().map(|entry| entry.id), which)? },
        Action::RetractRetraction => {
            EntryKind::Retracted { entry: one(journal.entries().filter(retraction).map(|entry| entry.id), which)? }
        }
        Action::WriteLater => Entry::read(LATER).ok()?.kind,
        Action::TakeInAll | Action::TakeInPart => return None,
    })
}

/// Some order of some of the items, one of them twice.
fn shuffled<T: Copy>(items: impl Iterator<Item = T>, turn: &Turn) -> Vec<T> {
    let mut items: Vec<T> = items.collect();
    if !items.is_empty() {
        let count = items.len();
        items.rotate_left(turn.which.index(count));
        items.truncate(1 + usize::from(turn.detail) % count);
        items.push(items[0]);
    }
    items
}

/// What the definition of a retraction says, without the journal's help: an entry counts unless a
/// later retraction of it counts.
fn counts(journal: &Journal, id: EntryId) -> bool {
    !journal.entries().any(|later| {
        matches!(later.kind, EntryKind::Retracted { entry } if entry == id && id < later.id)
            && counts(journal, later.id)
    })
}

fn from_scratch(journal: &Journal) -> State {
    let entries: Vec<Entry> = journal.entries().filter(|entry| counts(journal, entry.id)).collect();
    State::of(&entries)
}

/// Takes in the file of `from`: all of it, or the entries whose place is picked by the bits of `part`.
pub fn take_in(journal: &mut Journal, from: &Journal, at: Moment, part: u8) {
    let mut imported = exported::read(&exported::export(from, DISTINCT[0], at)).expect("a journal");
    let mut place = 0;
    imported.entries.retain(|_| {
        place += 1;
        part >> (place % 8) & 1 == 1
    });
    imported.into_journal(journal);
}

/// What two journals come to together.
pub fn union(one: &Journal, other: &Journal) -> Journal {
    let mut union = one.clone();
    take_in(&mut union, other, Moment::new(0, 0), u8::MAX);
    union
}

/// Lets the devices act; after every turn the state kept up to date must be the fold from scratch,
/// and what the turn wrote must be undone exactly by its retraction.
pub fn play_out(devices: [DeviceId; 4], turns: &[Turn]) -> Result<[Journal; 4], TestCaseError> {
    let mut journals = devices.map(|_| Journal::new());
    for turn in turns {
        let here = turn.device.index(devices.len());
        let other = journals[turn.which.index(devices.len())].clone();
        let journal = &mut journals[here];
        match turn.action {
            Action::TakeInAll => take_in(journal, &other, turn.at, u8::MAX),
            Action::TakeInPart => take_in(journal, &other, turn.at, turn.detail),
            _ => {
                let Some(event) = event(journal, turn) else { continue };
                let before = journal.state().clone();
                let entry = journal.next(devices[here], turn.at, event);
                let written = entry.id;
                journal.append(entry);
                let mut undone = journal.clone();
                undone.append(undone.next(devices[here], turn.at, EntryKind::Retracted { entry: written }));
                prop_assert_eq!(undone.state(), &before, "undoing {:?}", turn.action);
            }
        }
        prop_assert_eq!(journal.state(), &from_scratch(journal), "after {:?}", turn.action);
    }
    Ok(journals)
}

/// What the coach says of every snippet.
fn advice(journal: &Journal) -> Vec<Advice> {
    let snippets = journal.state().snippets();
    snippets.map(|(_, record)| advise(&record.snippet, record.history(), Moment::new(0, 0))).collect()
}

/// Devices that have exchanged files show the same, and nothing that any of them wrote is lost.
pub fn they_come_to_the_same(turns: &[Turn], exchanges: &[usize]) -> Result<(), TestCaseError> {
    let mut journals = play_out(WITH_A_COPY, turns)?;
    let files = journals.clone();
    for exchange in exchanges {
        take_in(&mut journals[exchange % 4], &files[exchange / 4], Moment::new(0, 0), u8::MAX);
    }
    let [first, others @ ..] = &journals;
    for other in others {
        prop_assert_eq!(other, first);
        prop_assert_eq!(advice(other), advice(first));
    }
    check_order(first)?;
    // It counts, under its identity or its own.
    let kept: BTreeSet<String> = first.entries().map(|entry| entry.written()).collect();
    for entry in files.iter().flat_map(|journal| journal.entries()) {
        let twin = entry.under_its_own_identity();
        prop_assert!(kept.contains(&entry.written()) || kept.contains(&twin.written()));
    }
    prop_assert_eq!(first.set_aside().count(), 0);
    Ok(())
}

/// The union is idempotent, commutative and associative.
pub fn their_union_is_one(turns: &[Turn]) -> Result<(), TestCaseError> {
    let [a, b, c, copy_of_a] = &play_out(WITH_A_COPY, turns)?;
    for (x, y, z) in [(a, b, c), (a, copy_of_a, b), (copy_of_a, c, a)] {
        prop_assert_eq!(&union(x, x), x);
        prop_assert_eq!(&union(x, y), &union(y, x));
        prop_assert_eq!(union(&union(x, y), z), union(x, &union(y, z)));
    }
    Ok(())
}

/// What one device wrote stands as it wrote it, and no other device comes into its blocks.
fn check_order(journal: &Journal) -> Result<(), TestCaseError> {
    for (_, record) in journal.state().snippets() {
        let ids: Vec<EntryId> = (0..record.history().len()).filter_map(|place| record.entry(place)).collect();
        for device in ids.iter().map(|id| id.device).collect::<BTreeSet<_>>() {
            prop_assert!(ids.iter().filter(|id| id.device == device).is_sorted());
        }
        for (pair, happening) in ids.windows(2).zip(record.history().iter().skip(1)) {
            use HappeningKind::*;
            let goes_on = matches!(happening.kind, Played { .. } | Overruled(_) | BlockEnded | GoodEnough);
            let first_of_its_device = ids.iter().find(|id| id.device == pair[1].device) == Some(&pair[1]);
            prop_assert!(!goes_on || first_of_its_device || pair[0].device == pair[1].device, "{:?}", ids);
        }
    }
    Ok(())
}
