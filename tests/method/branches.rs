//! Every branch of the advice is reached by some history, and each is explained by a sentence.
//!
//! The matches below have no catch-all: a new reason, move or leaving does not compile until it has a number
//! here, and does not pass until a history comes to it.

use crate::happenings::{Dice, Lesson, snippet};
use std::{collections::BTreeSet, rc::Rc};
use tailfirst::{
    method::{
        Advice, Cause, Direction, Done, Grain, Hands, HappeningKind, Leaving, Move, Reason, Settings, Snippet, Step,
        Strictness, Verdict, overrule,
    },
    words,
};

pub fn number_of_reason(reason: Reason) -> usize {
    match reason {
        Reason::Beginning => 0,
        Reason::NotSureYet { .. } => 1,
        Reason::GoesWell { .. } => 2,
        Reason::TooHard { .. } => 3,
        Reason::ColdTry { .. } => 4,
        Reason::HeldOvernight { .. } => 5,
        Reason::GoesOn { .. } => 6,
        Reason::LeftFailing => 7,
        Reason::SomethingElse => 12,
        Reason::Chosen => 8,
        Reason::HeldBack(_) => 9,
        Reason::Afresh => 10,
        Reason::Leave(_) => 11,
    }
}
pub const REASONS: usize = 13;

pub fn number_of_move(made: Move) -> usize {
    match made {
        Move::Begin => 0,
        Move::Again => 1,
        Move::ColdTry => 2,
        Move::JoinHands => 3,
        Move::Lengthen => 4,
        Move::Narrow => 5,
        Move::CarryThrough => 6,
        Move::Ease => 7,
        Move::Climb => 8,
        Move::Overruled => 9,
        Move::Leave => 10,
        Move::StartAfresh => 11,
    }
}
pub const MOVES: usize = 12;

pub fn number_of_leaving(leaving: Leaving) -> usize {
    match leaving {
        Leaving::WholeSecure => 0,
        Leaving::MinutesUsed { .. } => 1,
        Leaving::FlatOrFalling { .. } => 2,
        Leaving::CausesDiffer { .. } => 3,
        Leaving::TempoFloor { .. } => 4,
        Leaving::Stopped => 5,
        Leaving::GoodEnough => 6,
        Leaving::HeldOvernight { .. } => 7,
    }
}
pub const LEAVINGS: usize = 8;

/// The moves that can be held back: all that a choice of the player can take back.
const HELD_BACK: [Move; 6] =
    [Move::JoinHands, Move::Lengthen, Move::CarryThrough, Move::Climb, Move::Narrow, Move::Ease];

/// So many are followed whatever they come to, and more while something has not been reached.
const FEWEST_PLAYERS: u64 = 24;
const MOST_PLAYERS: u64 = 600;
/// What each of them does, one thing after the other.
const DOINGS: usize = 200;

/// What has been advised so far.
#[derive(Default)]
struct Reached {
    reasons: BTreeSet<usize>,
    moves: BTreeSet<usize>,
    leavings: BTreeSet<usize>,
    held_back: BTreeSet<usize>,
}

impl Reached {
    fn hear(&mut self, advice: &Advice) {
        self.reasons.insert(number_of_reason(advice.reason));
        self.moves.insert(number_of_move(advice.led_by));
        match advice.reason {
            Reason::Leave(leaving) => _ = self.leavings.insert(number_of_leaving(leaving)),
            Reason::HeldBack(due) => _ = self.held_back.insert(number_of_move(due)),
            _ => {}
        }
    }

    fn is_all(&self) -> bool {
        let counts = (self.reasons.len(), self.moves.len(), self.leavings.len(), self.held_back.len());
        counts == (REASONS, MOVES, LEAVINGS, HELD_BACK.len())
    }
}

/// Somebody at the stand, with habits of their own.
struct Player {
    dice: Dice,
    clean: f64,
    /// How often a miss gets a cause, any of them.
    names_causes: f64,
    /// A move that the player will not have, and mostly takes back.
    refuses: Option<Move>,
}

impl Player {
    fn number(player: u64) -> Self {
        let mut dice = Dice::thrown_by(player);
        let refuses = HELD_BACK.get(player as usize % 7).copied();
        Player { clean: dice.roll(), names_causes: dice.roll(), refuses, dice }
    }

    fn does(&mut self, lesson: &mut Lesson, snippet: &Snippet) -> Advice {
        let advice = lesson.advice();
        // It goes well for a while, and then badly for a while.
        if self.dice.roll() < 0.06 {
            self.clean = [0.02, 0.5, 0.9, 0.99][(self.dice.roll() * 4.0) as usize];
        }
        // Only whom the smaller task goes well is asked to carry it through.
        if self.refuses == Some(Move::CarryThrough) && advice.narrowed_from.is_some() {
            self.clean = 0.99;
        }
        let refused = Some(advice.led_by) == self.refuses && self.dice.roll() < 0.9;
        if let Some(step) = wish_against(advice.led_by, snippet, advice.step).filter(|_| refused) {
            return lesson.happens(HappeningKind::Overruled(step));
        }
        let leaves = advice.led_by == Move::Leave;
        match self.dice.roll() {
            roll if leaves && roll < 0.5 || roll < 0.01 => self.sits_down_again(lesson),
            roll if roll < 0.015 => lesson.happens(HappeningKind::BlockEnded),
            roll if roll < 0.02 => lesson.happens(HappeningKind::GoodEnough),
            roll if roll < 0.025 => lesson.happens(HappeningKind::StartedAfresh),
            roll if roll < 0.03 => lesson.happens(HappeningKind::NotToday),
            _ => self.plays(lesson, advice.step),
        }
    }

    fn plays(&mut self, lesson: &mut Lesson, step: Step) -> Advice {
        lesson.now = lesson.now.plus_ms(4_000);
        let verdict = if self.dice.roll() < self.clean { Verdict::Clean } else { Verdict::NotYet };
        let named = verdict == Verdict::NotYet && self.dice.roll() < self.names_causes;
        let any = Cause::ALL[(self.dice.roll() * Cause::ALL.len() as f64) as usize];
        lesson.happens(HappeningKind::Played { step, verdict, cause: named.then_some(any), broke_at: None })
    }

    fn sits_down_again(&mut self, lesson: &mut Lesson) -> Advice {
        let minutes = if self.dice.roll() < 0.5 { 20 } else { 24 * 60 };
        lesson.sit_down(lesson.now.plus_minutes(minutes))
    }
}

/// The choice that takes the move back.
fn wish_against(made: Move, snippet: &Snippet, step: Step) -> Option<Step> {
    match made {
        Move::JoinHands => overrule::other_hand(snippet, step),
        Move::Lengthen | Move::CarryThrough => overrule::shorter(snippet, step),
        Move::Climb => overrule::slower(step),
        Move::Narrow => overrule::longer(snippet, step),
        Move::Ease => overrule::faster(step),
        _ => None,
    }
}

fn snippets() -> Vec<Rc<Snippet>> {
    let grown = |onsets, goal, direction, grain| Rc::new((*snippet(onsets, goal, direction)).clone().growing_by(grain));
    vec![
        grown("RBLBBR", 4, Direction::TowardGoal, Grain::Onset),
        grown("BBBB", 0, Direction::SettingOut, Grain::Beat),
        grown("BBBBBB", 5, Direction::TowardGoal, Grain::Bar),
        grown("RBBR", 3, Direction::TowardGoal, Grain::Onset),
    ]
}

/// Follows one player through their days and shows every advice.
fn every_advice(number: u64, mut see: impl FnMut(&Advice, &Lesson)) {
    let snippets = snippets();
    let snippet = &snippets[number as usize % snippets.len()];
    let strictness = [Strictness::Lenient, Strictness::Usual, Strictness::Strict][number as usize % 3];
    let block_minutes = [5, 30][number as usize % 2];
    let mut lesson = Lesson::new(snippet, Settings { strictness, block_minutes, ..Settings::default() });
    let mut player = Player::number(number);
    see(&lesson.advice(), &lesson);
    for _ in 0..DOINGS {
        let advice = player.does(&mut lesson, snippet);
        see(&advice, &lesson);
    }
}

fn is_a_sentence(text: &str) -> bool {
    text.chars().next().is_some_and(|first| first.is_uppercase() || first.is_ascii_digit()) && text.ends_with('.')
}

fn is_for_the_stand(text: &str) -> bool {
    is_a_sentence(text) && text.split_whitespace().count() <= 12
}

/// At most twelve words where the player stands and plays; as many as it takes for whoever asks why.
fn is_explained(advice: &Advice) {
    let said = words::coach(advice);
    assert!(is_for_the_stand(&said), "{advice:?}: “{said}”");
    for told in [words::rule(advice.reason), words::estimate(&advice.sureness), words::asked(&advice.sureness)] {
        assert!(is_a_sentence(&told), "{advice:?}: “{told}”");
    }
}

/// What costs more is asked now and then.
fn is_foreseen(advice: &Advice, lesson: &Lesson) {
    let mind = words::change_of_mind(advice.reason, |verdict| lesson.coach.until_a_move(verdict, lesson.now));
    for told in [mind, words::course(&lesson.coach.believed())] {
        assert!(is_a_sentence(&told), "{advice:?}: “{told}”");
    }
}

#[test]
fn every_reason_move_and_leaving_is_reached_and_explained() {
    let (mut reached, mut advised) = (Reached::default(), 0);
    for player in 0..MOST_PLAYERS {
        every_advice(player, |advice, lesson| {
            reached.hear(advice);
            is_explained(advice);
            advised += 1;
            if advised % 97 == 0 {
                is_foreseen(advice, lesson);
            }
        });
        if player >= FEWEST_PLAYERS && reached.is_all() {
            println!("{advised} pieces of advice to {} players come to everything", player + 1);
            break;
        }
    }
    assert_eq!(reached.reasons, (0..REASONS).collect());
    assert_eq!(reached.moves, (0..MOVES).collect());
    assert_eq!(reached.leavings, (0..LEAVINGS).collect());
    assert_eq!(reached.held_back, HELD_BACK.map(number_of_move).into());
}

/// And one hand first after a miss; in either direction.
#[test]
fn the_next_onset_comes_in_both_hands_at_once_after_a_step_without_a_miss() {
    for (direction, said) in [
        (Direction::TowardGoal, "It goes well. One onset in front. Both hands at once."),
        (Direction::SettingOut, "It goes well. One onset behind. Both hands at once."),
    ] {
        let snippet = snippet("BBBBBB", if direction == Direction::TowardGoal { 5 } else { 0 }, direction);
        let lengthened = |letters: &str| {
            let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
            while lesson.play(Verdict::Clean).step.hands != Hands::Both {}
            letters.chars().for_each(|letter| _ = lesson.play(crate::happenings::verdict(letter)));
            (0..30).map(|_| lesson.play(Verdict::Clean)).find(|advice| advice.led_by == Move::Lengthen).expect("secure")
        };
        let (easily, hardly) = (lengthened(""), lengthened("N"));
        assert_eq!((easily.step.hands, words::coach(&easily).as_str()), (Hands::Both, said));
        assert_ne!(hardly.step.hands, Hands::Both);
    }
}

#[test]
fn what_stands_on_the_practice_screen_besides_is_short_too() {
    for text in
        [words::say::afresh_keeps_history(), words::say::consider_afresh(), words::say::nothing_played_in_block()]
    {
        assert!(is_for_the_stand(text), "“{text}”");
    }
    for done in [Done::BlocksPlayed, Done::GoodEnough, Done::LeftOut] {
        assert!(is_for_the_stand(&words::done(done, "Leap")));
    }
    assert!(words::say::judge_the_last().split_whitespace().count() <= 12);
}
