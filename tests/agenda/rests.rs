//! What is said in a rest, and who calls back.

use crate::player::Player;
use tailfirst::{
    agenda::{
        rest::{Meanwhile, calls_back, is_playing, meanwhile, rested, rings},
        undo,
    },
    journal::{EntryKind, SnippetId},
    method::{Done, Standing},
};

fn three(player: &mut Player) -> [SnippetId; 3] {
    let (waltz, march) = (player.piece("Waltz"), player.piece("March"));
    [player.snippet(waltz, "leap", 3), player.snippet(waltz, "run", 3), player.snippet(march, "trill", 3)]
}

fn advised(player: &Player, resting: SnippetId) -> Meanwhile {
    meanwhile(player.journal.state(), None, resting, player.now)
}

#[test]
fn the_days_first_rest_is_spent_away_from_the_keys_for_five_minutes() {
    let mut player = Player::new();
    let [leap, run, trill] = three(&mut player);
    player.practises(leap);
    assert_eq!(advised(&player, leap), Meanwhile::Away);
    player.wait(4);
    assert_eq!(advised(&player, leap), Meanwhile::Away);
    player.wait(1);
    assert_eq!(advised(&player, leap), Meanwhile::Another(trill));
    player.practises(trill);
    assert_eq!(advised(&player, trill), Meanwhile::Another(run), "only the first rest of a day is the early one");
}

#[test]
fn a_rest_leads_to_what_is_least_alike_and_to_nothing_where_all_rest() {
    let mut player = Player::new();
    let [leap, run, trill] = three(&mut player);
    player.practises(run);
    player.practises(leap);
    assert_eq!(advised(&player, leap), Meanwhile::Another(trill), "another piece before another place");
    player.practises(trill);
    assert_eq!(advised(&player, trill), Meanwhile::Nothing);
}

#[test]
fn a_rest_that_is_over_calls_back_once_until_it_is_answered_or_old() {
    let mut player = Player::new();
    let [leap, ..] = three(&mut player);
    player.practises(leap);
    player.wait(14);
    assert_eq!(rested(player.journal.state(), player.now), []);
    player.wait(1);
    let now_rested = rested(player.journal.state(), player.now);
    assert_eq!(now_rested, [leap]);
    assert!(rings(Some(&[]), &now_rested) && !rings(Some(&now_rested), &now_rested) && !rings(None, &now_rested));
    assert_eq!(calls_back(&now_rested, &[], None), Some(leap));
    assert_eq!(calls_back(&now_rested, &[leap], None), None);
    assert_eq!(calls_back(&now_rested, &[], Some(leap)), None);
    player.wait(60);
    assert_eq!(rested(player.journal.state(), player.now), []);
}

#[test]
fn nothing_interrupts_a_block() {
    let mut player = Player::new();
    let [leap, ..] = three(&mut player);
    let playing = |player: &Player| is_playing(player.journal.state(), leap, player.now);
    assert!(!playing(&player));
    player.begins(leap);
    assert!(playing(&player));
    player.does(EntryKind::BlockEnded { snippet: leap });
    assert!(!playing(&player));
}

#[test]
fn the_player_may_practise_before_the_rest_is_over_for_one_block_and_it_is_kept() {
    let mut player = Player::new();
    let [leap, ..] = three(&mut player);
    player.practises(leap);
    assert!(matches!(player.standing(leap), Standing::Resting { .. }));
    let overruled = player.does(EntryKind::RestOverruled { snippet: leap });
    assert_eq!(player.standing(leap), Standing::Ready { blocks_today: 1 });
    assert_eq!(rested(player.journal.state(), player.now), [], "a rest cut short is no news");
    let undo = undo::before_beginning(player.record(leap), false).expect("it can be taken back");
    assert_eq!(undo.entry, overruled);
    player.does(undo.retracts());
    assert!(matches!(player.standing(leap), Standing::Resting { .. }));
    player.does(EntryKind::RestOverruled { snippet: leap });
    player.practises(leap);
    assert!(matches!(player.standing(leap), Standing::Resting { .. }), "it holds for one block");
}

#[test]
fn the_share_of_the_day_can_be_overruled_on_that_day() {
    let mut player = Player::new();
    let [leap, ..] = three(&mut player);
    for _ in 0..3 {
        player.practises(leap);
        player.wait(15);
    }
    assert_eq!(player.standing(leap), Standing::DoneToday(Done::BlocksPlayed));
    player.does(EntryKind::RestOverruled { snippet: leap });
    assert_eq!(player.standing(leap), Standing::Ready { blocks_today: 3 });
    player.does(EntryKind::GoodEnough { snippet: leap });
    assert_eq!(player.standing(leap), Standing::DoneToday(Done::GoodEnough), "what is said last counts");
}
