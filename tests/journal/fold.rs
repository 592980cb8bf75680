//! What the entries add up to, told as a player would.

use crate::samples::{self, DEVICE, leap, piece, rhythm, step};
use tailfirst::{
    clock::Moment,
    journal::{EntryId, EntryKind, Journal, PieceId, Preference, SnippetId},
    method::{Cause, Hands, HappeningKind, Strictness, Verdict},
    music::Marks,
};

/// A device on which things happen, a second apart.
struct Device {
    journal: Journal,
    now: Moment,
}

impl Device {
    fn new() -> Device {
        Device { journal: Journal::new(), now: samples::moment("2026-10-04T08:00:00+02:00") }
    }

    fn does(&mut self, event: EntryKind) -> EntryId {
        self.now = self.now.plus_ms(1_000);
        let entry = self.journal.next(DEVICE, self.now, event);
        let id = entry.id;
        self.journal.append(entry);
        id
    }

    fn adds_piece(&mut self, title: &str) -> PieceId {
        PieceId(self.does(EntryKind::PieceAdded(piece(title))))
    }

    fn adds_leap(&mut self, piece: PieceId) -> SnippetId {
        SnippetId(self.does(EntryKind::SnippetAdded { piece, snippet: leap().into() }))
    }

    fn plays(&mut self, snippet: SnippetId, verdict: Verdict) -> EntryId {
        self.does(EntryKind::Played { snippet, step: step(3, 3, Hands::Right, 96), verdict })
    }

    fn own_titles(&self) -> Vec<&str> {
        let pieces = self.journal.state().pieces().iter().filter(|record| record.id.0.device == DEVICE);
        pieces.map(|record| record.piece.title.as_str()).collect()
    }

    fn happened(&self, snippet: SnippetId) -> Vec<&HappeningKind> {
        let record = self.journal.state().snippet(snippet).expect("it is there");
        record.history().iter().map(|happening| &happening.kind).collect()
    }
}

#[test]
fn pieces_stand_as_ordered_and_those_not_named_come_last() {
    let mut device = Device::new();
    let [air, _bourree, gigue] = ["Air", "Bourrée", "Gigue"].map(|title| device.adds_piece(title));
    device.does(EntryKind::PiecesOrdered(vec![gigue, air, gigue, PieceId(samples::id(99))]));
    assert_eq!(device.own_titles(), ["Gigue", "Air", "Bourrée"]);
    device.does(EntryKind::PieceChanged { piece: air, to: piece("Air, slower") });
    device.does(EntryKind::PieceRemoved { piece: gigue });
    assert_eq!(device.own_titles(), ["Air, slower", "Bourrée"]);
}

#[test]
fn a_snippet_keeps_its_history_with_what_was_said_of_misses_and_the_settings_of_each_block() {
    let mut device = Device::new();
    let waltz = device.adds_piece("Waltz");
    let snippet = device.adds_leap(waltz);
    device.does(EntryKind::BlockBegan { snippet });
    let usual = device.journal.state().preferences.method;
    device.does(EntryKind::Set(Preference::BlockMinutes(500)));
    device.does(EntryKind::Set(Preference::Strictness(Strictness::Strict)));
    let missed = device.plays(snippet, Verdict::NotYet);
    device.does(EntryKind::CauseNamed { repetition: missed, cause: Cause::Late });
    device.does(EntryKind::CauseNamed { repetition: missed, cause: Cause::Early });
    device.does(EntryKind::BrokeAt { repetition: missed, onset: 2 });
    device.does(EntryKind::BrokeAt { repetition: missed, onset: 3 });
    let clean = device.plays(snippet, Verdict::Clean);
    device.does(EntryKind::SnippetChanged { snippet, to: rhythm().into() });
    let began = device.does(EntryKind::BlockBegan { snippet });

    let strict = device.journal.state().preferences.method;
    assert_eq!((strict.block_minutes, strict.strictness), (30, Strictness::Strict));
    let goal = step(3, 3, Hands::Right, 96);
    assert_eq!(
        device.happened(snippet),
        [
            &HappeningKind::BlockBegan(usual),
            &HappeningKind::Played {
                step: goal,
                verdict: Verdict::NotYet,
                cause: Some(Cause::Early),
                broke_at: Some(3)
            },
            &HappeningKind::Played { step: goal, verdict: Verdict::Clean, cause: None, broke_at: None },
            &HappeningKind::BlockBegan(strict),
        ]
    );
    let record = device.journal.state().snippet(snippet).expect("it is there");
    assert_eq!((record.piece, record.snippet.name()), (waltz, "Run"));
    assert_eq!((record.entry(1), record.entry(3), record.entry(4)), (Some(missed), Some(began), None));
    assert_eq!(record.last_repetition().map(|(entry, _)| entry), Some(clean));
    assert_eq!(record.history().last().map(|block| block.at), Some(device.now));
}

#[test]
fn what_was_removed_comes_back_with_all_that_happened_to_it_when_the_removal_is_undone() {
    let mut device = Device::new();
    let waltz = device.adds_piece("Waltz");
    let snippet = device.adds_leap(waltz);
    device.plays(snippet, Verdict::Clean);
    let removal = device.does(EntryKind::PieceRemoved { piece: waltz });
    device.plays(snippet, Verdict::Clean);
    let state = device.journal.state();
    assert!(state.snippet(snippet).is_none() && state.piece(waltz).is_none());
    assert!(state.snippets().all(|(id, _)| id != snippet));

    let undo = device.does(EntryKind::Retracted { entry: removal });
    assert_eq!(device.happened(snippet).len(), 2);
    device.does(EntryKind::Retracted { entry: undo });
    assert!(device.journal.state().snippet(snippet).is_none());
}

#[test]
fn what_the_player_says_about_today_can_be_taken_back() {
    let mut device = Device::new();
    let waltz = device.adds_piece("Waltz");
    let snippet = device.adds_leap(waltz);
    let out = device.does(EntryKind::NotToday { snippet });
    device.does(EntryKind::Retracted { entry: out });
    let began = device.does(EntryKind::BlockBegan { snippet });
    device.plays(snippet, Verdict::NotYet);
    let enough = device.does(EntryKind::GoodEnough { snippet });
    let usual = device.journal.state().preferences.method;
    let played = HappeningKind::Played {
        step: step(3, 3, Hands::Right, 96),
        verdict: Verdict::NotYet,
        cause: None,
        broke_at: None,
    };
    assert_eq!(device.happened(snippet), [&HappeningKind::BlockBegan(usual), &played, &HappeningKind::GoodEnough]);
    let undo = device.does(EntryKind::Retracted { entry: enough });
    assert_eq!(device.happened(snippet), [&HappeningKind::BlockBegan(usual), &played]);
    device.does(EntryKind::Retracted { entry: undo });
    device.does(EntryKind::Retracted { entry: began });
    assert_eq!(device.happened(snippet), [&played, &HappeningKind::GoodEnough]);
}

#[test]
fn a_retraction_of_what_was_not_there_yet_takes_nothing_back() {
    let mut device = Device::new();
    let following = device.journal.next(DEVICE, device.now, EntryKind::PieceAdded(piece(""))).id.number + 1;
    device.does(EntryKind::Retracted { entry: samples::id(following) });
    device.adds_piece("Waltz");
    assert_eq!(device.own_titles(), ["Waltz"]);
    let mut elsewhere = Journal::new();
    elsewhere.merge(device.journal.entries());
    assert_eq!(elsewhere, device.journal);
}

#[test]
fn marks_at_an_onset_are_those_written_last_and_none_once_they_are_wiped() {
    let mut device = Device::new();
    let air = device.adds_piece("Air");
    let leap = device.adds_leap(air);
    let marks = |device: &Device| device.journal.state().snippet(leap).expect("it is there").marks.get(&3).cloned();
    let first = device.does(EntryKind::OnsetMarked { snippet: leap, onset: 3, marks: samples::marks() });
    assert_eq!(marks(&device), Some(samples::marks()));
    let wiped = device.does(EntryKind::OnsetMarked { snippet: leap, onset: 3, marks: Marks::default() });
    assert_eq!(marks(&device), None);
    device.does(EntryKind::Retracted { entry: wiped });
    assert_eq!(marks(&device), Some(samples::marks()));
    device.does(EntryKind::Retracted { entry: first });
    assert_eq!(marks(&device), None);
}
