//! How long what was practised holds, as it follows from a player's mornings.

use crate::player::Player;
use tailfirst::{
    agenda::Coaches,
    calendar::{self, Retention},
    journal::{EntryKind, SnippetId},
    method::Verdict,
};

const DAY: u32 = 24 * 60;

fn retention(player: &Player, snippet: SnippetId) -> Option<Retention> {
    let trace = Coaches::default().of(snippet, player.record(snippet)).trace;
    Retention::of(&trace, &calendar::Player::of([&*trace]))
}

/// A snippet of three onsets that was clean six times, and the same on the next mornings, with these cold tries first.
fn mornings(cold_tries: &[Verdict]) -> (Player, SnippetId) {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let leap = player.snippet(piece, "leap", 3);
    let evening = |player: &mut Player| {
        for _ in 0..6 {
            player.judges(leap, Verdict::Clean);
        }
        player.does(EntryKind::BlockEnded { snippet: leap });
    };
    player.begins(leap);
    evening(&mut player);
    for cold_try in cold_tries {
        player.wait(3 * DAY);
        player.begins(leap);
        player.judges(leap, *cold_try);
        evening(&mut player);
    }
    (player, leap)
}

#[test]
fn nothing_is_foretold_before_anything_went_well() {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let leap = player.snippet(piece, "leap", 3);
    assert_eq!(retention(&player, leap), None);
    player.begins(leap);
    player.judges(leap, Verdict::NotYet);
    assert_eq!(retention(&player, leap), None);
}

#[test]
fn mornings_that_kept_it_let_it_hold_longer_than_mornings_that_lost_it() {
    let in_a_week = |cold_tries: &[Verdict]| {
        let (player, leap) = mornings(cold_tries);
        retention(&player, leap).expect("it was practised").after(7.0).mean
    };
    let never_tried = in_a_week(&[]);
    let kept = in_a_week(&[Verdict::Clean, Verdict::Clean]);
    let lost = in_a_week(&[Verdict::NotYet, Verdict::NotYet]);
    assert!(lost < never_tried && never_tried < kept, "{lost:?} {never_tried:?} {kept:?}");
}

#[test]
fn a_cold_try_that_is_taken_back_tells_nothing() {
    let (mut player, leap) = mornings(&[]);
    player.wait(3 * DAY);
    let before = retention(&player, leap);
    player.begins(leap);
    player.judges(leap, Verdict::NotYet);
    assert_ne!(retention(&player, leap), before);
    let (missed, _) = player.record(leap).last_repetition().expect("a repetition");
    player.does(EntryKind::Retracted { entry: missed });
    assert_eq!(retention(&player, leap), before);
}
