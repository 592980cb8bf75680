//! What the coach says: a sentence or two for each reason, of at most twelve words, and the rule behind it.
//!
//! A sentence claims only what stands in the advice it is about: what changed, how often, for how long.

use crate::{
    method::{
        Added, Advice, Difference, GoalChange, Grain, Hands, HandsChange, Leaving, Move, Reason, Side, SpanChange,
    },
    words::{Count, cause, percent, say, sentences},
};
use std::cmp::Ordering;

/// What the step asks, in one line.
pub fn coach(advice: &Advice) -> String {
    let change = &advice.change;
    match advice.reason {
        Reason::Beginning if advice.step.span.count() > 1 => say::the_bar_of_the_goal().into(),
        Reason::Beginning => say::the_goal_alone().into(),
        Reason::NotSureYet { .. } => {
            advice.mind.map_or_else(|| say::again().into(), |minded| say::mind_a_cause(cause(minded)))
        }
        Reason::GoesWell { .. } => sentences([say::goes_well().into(), onward(change, advice.step.hands)]),
        Reason::TooHard { .. } => back(change, advice.step.hands),
        Reason::ColdTry { nights } => say::once_cold(nights.into()),
        Reason::HeldOvernight { nights } => {
            sentences([say::held(nights.into()), say::on_from_where_you_stopped().into()])
        }
        Reason::GoesOn { nights: 0 } => say::on_from_where_you_stopped().into(),
        Reason::GoesOn { .. } => sentences([say::a_new_day(), say::on_from_where_you_stopped()].map(String::from)),
        Reason::LeftFailing if only_slower(change) => say::as_last_time_slower().into(),
        Reason::LeftFailing => say::what_went_well_before().into(),
        Reason::SomethingElse if change.span == SpanChange::Same && change.hands == HandsChange::Same => {
            say::full_tempo_once().into()
        }
        Reason::SomethingElse => back(change, advice.step.hands),
        Reason::Chosen => say::as_you_wish().into(),
        Reason::HeldBack(due) => held_back(due),
        Reason::Afresh => say::from_the_first_step().into(),
        Reason::Leave(leaving) => leave(leaving),
    }
}

/// What is new after a step that went well.
fn onward(change: &Difference, hands: Hands) -> String {
    match (change.span, change.hands, change.tempo) {
        (SpanChange::Longer(added), joined, _) => longer(added, joined, hands),
        (_, HandsChange::Joined, Ordering::Less) => say::now_both_hands_slower().into(),
        (_, HandsChange::Joined, _) => say::now_both_hands().into(),
        (_, _, Ordering::Greater) => say::a_little_faster().into(),
        _ => say::to_the_next_step().into(),
    }
}

/// What was added, and what that means for the hands or the goal.
fn longer(added: Added, change: HandsChange, hands: Hands) -> String {
    let what = match (added.side, added.unit) {
        (Side::InFront, Grain::Onset) => say::onsets_in_front(added.onsets.into()),
        (Side::Behind, Grain::Onset) => say::onsets_behind(added.onsets.into()),
        (Side::InFront, Grain::Beat) => say::a_beat_in_front().into(),
        (Side::Behind, Grain::Beat) => say::a_beat_behind().into(),
        (Side::InFront, Grain::Bar) => say::a_bar_in_front().into(),
        (Side::Behind, Grain::Bar) => say::a_bar_behind().into(),
    };
    let besides = match (added.goal, change) {
        (GoalChange::Reached, _) => return say::to_the_goal().into(),
        (GoalChange::Ahead, _) => say::nearer_to_the_goal(),
        (GoalChange::Played, HandsChange::Joined) => say::both_now(),
        (GoalChange::Played, HandsChange::Alone) => say::one_hand_first(),
        (GoalChange::Played, _) if hands == Hands::Both => say::both_at_once(),
        (GoalChange::Played, _) => return what,
    };
    sentences([what, besides.into()])
}

/// What is asked after a step that was too hard.
fn back(change: &Difference, hands: Hands) -> String {
    match (change.span, change.hands, hands) {
        (SpanChange::Part { onsets }, ..) => say::a_smaller_task(onsets.into()),
        (_, HandsChange::Alone, Hands::Left) => say::left_alone_first().into(),
        (_, HandsChange::Alone, _) => say::right_alone_first().into(),
        _ if only_slower(change) => say::slower_all_else_the_same().into(),
        _ => say::something_easier().into(),
    }
}

fn only_slower(change: &Difference) -> bool {
    let same = (change.span, change.hands) == (SpanChange::Same, HandsChange::Same);
    same && change.tempo == Ordering::Less
}

/// The step stays as the player wants it, although a move is due.
fn held_back(due: Move) -> String {
    match due {
        Move::JoinHands | Move::Lengthen | Move::CarryThrough | Move::Climb => {
            sentences([say::goes_well(), say::you_say_when()].map(String::from))
        }
        _ => say::your_choice_stands().into(),
    }
}

/// Why a snippet is left now.
pub fn leave(leaving: Leaving) -> String {
    match leaving {
        Leaving::WholeSecure => say::whole_is_secure().into(),
        Leaving::HeldOvernight { nights } => {
            sentences([say::held(nights.into()), say::enough_for_its_first_turn().into()])
        }
        Leaving::MinutesUsed { .. } => say::minutes_are_used().into(),
        Leaving::FlatOrFalling { .. } => say::no_more_to_gain().into(),
        Leaving::CausesDiffer { .. } => say::each_miss_was_different().into(),
        Leaving::TempoFloor { .. } => say::enough_at_this_tempo().into(),
        Leaving::Stopped => say::stopped().into(),
        Leaving::GoodEnough => say::good_enough_by_ear().into(),
    }
}

/// Which rule spoke, with its numbers, for whoever asks why.
pub fn rule(reason: Reason) -> String {
    match reason {
        Reason::Beginning => say::why_the_goal_alone().into(),
        Reason::NotSureYet { clean, of } => say::why_again(clean.into(), of.into()),
        Reason::GoesWell { clean, of } => say::why_onward(clean.into(), of.into()),
        Reason::TooHard { missed, of } => say::why_back(missed.into(), of.into()),
        Reason::ColdTry { nights } => say::why_cold(nights.into()),
        Reason::HeldOvernight { .. } => say::why_resumed().into(),
        Reason::GoesOn { .. } => say::why_goes_on().into(),
        Reason::LeftFailing => say::why_easier().into(),
        Reason::SomethingElse => say::why_something_else().into(),
        Reason::Chosen => say::why_chosen().into(),
        Reason::HeldBack(due) => say::why_held_back(move_name(due)),
        Reason::Afresh => say::why_afresh().into(),
        Reason::Leave(leaving) => rule_of_leaving(leaving),
    }
}

fn rule_of_leaving(leaving: Leaving) -> String {
    match leaving {
        Leaving::WholeSecure => say::why_whole_secure().into(),
        Leaving::HeldOvernight { nights } => say::why_held(nights.into()),
        Leaving::MinutesUsed { minutes } => say::why_minutes_used(minutes.into()),
        Leaving::FlatOrFalling { from, to, repetitions } => {
            say::why_no_gain(repetitions.into(), &percent(from), &percent(to))
        }
        Leaving::CausesDiffer { misses } => say::why_causes_differ(Count::from(misses)),
        Leaving::TempoFloor { bpm } => say::why_slowest(bpm.get().into()),
        Leaving::Stopped => say::why_stopped().into(),
        Leaving::GoodEnough => say::why_good_enough().into(),
    }
}

/// The move as a name: "joining hands".
fn move_name(made: Move) -> &'static str {
    match made {
        Move::Begin => say::move_begin(),
        Move::Again => say::move_again(),
        Move::ColdTry => say::move_cold_try(),
        Move::JoinHands => say::move_join_hands(),
        Move::Lengthen => say::move_lengthen(),
        Move::Narrow => say::move_narrow(),
        Move::CarryThrough => say::move_carry_through(),
        Move::Ease => say::move_ease(),
        Move::Climb => say::move_climb(),
        Move::Overruled => say::move_overruled(),
        Move::Leave => say::move_leave(),
        Move::StartAfresh => say::move_start_afresh(),
    }
}
