//! What a player writes into the music at an onset: fingers, and a word to oneself.

use crate::music::Hand;
use std::collections::BTreeMap;

/// Longest fingering of one hand at one onset, in characters.
pub const LONGEST_FINGERS: usize = 16;
/// Longest reminder at one onset, in characters.
pub const LONGEST_REMINDER: usize = 120;

/// The player's own marks at one onset. They stand instead of what is printed there.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// Of each hand that the player fingered: the lowest note's finger first, separated by blanks.
    pub fingers: BTreeMap<Hand, String>,
    /// Position, motion, what to mind. Empty for none.
    pub reminder: String,
}

impl Marks {
    /// Whether nothing is written.
    pub fn is_empty(&self) -> bool {
        self.fingers.is_empty() && self.reminder.is_empty()
    }
}
