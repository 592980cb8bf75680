//! Whether a date will be met, as it follows from a player's days.

use crate::player::Player;
use std::cell::RefCell;
use tailfirst::{
    agenda::{Coaches, Outlook},
    journal::{EntryKind, PieceEdit, PieceId, SnippetId},
    method::Verdict,
    music::Hand,
    words,
};

const DAY: u32 = 24 * 60;

fn outlook(player: &Player, piece: PieceId) -> Option<Outlook> {
    let (state, coaches) = (player.journal.state(), RefCell::new(Coaches::default()));
    let followed = |id: SnippetId| Some(coaches.borrow_mut().of(id, state.snippet(id)?));
    Outlook::of(state, state.piece(piece).expect("a piece"), followed, player.now)
}

fn date_in(player: &mut Player, piece: PieceId, days: i32) {
    let date = Some(Some(player.now.day() + days));
    player.does(EntryKind::PieceEdited { piece, to: PieceEdit { date, ..PieceEdit::default() } });
}

/// Two snippets that were practised on three days, one clean and one with every other repetition missed.
fn three_days() -> (Player, PieceId, [SnippetId; 2]) {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let snippets =
        [player.snippet_of(piece, "the run", 4, Hand::Right), player.snippet_of(piece, "the leap", 4, Hand::Left)];
    for _ in 0..3 {
        for (id, every) in snippets.into_iter().zip([usize::MAX, 2]) {
            player.begins(id);
            for nth in 1..=12 {
                player.judges(id, if nth % every == 0 { Verdict::NotYet } else { Verdict::Clean });
            }
            player.wait(2);
            player.does(EntryKind::BlockEnded { snippet: id });
        }
        player.wait(DAY);
    }
    (player, piece, snippets)
}

#[test]
fn nothing_is_foretold_without_a_date_to_come_or_anything_practised() {
    let (mut player, piece, _) = three_days();
    assert_eq!(outlook(&player, piece), None, "no date");
    date_in(&mut player, piece, 0);
    assert_eq!(outlook(&player, piece), None, "the date itself");
    let other = player.piece("Gigue");
    player.snippet(other, "new", 4);
    date_in(&mut player, other, 20);
    assert_eq!(outlook(&player, other), None, "nothing of it was begun");
}

#[test]
fn the_outlook_names_what_holds_the_piece_back_and_what_would_change_it() {
    let (mut player, piece, [run, leap]) = three_days();
    player.snippet(piece, "the end", 3);
    date_in(&mut player, piece, 21);
    let outlook = outlook(&player, piece).expect("an outlook");
    assert_eq!((outlook.not_begun, outlook.clean.2), (1, 2));
    assert!(outlook.minutes_a_day > 0 && outlook.clean.0 <= outlook.clean.1 && outlook.clean.1 <= 2, "{outlook:?}");
    let (holds_back, without) = outlook.holds_back.expect("one of two");
    assert_eq!(holds_back, leap, "the run was always clean");
    assert_ne!(holds_back, run);
    assert!(without >= outlook.whole && outlook.with_more_minutes >= outlook.whole, "{outlook:?}");
    let told = words::outlook(&outlook, |id| player.record(id).snippet.name().to_string());
    assert!(told.contains("What holds it back: the leap.") && told.contains("1 snippet is not begun"), "{told}");
}
