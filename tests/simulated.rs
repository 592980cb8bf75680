//! Simulated players practise by the coach and by policies that only count. The bench does so with
//! thousands; here a few say that players and coach are what they should be.

#[path = "support/invented.rs"]
mod invented;
#[path = "support/players/mod.rs"]
mod players;

use players::{
    dice::Dice,
    excerpt::excerpt,
    family::Family,
    player::Player,
    policy::Way,
    tally::{Tally, stories},
};
use tailfirst::method::{Rules, Step, Strictness};

const PLAYERS: u64 = 50;

fn tally(family: Family, way: Way) -> Tally {
    Tally::of(&stories(family, PLAYERS, |snippet| way.begin(snippet)))
}

#[test]
fn a_player_learns_and_plays_less_and_slower_more_safely() {
    for family in Family::ALL {
        for number in 0..10 {
            let snippet = excerpt(&mut Dice::of(number, 0));
            let mut player = Player::new(family, &snippet, number);
            let hands = snippet.hands_in(snippet.whole()).expect("hands");
            let whole = Step { span: snippet.whole(), hands, bpm: snippet.tempo().bpm };
            let slower = Step { bpm: whole.bpm.slower(), ..whole };
            let goal = Step { span: tailfirst::method::Span::only(snippet.goal()), ..whole };
            let before = player.chance(whole);
            assert!(before < player.chance(slower) && before < player.chance(goal), "{family:?} {number}");
            (0..100).for_each(|_| _ = player.play(whole));
            player.rest();
            assert!(player.chance(whole) > before, "{family:?} {number}");
        }
    }
}

/// Published keyboard studies found practice in parts, in either direction, to beat repeating the whole (Ash
/// & Holding 1990, read in its abstract). Players for whom it did not would be none to tune a coach with.
#[test]
fn parts_beat_the_whole_for_every_family() {
    for family in Family::ALL {
        let minutes = |way| tally(family, way).minutes.value;
        let whole = minutes(Way::Whole { in_a_row: 3 });
        for parts in [Way::Forward { in_a_row: 3 }, Way::Backward { in_a_row: 3 }] {
            assert!(minutes(parts) < whole, "{}: {}", family.name(), parts.name());
        }
    }
}

/// Fifty players leave room for chance: ten percentage points.
#[test]
fn by_the_coach_everybody_gets_there_and_the_whole_is_secure_when_it_says_so() {
    let certainty = Rules::CHOSEN.asked(Strictness::Usual).certainty;
    for family in Family::ALL {
        let tally = tally(family, Way::Coach(Strictness::Usual));
        let right = tally.right_whole();
        println!("{}: {:.1} minutes, {right:.3} of {} rightly", family.name(), tally.minutes.value, tally.declared);
        assert!(tally.arrived == 1.0 && right > certainty - 0.1, "{}: {tally:?}", family.name());
    }
}
