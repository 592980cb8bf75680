//! Devices that exchange files come to the same, whatever they did apart.

use crate::{
    devices::{self, DISTINCT, Turn, exchanges, play_out, take_in, turns, union},
    samples::{leap, piece, rhythm, step},
};
use proptest::prelude::*;
use tailfirst::{
    clock::Moment,
    journal::{Entry, EntryKind, Journal, Piece, PieceEdit, PieceId, Preference, SnippetEdit, SnippetId},
    method::{Hands, Verdict},
};

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn devices_that_have_exchanged_files_show_the_same(turns in turns(80), exchanges in exchanges()) {
        devices::they_come_to_the_same(&turns, &exchanges)?;
    }

    #[test]
    fn the_union_is_idempotent_commutative_and_associative(turns in turns(50)) {
        devices::their_union_is_one(&turns)?;
    }

    /// The order comes from what a device knew: under clocks that stand still everybody would have
    /// written the same.
    #[test]
    fn clocks_that_jump_decide_nothing(turns in turns(50)) {
        let still = Moment::new(0, 0);
        let stopped: Vec<Turn> = turns.iter().map(|turn| turn.at(still)).collect();
        let (jumping, stopped) = (play_out(DISTINCT, &turns)?, play_out(DISTINCT, &stopped)?);
        for (jumping, stopped) in jumping.iter().zip(&stopped) {
            let jumping = jumping.entries().map(|entry| Entry { at: still, ..entry });
            prop_assert!(jumping.eq(stopped.entries()));
        }
    }
}

/// Two devices under one identity, as after copying a browser profile.
#[test]
fn of_two_contents_under_one_identity_both_are_kept_and_every_device_shows_the_same() {
    let at = Moment::new(0, 60);
    let written = |title: &str| {
        let mut journal = Journal::new();
        journal.append(journal.next(DISTINCT[0], at, EntryKind::PieceAdded(piece(title))));
        journal
    };
    let (air, gigue) = (written("Air"), written("Gigue"));
    let (mut here, mut there) = (air.clone(), gigue.clone());
    take_in(&mut here, &gigue, at, u8::MAX);
    take_in(&mut there, &air, at, u8::MAX);
    assert_eq!(here, there);
    for title in ["Air", "Gigue"] {
        assert!(here.state().pieces().iter().any(|record| record.piece.title == title), "{title}");
    }
    assert_eq!(here.set_aside().count(), 0);
    assert_eq!(union(&Journal::new(), &here), here, "a third device hears of both");
    let again = here.clone().merge(gigue.entries());
    assert_eq!((again.added, again.twins), (0, 0), "what is known as a twin is known");
}

/// A part of an export may bring a twin before the entry that makes it one.
#[test]
fn an_entry_that_takes_the_place_of_a_known_twin_is_shown() {
    let at = Moment::new(0, 60);
    let [air, gigue] = ["Air", "Gigue"].map(|title| {
        let mut journal = Journal::new();
        journal.append(journal.next(DISTINCT[0], at, EntryKind::PieceAdded(piece(title))));
        journal
    });
    let both = union(&air, &gigue);
    let twin =
        both.entries().find(|entry| entry.id.device != DISTINCT[0] && !air.entries().any(|known| known == *entry));
    let mut here = gigue;
    here.merge(twin);
    let brought = here.merge(air.entries());
    assert_eq!(brought.added, 1);
    assert_eq!(here, both);
}

#[test]
fn a_device_hears_that_it_was_copied() {
    let mut here = Journal::new();
    let write = |journal: &mut Journal, title: &str| {
        journal.append(journal.next(DISTINCT[0], Moment::new(0, 60), EntryKind::PieceAdded(piece(title))));
        journal.entries().collect::<Vec<_>>()
    };
    let first = write(&mut here, "Air");
    let mut copy = here.clone();
    assert!(!here.clone().merge(first).is_copied(DISTINCT[0]), "its own export comes back");
    let further = write(&mut copy, "Gigue");
    assert!(here.clone().merge(further.clone()).is_copied(DISTINCT[0]), "the copy has written more");
    write(&mut here, "Bourrée");
    assert!(here.clone().merge(further.clone()).is_copied(DISTINCT[0]), "both have written");
    assert!(!here.clone().merge(further).is_copied(DISTINCT[1]), "it is not this device that was copied");
}

/// One device sets the tempo and the date, the other calls the piece by another name and takes the tempo of its
/// own away; later one edit is undone.
#[test]
fn of_two_edits_made_apart_each_keeps_its_fields_and_undo_takes_back_one_alone() {
    let at = Moment::new(1_795_600_800_000, 60);
    let (here, there) = (DISTINCT[0], DISTINCT[1]);
    let write = |journal: &mut Journal, device, kind| {
        let entry = journal.next(device, at, kind);
        journal.append(entry.clone());
        entry.id
    };
    let mut first = Journal::new();
    let piece_id = PieceId(write(&mut first, here, EntryKind::PieceAdded(piece("Air"))));
    let snippet =
        SnippetId(write(&mut first, here, EntryKind::SnippetAdded { piece: piece_id, snippet: leap().into() }));
    let mut second = first.clone();
    let edit = |before: &Journal, change: &dyn Fn(&mut Piece)| {
        let old = before.state().piece(piece_id).expect("it is there").piece.clone();
        let mut new = old.clone();
        change(&mut new);
        EntryKind::PieceEdited { piece: piece_id, to: PieceEdit::between(&old, &new).expect("a change") }
    };
    let tempo = leap().tempo();
    let to = edit(&first, &|piece| (piece.tempo, piece.date) = (Some(tempo), Some(at.day())));
    write(&mut first, here, to);
    let to = edit(&second, &|piece| piece.title = "Air, slower".into());
    let renamed = write(&mut second, there, to);
    let to = SnippetEdit::between(&leap(), &leap().named("Leap".into())).expect("a change");
    write(&mut second, there, EntryKind::SnippetEdited { snippet, to });
    let to = SnippetEdit::between(&leap(), &leap().at_tempo(rhythm().tempo())).expect("a change");
    write(&mut first, here, EntryKind::SnippetEdited { snippet, to });

    let mut both = union(&first, &second);
    assert_eq!(both, union(&second, &first));
    let shown = |journal: &Journal| journal.state().piece(piece_id).expect("it is there").piece.clone();
    let edited = Piece { tempo: Some(tempo), date: Some(at.day()), ..piece("Air, slower") };
    assert_eq!(shown(&both), edited);
    let record = both.state().snippet(snippet).expect("it is there");
    assert_eq!((record.snippet.name(), record.snippet.tempo()), ("Leap", rhythm().tempo()));
    write(&mut both, here, EntryKind::Retracted { entry: renamed });
    assert_eq!(shown(&union(&second, &both)), Piece { title: "Air".into(), ..edited });
}

/// The tablet at home on Monday and Wednesday, the one at school on Tuesday, each without having heard of the
/// other; the one at school has written far more, and its clock once jumped.
#[test]
fn what_two_devices_practised_apart_stands_as_it_was_played_block_by_block() {
    const DAY: i64 = 86_400_000;
    let monday = Moment::new(1_795_600_800_000, 60);
    let mut home = Journal::new();
    let add = home.next(DISTINCT[0], monday, EntryKind::PieceAdded(piece("Air")));
    home.append(add.clone());
    let add =
        home.next(DISTINCT[0], monday, EntryKind::SnippetAdded { piece: PieceId(add.id), snippet: leap().into() });
    home.append(add.clone());
    let snippet = SnippetId(add.id);
    let mut school = home.clone();
    let block = |journal: &mut Journal, device, day: i64| {
        let kinds = [Verdict::NotYet, Verdict::Clean].map(|verdict| EntryKind::Played {
            snippet,
            step: step(3, 3, Hands::Right, 96),
            verdict,
        });
        for (kind, seconds) in [EntryKind::BlockBegan { snippet }].into_iter().chain(kinds).zip([0, 20, 40]) {
            let entry = journal.next(device, monday.plus_ms(day * DAY + seconds * 1_000), kind);
            journal.append(entry);
        }
    };
    block(&mut home, DISTINCT[0], 0);
    for minutes in 0..50 {
        let set = EntryKind::Set(Preference::BlockMinutes(minutes));
        school.append(school.next(DISTINCT[1], monday.plus_ms(DAY), set));
    }
    block(&mut school, DISTINCT[1], 1);
    block(&mut school, DISTINCT[1], -400);
    block(&mut home, DISTINCT[0], 2);
    for both in [union(&home, &school), union(&school, &home)] {
        let record = both.state().snippet(snippet).expect("it is there");
        let days: Vec<i64> = record.history().iter().map(|one| one.at.ms_since(monday) / DAY).collect();
        assert_eq!(days, [0, 0, 0, 1, 1, 1, -400, -399, -399, 2, 2, 2], "whole days since Monday, toward zero");
    }
}
