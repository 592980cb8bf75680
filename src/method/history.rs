//! What has happened to one snippet, in order: all that the coach may look back on.

use crate::{
    clock::Moment,
    method::{Cause, Settings, Step, Verdict},
};

/// One thing that happened to a snippet.
#[derive(Clone, Debug, PartialEq)]
pub struct Happening {
    /// When it happened.
    pub at: Moment,
    /// What happened.
    pub kind: HappeningKind,
}

/// The kinds of happening.
#[derive(Clone, Debug, PartialEq)]
pub enum HappeningKind {
    /// The player sat down to it. The settings hold for the whole block.
    BlockBegan(Settings),
    /// One repetition, with its cause and where it broke, so far as the player said.
    Played {
        /// What was played.
        step: Step,
        /// How the player judged it.
        verdict: Verdict,
        /// What was not yet right.
        cause: Option<Cause>,
        /// The onset at which it broke, where the player pointed to one.
        broke_at: Option<usize>,
    },
    /// The player asked for another step than the coach's.
    Overruled(Step),
    /// The player stopped before the minutes were used.
    BlockEnded,
    /// Learn it again from its first step.
    StartedAfresh,
    /// The player is content with it for today; the block is over.
    GoodEnough,
    /// The player leaves it out for today. It says nothing about how it goes.
    NotToday,
    /// The player practises it before its rest is over, or once more than the day's share.
    RestOverruled,
}
