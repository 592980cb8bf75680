//! What the coach says: one sentence for each reason, of at most twelve words, and the rule behind it.
//!
//! A sentence claims only what stands in the advice it is about: what changed, how often, for how long.

use crate::{
    method::{
        Added, Advice, Difference, GoalChange, Grain, Hands, HandsChange, Leaving, Move, Reason, Side, SpanChange,
    },
    words::{cause, count, percent},
};
use std::cmp::Ordering;

/// What the step asks, in one line.
pub fn coach(advice: &Advice) -> String {
    let change = &advice.change;
    match advice.reason {
        Reason::Beginning => "The goal alone, exactly as it should sound.".into(),
        Reason::NotSureYet { .. } => match advice.mind {
            Some(minded) => format!("Mostly {} here. Mind that alone.", cause(minded)),
            None => "Again, the same.".into(),
        },
        Reason::Secure { .. } => onward(change, advice.step.hands),
        Reason::TooHard { .. } => back(change, advice.step.hands),
        Reason::ColdTry { nights: 1 } => "Once, cold. It shows what the night has kept.".into(),
        Reason::ColdTry { nights } => format!("Once, cold. It shows what {nights} nights have kept."),
        Reason::HeldOvernight { nights } => format!("{} On from where you stopped.", held(nights)),
        Reason::GoesOn { nights: 0 } => "On from where you stopped.".into(),
        Reason::GoesOn { .. } => "A new day. On from where you stopped.".into(),
        Reason::LeftFailing if only_slower(change) => "As last time, a little slower.".into(),
        Reason::LeftFailing => "First, what went well before.".into(),
        Reason::Chosen => "As you wish.".into(),
        Reason::HeldBack(due) => held_back(due).into(),
        Reason::Afresh => "From the first step, with fresh ears.".into(),
        Reason::Leave(leaving) => leave(leaving),
    }
}

fn held(nights: u32) -> String {
    if nights == 1 { "It held overnight.".into() } else { format!("It held for {nights} nights.") }
}

/// What is new after a step that went well.
fn onward(change: &Difference, hands: Hands) -> String {
    let next = match (change.span, change.hands, change.tempo) {
        (SpanChange::Longer(added), joined, _) => return format!("It goes well. {}.", longer(added, joined, hands)),
        (_, HandsChange::Joined, Ordering::Less) => "Now both hands together, a little slower.",
        (_, HandsChange::Joined, _) => "Now both hands together.",
        (_, _, Ordering::Greater) => "A little faster.",
        _ => "On to the next step.",
    };
    format!("It goes well. {next}")
}

/// What was added: "Two onsets in front, one hand first".
fn longer(added: Added, change: HandsChange, hands: Hands) -> String {
    let side = match added.side {
        Side::InFront => "in front",
        Side::Behind => "behind",
    };
    let what = match (added.unit, added.onsets) {
        (Grain::Beat, _) => "One beat".into(),
        (Grain::Bar, _) => "One bar".into(),
        (Grain::Onset, 1) => "One onset".into(),
        (Grain::Onset, more) => count(more, "onset"),
    };
    match (added.goal, change) {
        (GoalChange::Reached, _) => "On to the goal".into(),
        (GoalChange::Ahead, _) => format!("{what} {side}, nearer to the goal"),
        (GoalChange::Played, HandsChange::Joined) => format!("{what} {side}, now both hands"),
        (GoalChange::Played, HandsChange::Alone) => format!("{what} {side}, one hand first"),
        (GoalChange::Played, _) if hands == Hands::Both => format!("{what} {side}, both hands at once"),
        (GoalChange::Played, _) => format!("{what} {side}"),
    }
}

/// What is asked after a step that was too hard.
fn back(change: &Difference, hands: Hands) -> String {
    match (change.span, change.hands, hands) {
        (SpanChange::Part { onsets }, ..) => format!("A smaller task first: only {}.", count(onsets, "onset")),
        (_, HandsChange::Alone, Hands::Left) => "The left hand alone first.".into(),
        (_, HandsChange::Alone, _) => "The right hand alone first.".into(),
        _ if only_slower(change) => "A little slower, all else the same.".into(),
        _ => "Something easier first.".into(),
    }
}

fn only_slower(change: &Difference) -> bool {
    let same = (change.span, change.hands) == (SpanChange::Same, HandsChange::Same);
    same && change.tempo == Ordering::Less
}

/// The step stays as the player wants it, although a move is due.
fn held_back(due: Move) -> &'static str {
    match due {
        Move::JoinHands | Move::Lengthen | Move::CarryThrough | Move::Climb => "It goes well. You say when to go on.",
        _ => "Your choice stands. Smaller or slower is one tap away.",
    }
}

/// Why a snippet is left now.
pub fn leave(leaving: Leaving) -> String {
    match leaving {
        Leaving::WholeSecure => "The whole snippet is secure. Well worked.".into(),
        Leaving::HeldOvernight { nights } => format!("{} Enough for its first turn today.", held(nights)),
        Leaving::MinutesUsed { .. } => "The focused minutes are used. What you did now settles.".into(),
        Leaving::FlatOrFalling { .. } => "No more to gain now. A rest does the next part.".into(),
        Leaving::CausesDiffer { .. } => "Each miss was different: a sign to rest.".into(),
        Leaving::TempoFloor { .. } => "Enough for now. Try it again after a rest.".into(),
        Leaving::Stopped => "Stopped. Short of perfect is a good result.".into(),
        Leaving::GoodEnough => "Good enough for today. Your ear decides.".into(),
    }
}

/// Which rule spoke, with its numbers, for whoever asks why.
pub fn rule(reason: Reason) -> String {
    match reason {
        Reason::Beginning => "Nothing has been played yet, so the work begins with the goal alone.".into(),
        Reason::NotSureYet { clean, of } => {
            format!("{clean} of {of} at this step were clean: too few to go on, and not too hard so far.")
        }
        Reason::Secure { clean, of } => {
            format!("{clean} of {of} at the step before were clean: that goes well enough to go on.")
        }
        Reason::TooHard { missed, of } => {
            format!("{missed} of {of} at the step before were not yet clean: that step was too hard for now.")
        }
        Reason::ColdTry { nights } => {
            format!("{} since the last repetition: the first one now tells what has stayed.", nights_passed(nights))
        }
        Reason::HeldOvernight { .. } => "The cold try was clean, so the work goes on where it stopped.".into(),
        Reason::GoesOn { .. } => "A new block goes on where the last one stopped.".into(),
        Reason::LeftFailing => "The last block stopped at a step that failed, so this one begins easier.".into(),
        Reason::Chosen => "You chose this step. The coach follows and judges it by its own repetitions.".into(),
        Reason::HeldBack(due) => {
            format!("{} would be next. You have taken it back twice, so it waits for another block.", move_name(due))
        }
        Reason::Afresh => "It is learned again from the first step; what was played before is kept.".into(),
        Reason::Leave(leaving) => rule_of_leaving(leaving),
    }
}

fn nights_passed(nights: u32) -> String {
    count(nights as usize, "night")
}

fn rule_of_leaving(leaving: Leaving) -> String {
    match leaving {
        Leaving::WholeSecure => "Every onset and both hands are secure at the target tempo.".into(),
        Leaving::HeldOvernight { nights } => {
            format!("The whole snippet was secure, and after {} it was clean at once.", nights_passed(nights))
        }
        Leaving::MinutesUsed { minutes } => {
            format!("The {} of this block are used.", count(minutes as usize, "minute"))
        }
        Leaving::FlatOrFalling { from, to, repetitions } => {
            format!(
                "Over the last {repetitions} repetitions the estimate went from {} to {}.",
                percent(from),
                percent(to)
            )
        }
        Leaving::CausesDiffer { misses } => {
            format!("The last {misses} misses each had another cause: attention is spent.")
        }
        Leaving::TempoFloor { bpm } => format!("It is still too hard at {bpm}, the slowest tempo that helps."),
        Leaving::Stopped => "You ended the block.".into(),
        Leaving::GoodEnough => {
            "You found it good enough for today. That counts as a success, whatever the estimate says.".into()
        }
    }
}

/// The move as a name: "Joining hands".
fn move_name(made: Move) -> &'static str {
    match made {
        Move::Begin => "Beginning",
        Move::Again => "The same again",
        Move::ColdTry => "A cold try",
        Move::JoinHands => "Joining hands",
        Move::Lengthen => "A longer span",
        Move::Narrow => "A smaller task",
        Move::CarryThrough => "Carrying it through",
        Move::Ease => "A slower tempo",
        Move::Climb => "A faster tempo",
        Move::Overruled => "Your own step",
        Move::Leave => "A rest",
        Move::StartAfresh => "Starting afresh",
    }
}
