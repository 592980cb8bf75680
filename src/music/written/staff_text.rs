//! StaffText over and under a staff.

use crate::music::{Quarters, written::Value};

/// StaffText at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StaffText {
    /// From the start of the bar; at most its length.
    pub at: Quarters,
    /// 1 is the uppermost.
    pub staff: u8,
    /// Where the file says so.
    pub above: Option<bool>,
    pub says: Says,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Says {
    /// How to play: `dolce`.
    Manner(String),
    /// How fast: `Allegro`.
    Tempo(String),
    /// What a place is called: `A`.
    Rehearsal(String),
    /// A value with its dots, and how many of them go to a minute, as printed: `ca. 72`.
    Metronome { beat: Value, dots: u8, rate: String },
}
