//! What the practice screen shows, and what that asks of the device.

use crate::player::Player;
use tailfirst::{
    agenda::{
        Rest, Shown,
        practice::{Miss, last_miss},
    },
    journal::{EntryKind, SnippetId},
    method::{Cause, Done, Verdict},
};

fn a_leap() -> (Player, SnippetId) {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let leap = player.snippet(piece, "leap", 3);
    (player, leap)
}

#[test]
fn the_device_stays_awake_while_the_pulse_runs_and_until_a_rest_has_called_back() {
    let (mut player, leap) = a_leap();
    let awake = |player: &Player, running| player.shown(leap, running).keeps_awake();
    assert_eq!(player.shown(leap, false), Shown::Ready { again: false });
    assert!(!awake(&player, false));
    player.begins(leap);
    assert!(matches!(player.shown(leap, true), Shown::Playing { .. }) && awake(&player, true));
    assert!(matches!(player.shown(leap, false), Shown::Paused { .. }) && !awake(&player, false));
    player.judges(leap, Verdict::Clean);
    player.does(EntryKind::BlockEnded { snippet: leap });
    assert!(matches!(player.shown(leap, false), Shown::Resting(Rest::Until(_))) && awake(&player, false));
    player.does(EntryKind::GoodEnough { snippet: leap });
    assert_eq!(player.shown(leap, false), Shown::Resting(Rest::Today(Done::GoodEnough)));
    assert!(!awake(&player, false), "what is done for today calls nobody back");
}

#[test]
fn a_block_that_goes_on_elsewhere_shows_when_its_minutes_end() {
    let (mut player, leap) = a_leap();
    player.begins(leap);
    let ends = player.now.plus_minutes(5);
    player.wait(2);
    assert_eq!(player.shown(leap, false), Shown::Paused { ends });
}

#[test]
fn the_last_repetition_may_be_judged_after_the_minutes_where_the_pulse_runs() {
    let (mut player, leap) = a_leap();
    player.begins(leap);
    player.judges(leap, Verdict::Clean);
    player.wait(5);
    assert!(matches!(player.shown(leap, true), Shown::Playing { .. }));
    assert!(matches!(player.shown(leap, false), Shown::Resting(_)));
}

#[test]
fn only_the_coachs_rest_can_be_overruled_the_players_own_word_is_taken_back() {
    let (player, _) = a_leap();
    assert!(Rest::Until(player.now).can_be_overruled() && Rest::Today(Done::BlocksPlayed).can_be_overruled());
    assert!(!Rest::Today(Done::GoodEnough).can_be_overruled() && !Rest::Today(Done::LeftOut).can_be_overruled());
}

#[test]
fn of_the_miss_that_ends_a_block_it_can_still_be_said_what_was_not_right_and_where() {
    let (mut player, leap) = a_leap();
    player.begins(leap);
    player.wait(5);
    assert!(player.judges(leap, Verdict::NotYet), "the minutes are used");
    let miss = last_miss(player.record(leap)).expect("the miss");
    assert_eq!((miss.cause, miss.broke_at), (None, None));
    player.does(EntryKind::CauseNamed { repetition: miss.repetition, cause: Cause::Late });
    let goal = player.record(leap).snippet.goal();
    assert_eq!(miss.broke_at(goal - 1), None, "the goal alone was played");
    player.does(miss.broke_at(goal).expect("it was played"));
    let said = Miss { cause: Some(Cause::Late), broke_at: Some(goal), ..miss };
    assert_eq!(last_miss(player.record(leap)), Some(said));
    assert_eq!(said.broke_at(goal), None, "said already");
    player.does(EntryKind::GoodEnough { snippet: leap });
    assert_eq!(last_miss(player.record(leap)), None);
}
