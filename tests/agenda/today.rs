//! The order of the day.

use crate::player::Player;
use tailfirst::{
    agenda::Today,
    journal::{EntryKind, SnippetId},
};

const DAY: u32 = 24 * 60;

/// Names of the next one and, after it, of the others.
fn order(player: &Player) -> Vec<String> {
    let today = Today::at(player.journal.state(), player.now);
    let name = |id: SnippetId| player.record(id).snippet.name().to_string();
    today.next.iter().chain(&today.others).map(|row| name(row.id)).collect()
}

#[test]
fn what_has_waited_longest_comes_first_and_what_is_new_after_it() {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let [late, early, new] = ["late", "early", "new"].map(|name| player.snippet(piece, name, 3));
    player.practises(early);
    player.wait(2 * DAY);
    player.practises(late);
    player.wait(DAY);
    assert_eq!(order(&player), ["early", "late", "new"]);
    let days: Vec<Option<i32>> = {
        let today = Today::at(player.journal.state(), player.now);
        today.next.iter().chain(&today.others).map(|row| row.days_since).collect()
    };
    assert_eq!(days, [Some(3), Some(1), None]);
    player.practises(new);
    assert_eq!(order(&player), ["early", "late", "new"], "what rests waits");
    player.wait(15);
    assert_eq!(order(&player), ["early", "late", "new"], "what was played today waits for what was not");
}

#[test]
fn a_block_under_way_comes_before_all_and_what_is_left_out_stands_apart() {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let [first, second, third] = ["first", "second", "third"].map(|name| player.snippet(piece, name, 3));
    player.begins(third);
    player.does(EntryKind::NotToday { snippet: first });
    assert_eq!(order(&player), ["third", "second"]);
    let today = Today::at(player.journal.state(), player.now);
    assert_eq!(today.left_out.iter().map(|row| row.id).collect::<Vec<_>>(), [first]);
    player.does(EntryKind::BlockEnded { snippet: third });
    player.practises(second);
    assert_eq!(order(&player), ["third", "second"], "a block without a repetition needs no rest");
}

#[test]
fn nothing_is_next_while_all_rest_and_an_empty_day_says_so() {
    let mut player = Player::new();
    assert!(Today::at(player.journal.state(), player.now).has_nothing());
    let piece = player.piece("Waltz");
    let only = player.snippet(piece, "only", 3);
    player.practises(only);
    let today = Today::at(player.journal.state(), player.now);
    assert_eq!((today.next, today.others.len(), today.has_nothing()), (None, 1, false));
    player.does(EntryKind::NotToday { snippet: only });
    assert!(!Today::at(player.journal.state(), player.now).has_nothing());
}
