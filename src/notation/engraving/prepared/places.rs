//! Places as numbers: time in quarters to calculate with, heights by lines and spaces, staves by their index.

use crate::{
    music::{Part, Quarters},
    notation::engraving::metrics::STAFF,
};

/// Times that are nearer to each other than this, in quarters, are one: so much may rounding make of it.
pub const INSTANT: f32 = 1e-3;
/// The same for heights and the lines of a staff, in staff spaces.
pub const ON_LINE: f32 = 0.1;

/// For calculation.
pub fn quarters(time: Quarters) -> f32 {
    time.numerator() as f32 / time.denominator() as f32
}

/// The y of a place so many steps over the bottom line, half a space each.
pub fn height(steps: f32) -> f32 {
    STAFF - 0.5 * steps
}

/// Whether a height is that of a line, in the staff or of its ledger lines.
pub fn is_on_line(y: f32) -> bool {
    (y - y.round()).abs() < ON_LINE
}

/// The index of a staff that is counted from 1.
pub fn staff_index(part: &Part, staff: u8) -> usize {
    usize::from(staff.clamp(1, part.staves.max(1))) - 1
}
