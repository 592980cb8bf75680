//! Undo takes back exactly one thing and says which.

use crate::player::Player;
use tailfirst::{
    agenda::undo::{self, Undone},
    journal::{EntryKind, Item, SnippetId},
    method::{Standing, Verdict},
    words,
};

fn a_bell() -> (Player, SnippetId) {
    let mut player = Player::new();
    let piece = player.piece("Bells");
    let bell = player.snippet(piece, "The last bell", 1);
    player.begins(bell);
    (player, bell)
}

/// Takes back what can be taken back, and the word on the button.
fn undoes(player: &mut Player, snippet: SnippetId) -> &'static str {
    let undo = undo::last(player.record(snippet)).expect("something to undo");
    let word = words::undo(undo.kind, player.advice(snippet).reason);
    let before = player.record(snippet).history().len();
    player.does(EntryKind::Retracted { entry: undo.entry });
    assert_eq!(player.record(snippet).history().len(), before - 1, "{word}");
    word
}

#[test]
fn undo_goes_back_one_thing_at_a_time_and_names_each() {
    let (mut player, bell) = a_bell();
    player.judges(bell, Verdict::Clean);
    player.judges(bell, Verdict::NotYet);
    let slower = tailfirst::method::overrule::slower(player.advice(bell).step).expect("a slower tempo");
    player.does(EntryKind::Overruled { snippet: bell, step: slower });
    player.does(EntryKind::StartedAfresh { snippet: bell });
    player.does(EntryKind::BlockEnded { snippet: bell });
    player.does(EntryKind::GoodEnough { snippet: bell });
    let words: Vec<&str> = (0..6).map(|_| undoes(&mut player, bell)).collect();
    let expected =
        ["Undo good enough", "Undo stop", "Undo the fresh start", "Undo my step", "Undo not yet", "Undo clean"];
    assert_eq!(words, expected);
    assert_eq!(undo::last(player.record(bell)), None, "the block itself is not taken back");
}

#[test]
fn undo_after_the_blocks_end_takes_back_the_end_only_and_the_coach_does_not_insist_on_it() {
    let (mut player, bell) = a_bell();
    while !player.judges(bell, Verdict::Clean) {}
    let played = player.record(bell).history().len() - 1;
    assert_eq!(undoes(&mut player, bell), "Undo the end");
    assert!(matches!(player.standing(bell), Standing::Practising { .. }));
    assert_eq!(player.record(bell).history().len(), played);
    assert!(!player.judges(bell, Verdict::Clean), "the player wants to go on");
    player.wait(5);
    assert!(player.judges(bell, Verdict::Clean), "but the minutes end every block");
}

#[test]
fn an_end_after_the_minutes_ended_nothing_so_undo_names_the_verdict() {
    let (mut player, bell) = a_bell();
    player.wait(5);
    assert!(player.judges(bell, Verdict::NotYet));
    assert_eq!(undo::last(player.record(bell)).map(|undo| undo.kind), Some(Undone::Verdict(Verdict::NotYet)));
}

#[test]
fn what_was_said_about_today_is_taken_back_today_only() {
    let (mut player, bell) = a_bell();
    player.does(EntryKind::NotToday { snippet: bell });
    let wish = |player: &Player| undo::wish(player.record(bell), player.now.day()).map(|undo| undo.kind);
    assert_eq!(wish(&player), Some(Undone::LeftOut));
    player.wait(24 * 60);
    assert_eq!(wish(&player), None);
}

#[test]
fn what_is_removed_is_listed_until_it_is_brought_back_with_all_that_happened_to_it() {
    let (mut player, bell) = a_bell();
    player.judges(bell, Verdict::Clean);
    let (piece, before) = (player.record(bell).piece, player.record(bell).clone());
    let listed = |player: &Player| {
        let removed = player.journal.state().removed().filter(|removed| removed.at > crate::player::morning());
        removed.map(|removed| (removed.item, removed.name.clone(), removed.entries.clone())).collect::<Vec<_>>()
    };
    player.does(EntryKind::SnippetRemoved { snippet: bell });
    assert_eq!(listed(&player)[0].1, "The last bell");
    player.does(EntryKind::PieceRemoved { piece });
    let removed = listed(&player);
    assert_eq!(removed.len(), 1, "a snippet comes back with its piece or after it: {removed:?}");
    assert_eq!((removed[0].0, &*removed[0].1), (Item::Piece(piece), "Bells"));
    for _ in 0..2 {
        for entry in listed(&player).remove(0).2 {
            player.does(EntryKind::Retracted { entry });
        }
    }
    assert_eq!(listed(&player), []);
    assert_eq!(player.record(bell), &before);
}

#[test]
fn what_two_devices_have_removed_comes_back_with_one_tap() {
    let (mut player, bell) = a_bell();
    let piece = player.record(bell).piece;
    player.does(EntryKind::PieceRemoved { piece });
    player.does(EntryKind::PieceRemoved { piece });
    let entries = player.journal.state().removed().next().expect("a removed piece").entries.clone();
    for entry in entries {
        player.does(EntryKind::Retracted { entry });
    }
    assert!(player.journal.state().piece(piece).is_some());
}
