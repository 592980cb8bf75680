//! Words over and under a staff.

use crate::music::{Quarters, written::value::Value};

/// Words at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StaffText {
    /// From the start of the bar; at most its length.
    pub at: Quarters,
    /// 1 is the uppermost.
    pub staff: u8,
    /// Where the file says so.
    pub above: Option<bool>,
    /// The text and its purpose.
    pub says: Says,
}

/// What a text over or under a staff is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Says {
    /// How to play: `dolce`.
    Manner(String),
    /// How fast: `Allegro`.
    Tempo(String),
    /// What a place is called: `A`.
    Rehearsal(String),
    /// A value with its dots, and how many of them go to a minute, as printed: `ca. 72`.
    Metronome {
        /// The note sign.
        beat: Value,
        /// At the note sign, 0..=3.
        dots: u8,
        /// After the equals sign, as printed.
        rate: String,
    },
}
