//! On which side of a chord its articulations stand, and which of them stand close to it.

use crate::{music::passage::Articulation, notation::engraving::prepared::chords::Chord};

/// Whether signs of a chord's head side stand above: away from the stem; in company, outside.
pub fn above_head(chord: &Chord) -> bool {
    chord.company.unwrap_or(!chord.up || !chord.has_stem())
}

/// Whether a sign stands close to its head, in the staff.
pub fn is_near(sign: Articulation) -> bool {
    matches!(sign, Articulation::Staccato | Articulation::Tenuto | Articulation::DetachedLegato)
}
