//! What the coach says: the step to play, the move that led to it, why, and how sure.

use crate::method::{Cause, ChanceBand, Difference, Leaving, Move, Step, rules::Asked};

/// What to do now.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What to play; where the move is [`Move::Leave`], what was played last or comes next.
    pub step: Step,
    /// Index of the onset that this step is about: the goal, or the end of a narrowed task.
    pub aim: usize,
    /// The move from the step before.
    pub led_by: Move,
    /// How the step differs from the one before it.
    pub change: Difference,
    /// Why this step.
    pub reason: Reason,
    /// How sure the step is, against what is asked.
    pub sureness: Sureness,
    /// What to listen for: the cause of most misses of this step, the last one among them.
    pub mind: Option<Cause>,
    /// The step that was too hard, while a smaller task prepares it.
    pub narrowed_from: Option<Step>,
    /// Once secure, and missed cold for days: learning it again from its first step may be quicker.
    pub consider_afresh: bool,
}

/// How sure the present step is, and what is asked of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sureness {
    /// The believed chance of a clean repetition with its 90 % band.
    pub now: ChanceBand,
    /// What leads onward.
    pub wanted: Wanted,
}

/// What is asked of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wanted {
    /// On the way it has to go well.
    Well {
        /// From this expected chance on, 0..1 …
        level: f64,
        /// … after so many clean repetitions.
        fewest_clean: u32,
    },
    /// The whole has to be secure.
    Secure {
        /// What the player's strictness asks.
        asked: Asked,
        /// The probability that the chance is above the level asked.
        stands: f64,
    },
}

impl Wanted {
    /// The chance of a clean repetition that is asked for, 0..1.
    pub fn level(&self) -> f64 {
        match self {
            Wanted::Well { level, .. } => *level,
            Wanted::Secure { asked, .. } => asked.level,
        }
    }
}

/// Why the advice is what it is, with the numbers a sentence needs. Counts are of the repetitions since
/// the step was taken up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// Nothing has been played yet.
    Beginning,
    /// Neither well enough nor too hard so far.
    NotSureYet {
        /// Clean repetitions …
        clean: u32,
        /// … of so many.
        of: u32,
    },
    /// The step before this one went well.
    GoesWell {
        /// Clean repetitions …
        clean: u32,
        /// … of so many.
        of: u32,
    },
    /// The step before this one was too hard.
    TooHard {
        /// Missed repetitions …
        missed: u32,
        /// … of so many.
        of: u32,
    },
    /// The first repetition after at least one night.
    ColdTry {
        /// Since the last repetition, at least one.
        nights: u32,
    },
    /// The cold try was clean after so many nights: back to where the work stopped.
    HeldOvernight {
        /// Before the cold try, at least one.
        nights: u32,
    },
    /// A new block goes on where the last one stopped, so many nights ago.
    GoesOn {
        /// Since the last block; 0 on the same day.
        nights: u32,
    },
    /// The last block was left failing: this one begins with something easier that went well.
    LeftFailing,
    /// Nothing easier has helped so far: this block begins with something that was not tried last.
    SomethingElse,
    /// The player chose this step.
    Chosen,
    /// This move is due, but the player has taken it back often enough in this block.
    HeldBack(Move),
    /// The player learns it again from the start.
    Afresh,
    /// The block is over.
    Leave(Leaving),
}
