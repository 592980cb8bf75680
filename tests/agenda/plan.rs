//! The plan of the minutes there are, as a player's day goes on.

use crate::player::Player;
use std::cell::RefCell;
use tailfirst::{
    agenda::{
        Coaches, DayPlan,
        plan::{Entry, minutes_until},
        rest::{Meanwhile, meanwhile},
    },
    clock::Moment,
    journal::{EntryKind, PieceEdit, SnippetId},
    method::{Standing, Verdict},
    music::Hand,
};

const DAY: u32 = 24 * 60;

fn plan(player: &Player) -> Option<DayPlan> {
    let coaches = RefCell::new(Coaches::default());
    let followed = |id: SnippetId| Some(coaches.borrow_mut().of(id, player.journal.state().snippet(id)?));
    DayPlan::at(player.journal.state(), followed, player.now)
}

/// The plan by the names of its snippets and the minutes from now at which they begin; a pause is `-`.
fn told(player: &Player) -> Vec<(String, i64)> {
    let minutes = |moment: Moment| moment.ms_since(player.now) / 60_000;
    let entry = |entry: &Entry| match entry {
        Entry::Block(id, begins) => (player.record(*id).snippet.name().to_string(), minutes(*begins)),
        Entry::Pause(begins, _) => ("-".to_string(), minutes(*begins)),
    };
    plan(player).expect("a plan").entries.iter().map(entry).collect()
}

fn with_snippets<const N: usize>(names: [&str; N]) -> (Player, [SnippetId; N]) {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    // Unlike each other, so that they may follow each other.
    let mut hands = [Hand::Right, Hand::Left, Hand::Line].into_iter().cycle();
    let ids = names.map(|name| player.snippet_of(piece, name, 4 + name.len(), hands.next().expect("a hand")));
    (player, ids)
}

#[test]
fn the_minutes_are_filled_with_blocks_that_rest_and_end_in_time() {
    let (mut player, _) = with_snippets(["a", "bb", "ccc", "dddd"]);
    assert_eq!(plan(&player), None, "nobody has said how long");
    player.does(EntryKind::TimeGiven { minutes: 40 });
    let plan = plan(&player).expect("a plan");
    let told = told(&player);
    assert_eq!(plan.until, player.now.plus_minutes(40));
    assert_eq!(told.first().map(|(_, minutes)| *minutes), Some(0), "{told:?}");
    assert!(told.iter().filter(|(name, _)| name == "-").count() >= 1, "an hour's half without a pause: {told:?}");
    for (index, (name, begins)) in told.iter().enumerate() {
        assert!(begins + 2 <= 40, "{told:?}");
        let again = told[index + 1..].iter().find(|(other, _)| other == name && name != "-");
        assert!(again.is_none_or(|(_, later)| later - begins >= 20), "five minutes and fifteen of rest: {told:?}");
    }
    assert!(plan.holds(plan.turn(player.now).expect("something to play now")));
}

#[test]
fn the_plan_goes_on_from_what_was_played_and_ends_with_the_minutes() {
    let (mut player, _) = with_snippets(["a", "bb", "ccc"]);
    player.does(EntryKind::TimeGiven { minutes: 30 });
    let first = plan(&player).and_then(|plan| plan.turn(player.now)).expect("a turn");
    player.practises(first);
    let second = plan(&player).and_then(|plan| plan.turn(player.now)).expect("a turn");
    assert_ne!(first, second, "it rests");
    assert!(matches!(player.standing(first), Standing::Resting { .. }));
    let plan_now = plan(&player);
    assert_eq!(
        meanwhile(player.journal.state(), plan_now.as_ref(), first, player.now),
        Meanwhile::Another(second),
        "a rest is used as planned"
    );
    player.does(EntryKind::NotToday { snippet: second });
    assert!(!plan(&player).expect("a plan").holds(second), "it is left out");
    player.wait(30);
    assert_eq!(plan(&player), None, "the minutes are over");
}

#[test]
fn what_may_be_forgotten_is_tried_before_something_new_is_begun() {
    let (mut player, [old, ..]) = with_snippets(["old", "new", "newer"]);
    player.begins(old);
    while !player.judges(old, Verdict::Clean) {}
    player.wait(21 * DAY);
    player.does(EntryKind::TimeGiven { minutes: 10 });
    assert!(plan(&player).expect("a plan").holds(old), "{:?}", told(&player));
}

#[test]
fn what_was_laid_aside_waits_until_it_is_taken_up_or_has_a_date() {
    let (mut player, [snippet]) = with_snippets(["old"]);
    let piece = player.record(snippet).piece;
    player.practises(snippet);
    player.wait(120 * DAY);
    player.does(EntryKind::TimeGiven { minutes: 20 });
    assert!(!plan(&player).expect("a plan").holds(snippet));
    let date = Some(Some(player.now.day() + 30));
    player.does(EntryKind::PieceEdited { piece, to: PieceEdit { date, ..PieceEdit::default() } });
    assert!(plan(&player).expect("a plan").holds(snippet));
}

#[test]
fn nothing_new_is_begun_when_it_cannot_be_learned_before_its_date() {
    let (mut player, [snippet]) = with_snippets(["late"]);
    let piece = player.record(snippet).piece;
    player.does(EntryKind::TimeGiven { minutes: 20 });
    let with_date = |player: &mut Player, days: i32| {
        let date = Some(Some(player.now.day() + days));
        player.does(EntryKind::PieceEdited { piece, to: PieceEdit { date, ..PieceEdit::default() } });
        plan(player).expect("a plan").holds(snippet)
    };
    assert!(with_date(&mut player, 10));
    assert!(!with_date(&mut player, 1));
}

#[test]
fn a_time_of_this_day_is_so_many_minutes_away_and_one_that_is_over_none() {
    let (player, _) = with_snippets(["a"]);
    let until = |typed: &str| minutes_until(typed, player.now);
    assert_eq!((until("10:45"), until("23:59"), until("10:01")), (Some(45), Some(13 * 60 + 59), Some(1)));
    for over in ["10:00", "09:30", "24:00", "10:61", "", "ten", "-1:00"] {
        assert_eq!(until(over), None, "{over}");
    }
}

#[test]
fn a_block_under_way_is_finished_before_the_plan_goes_on() {
    let (mut player, [one, _]) = with_snippets(["a", "bb"]);
    player.does(EntryKind::TimeGiven { minutes: 20 });
    player.begins(one);
    player.judges(one, Verdict::Clean);
    let told = told(&player);
    assert_eq!(told.first().map(|(name, _)| name.as_str()), Some("bb"), "{told:?}");
    assert!(told[0].1 >= 4, "{told:?}");
}
