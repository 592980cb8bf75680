//! What the coach says: the step to play, the move that led to it, why, and how sure.

use crate::{
    method::{Cause, Difference, Move, Step, Verdict, estimate::Point, rules::Asked},
    music::Bpm,
};

/// What to do now.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What to play; where the move is [`Move::Leave`], what was played last or comes next.
    pub step: Step,
    /// Index of the onset that this step is about: the goal, or the end of a narrowed task.
    pub aim: usize,
    pub led_by: Move,
    /// How the step differs from the one before it.
    pub change: Difference,
    pub reason: Reason,
    pub sureness: Sureness,
    /// What to listen for: the cause of most misses of this step, the last one among them.
    pub mind: Option<Cause>,
    /// The step that was too hard, while a smaller task prepares it.
    pub narrowed_from: Option<Step>,
    /// Once secure, and missed cold for days: learning it again from its first step may be quicker.
    pub consider_afresh: bool,
}

/// How sure the present step is, and how sure it must be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sureness {
    /// The believed chance of a clean repetition with its 90 % band.
    pub now: Point,
    pub asked: Asked,
    /// The probability that the chance is above the level asked; secure when it reaches the certainty.
    pub chance_secure: f64,
}

/// One repetition of a block and what is known now about its step at that time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Believed {
    pub step: Step,
    pub verdict: Verdict,
    pub chance: Point,
}

/// Why the advice is what it is, with the numbers a sentence needs. Counts are of the repetitions since
/// the step was taken up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// Nothing has been played yet.
    Beginning,
    /// Neither secure nor too hard so far.
    NotSureYet {
        clean: u32,
        of: u32,
    },
    /// The step before this one was secure.
    Secure {
        clean: u32,
        of: u32,
    },
    /// The step before this one was too hard.
    TooHard {
        missed: u32,
        of: u32,
    },
    /// The first repetition after at least one night.
    ColdTry {
        nights: u32,
    },
    /// The cold try was clean after so many nights: back to where the work stopped.
    HeldOvernight {
        nights: u32,
    },
    /// A new block goes on where the last one stopped, so many nights ago.
    GoesOn {
        nights: u32,
    },
    /// The last block was left failing: this one begins with something easier.
    LeftFailing,
    /// The player chose this step.
    Chosen,
    /// This move is due, but the player has taken it back often enough in this block.
    HeldBack(Move),
    /// The player learns it again from the start.
    Afresh,
    Leave(Leaving),
}

/// Why it is time to leave the snippet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Leaving {
    /// A success: all onsets and hands are secure at the target tempo.
    WholeSecure,
    /// A success: the whole snippet, once secure, was clean in its cold try after so many nights.
    HeldOvernight {
        nights: u32,
    },
    MinutesUsed {
        minutes: u32,
    },
    /// The chance of a clean repetition did not rise over the last repetitions of the step.
    FlatOrFalling {
        from: f64,
        to: f64,
        repetitions: u32,
    },
    /// The last misses were all of different kinds.
    CausesDiffer {
        misses: u32,
    },
    /// Too hard even at the slowest tempo that is worth trying.
    TempoFloor {
        bpm: Bpm,
    },
    /// The player ended the block.
    Stopped,
    /// A success in the player's own judgement, which is the one that counts.
    GoodEnough,
}

impl Leaving {
    /// Whether the block ended because something did not work.
    pub fn is_of_failure(self) -> bool {
        matches!(self, Leaving::FlatOrFalling { .. } | Leaving::CausesDiffer { .. } | Leaving::TempoFloor { .. })
    }
}
