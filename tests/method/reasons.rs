//! Every branch of the coach can be reached and carries what a sentence about it needs.

use crate::happenings::{Dice, Lesson, snippet};
use std::collections::BTreeSet;
use tailfirst::method::{
    Advice, Cause, Direction, HappeningKind, Leaving, Move, Reason, Settings, Strictness, Verdict, overrule,
};

/// A player of some skill who names causes, overrules now and then, stops, comes back, and starts afresh.
fn act(lesson: &mut Lesson, dice: &mut Dice, skill: f64, scattered: bool) -> Advice {
    let advice = lesson.advice();
    let cause = if scattered { Cause::ALL[(dice.roll() * 7.0) as usize % 7] } else { Cause::TooLoud };
    // A task that was cut down goes well.
    let skill = if advice.narrowed_from.is_some() { 0.97 } else { skill };
    let verdict = if dice.roll() < skill { Verdict::Clean } else { Verdict::NotYet };
    let (step, cause) = (advice.step, (verdict == Verdict::NotYet).then_some(cause));
    match dice.roll() {
        chance if chance < 0.01 => lesson.happens(HappeningKind::StartedAfresh),
        chance if chance < 0.02 => lesson.happens(HappeningKind::BlockEnded),
        chance if chance < 0.04 => match overrule::slower(step) {
            Some(slower) => lesson.happens(HappeningKind::Overruled(slower)),
            None => advice,
        },
        chance if advice.led_by == Move::Leave || chance < 0.06 => {
            let minutes = if dice.roll() < 0.5 { 20 } else { 24 * 60 };
            lesson.sit_down(lesson.now.plus_minutes(minutes))
        }
        _ => {
            lesson.now = lesson.now.plus_ms(4_000);
            lesson.happens(HappeningKind::Played { step, verdict, cause, broke_at: None })
        }
    }
}

/// What a sentence says of the numbers must be true of them.
fn is_complete(advice: &Advice) -> bool {
    match advice.reason {
        Reason::GoesWell { clean, of } => 0 < clean && clean <= of,
        Reason::NotSureYet { clean, of } => 0 < of && clean <= of,
        Reason::TooHard { missed, of } => 0 < missed && missed <= of,
        Reason::ColdTry { nights } => nights > 0 && advice.led_by == Move::ColdTry,
        Reason::Leave(leaving) => {
            advice.led_by == Move::Leave
                && match leaving {
                    Leaving::FlatOrFalling { from, to, repetitions } => to <= from && repetitions > 0,
                    Leaving::CausesDiffer { misses } => misses > 0,
                    Leaving::MinutesUsed { minutes } => minutes > 0,
                    _ => true,
                }
        }
        _ => advice.led_by != Move::Leave,
    }
}

#[test]
fn every_reason_and_every_move_is_reached_with_what_its_sentence_needs() {
    let (mut reasons, mut moves) = (BTreeSet::new(), BTreeSet::new());
    for player in 0..40 {
        let mut dice = Dice::thrown_by(player + 1);
        let snippet = snippet("RBLBB", 4, Direction::TowardGoal);
        let strictness = [Strictness::Lenient, Strictness::Usual, Strictness::Strict][player as usize % 3];
        let block_minutes = if player < 20 { 2 } else { 30 };
        let mut lesson = Lesson::new(&snippet, Settings { strictness, block_minutes, ..Settings::default() });
        let skill = [0.05, 0.45, 0.6, 0.75, 0.97][player as usize % 5];
        let mut advice = lesson.advice();
        for _ in 0..150 {
            assert!(is_complete(&advice), "{advice:?}");
            let name = |value: String| value.split([' ', '{']).next().unwrap_or_default().to_owned();
            reasons.insert(match advice.reason {
                Reason::Leave(leaving) => name(format!("{leaving:?}")),
                reason => name(format!("{reason:?}")),
            });
            moves.insert(format!("{:?}", advice.led_by));
            advice = act(&mut lesson, &mut dice, skill, player % 2 == 0);
        }
    }
    let wanted = "Afresh Beginning CausesDiffer Chosen ColdTry GoesOn GoesWell HeldOvernight LeftFailing \
        MinutesUsed NotSureYet SomethingElse Stopped TempoFloor TooHard WholeSecure";
    let missing: Vec<&str> = wanted.split_whitespace().filter(|name| !reasons.contains(*name)).collect();
    assert!(missing.is_empty(), "not reached: {missing:?}");
    let wanted = "Again Begin CarryThrough Climb ColdTry Ease JoinHands Leave Lengthen Narrow Overruled StartAfresh";
    let missing: Vec<&str> = wanted.split_whitespace().filter(|name| !moves.contains(*name)).collect();
    assert!(missing.is_empty(), "not reached: {missing:?}");
}
