//! The cache of coaches says what a coach says who hears everything from the start.

use crate::player::Player;
use proptest::prelude::*;
use std::rc::Rc;
use tailfirst::{
    agenda::Coaches,
    journal::{EntryKind, SnippetId},
    method::{Cause, Verdict},
};

/// What a player may do between two looks at the advice.
#[derive(Clone, Debug)]
enum Does {
    Begin,
    Judge(bool),
    NameCause,
    TakeBack,
    Sleep,
}

fn doings() -> impl Strategy<Value = Vec<Does>> {
    let one = prop_oneof![
        1 => Just(Does::Begin),
        6 => any::<bool>().prop_map(Does::Judge),
        1 => Just(Does::NameCause),
        2 => Just(Does::TakeBack),
        1 => Just(Does::Sleep),
    ];
    prop::collection::vec(one, 1..30)
}

fn does(player: &mut Player, snippet: SnippetId, what: &Does) {
    match what {
        Does::Begin => player.begins(snippet),
        Does::Judge(clean) => {
            player.judges(snippet, if *clean { Verdict::Clean } else { Verdict::NotYet });
        }
        Does::NameCause => {
            if let Some((repetition, _)) = player.record(snippet).last_repetition() {
                player.does(EntryKind::CauseNamed { repetition, cause: Cause::Late });
            }
        }
        Does::TakeBack => {
            let last = player.record(snippet).history().len().checked_sub(1);
            if let Some(entry) = last.and_then(|last| player.record(snippet).entry(last)) {
                player.does(EntryKind::Retracted { entry });
            }
        }
        Does::Sleep => player.wait(24 * 60),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_cached_coach_advises_as_one_who_hears_all_from_the_start(doings in doings()) {
        let mut player = Player::new();
        let piece = player.piece("Waltz");
        let snippet = player.snippet(piece, "leap", 4);
        let mut coaches = Coaches::default();
        for what in &doings {
            does(&mut player, snippet, what);
            let cached = coaches.of(snippet, player.record(snippet));
            let afresh = Coaches::default().of(snippet, player.record(snippet));
            prop_assert_eq!(cached.coach.advice(player.now), player.advice(snippet), "after {:?}", what);
            prop_assert_eq!(cached.trace, afresh.trace, "after {:?}", what);
        }
    }
}

#[test]
fn a_coach_who_has_heard_all_is_handed_out_again_without_a_replay() {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let [leap, run] = ["leap", "run"].map(|name| player.snippet(piece, name, 4));
    player.practises(leap);
    let mut coaches = Coaches::default();
    let first = coaches.of(leap, player.record(leap)).coach;
    coaches.of(run, player.record(run));
    assert!(Rc::ptr_eq(&first, &coaches.of(leap, player.record(leap)).coach));
}

#[test]
fn an_edited_snippet_has_another_coach() {
    let mut player = Player::new();
    let piece = player.piece("Waltz");
    let leap = player.snippet(piece, "leap", 4);
    player.practises(leap);
    let mut coaches = Coaches::default();
    coaches.of(leap, player.record(leap));
    let other = player.snippet(piece, "longer leap", 6);
    let to = player.record(other).snippet.clone();
    player.does(EntryKind::SnippetChanged { snippet: leap, to });
    assert_eq!(coaches.of(leap, player.record(leap)).coach.advice(player.now), player.advice(leap));
}
