//! Places as numbers: time in quarters to calculate with, staves by their index.

use crate::music::{Part, Quarters};

/// For calculation.
pub fn quarters(time: Quarters) -> f32 {
    time.numerator() as f32 / time.denominator() as f32
}

/// The index of a staff that is counted from 1.
pub fn staff_index(part: &Part, staff: u8) -> usize {
    usize::from(staff.clamp(1, part.staves.max(1))) - 1
}
