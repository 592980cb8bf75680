//! Which clef is in force where.

use crate::{
    music::{
        Part, Quarters,
        written::{Clef, ClefChange},
    },
    notation::engraving::prepared::places::staff_index,
};

/// The clef in force on a staff at a place of a bar.
pub fn clef_at(part: &Part, bar: usize, staff: usize, at: Quarters) -> Clef {
    let written = &part.bars[bar].written;
    let usual = if staff > 0 && staff + 1 == usize::from(part.staves) { Clef::BASS } else { Clef::TREBLE };
    let usual = if part.lines == 1 { Clef::PERCUSSION } else { usual };
    let first = written.clefs.get(staff).copied().unwrap_or(usual);
    let mut changes =
        written.clef_changes.iter().filter(|change| staff_index(part, change.staff) == staff && change.at <= at);
    changes.next_back().map_or(first, |change| change.clef)
}

/// The clefs that change with the end of a bar, each with the index of its staff: they stand before its bar line.
pub fn clefs_at_end(part: &Part, bar: usize) -> impl Iterator<Item = (usize, Clef)> {
    let length = part.bars[bar].length;
    let before_end = move |change: &&ClefChange| change.at < length;
    (0..usize::from(part.staves.max(1))).filter_map(move |staff| {
        let written = &part.bars[bar].written;
        let of_staff = |change: &&ClefChange| staff_index(part, change.staff) == staff;
        let last = written.clef_changes.iter().filter(of_staff).rfind(before_end);
        let inside = last.map_or_else(|| clef_at(part, bar, staff, Quarters::ZERO), |change| change.clef);
        let next = match part.bars.get(bar + 1) {
            Some(_) => clef_at(part, bar + 1, staff, Quarters::ZERO),
            None => clef_at(part, bar, staff, length),
        };
        (next != inside).then_some((staff, next))
    })
}
