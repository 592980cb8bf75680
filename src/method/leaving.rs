//! Why a block is over.

use crate::music::Bpm;

/// Why it is time to leave the snippet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Leaving {
    /// A success: all onsets and hands are secure at the target tempo.
    WholeSecure,
    /// A success: the whole snippet, once secure, was clean in its cold try after so many nights.
    HeldOvernight {
        /// Before the cold try, at least one.
        nights: u32,
    },
    /// The block has lasted as long as the player has set.
    MinutesUsed {
        /// How long that is.
        minutes: u32,
    },
    /// The chance of a clean repetition did not rise over the last repetitions of the step.
    FlatOrFalling {
        /// The chance before these repetitions, 0..=1 …
        from: f64,
        /// … and after them.
        to: f64,
        /// How many repetitions.
        repetitions: u32,
    },
    /// The last misses were all of different kinds.
    CausesDiffer {
        /// How many, at least two.
        misses: u32,
    },
    /// Too hard even at the slowest tempo that is worth trying.
    TempoFloor {
        /// The tempo that is not eased any further, in the snippet's beats per minute.
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
