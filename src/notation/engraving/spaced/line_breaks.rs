//! Line breaks: what a system holds and how wide it is.

use crate::notation::engraving::{
    prepared::galley::Galley,
    spaced::{
        columns::{Column, Holds},
        signatures::Prefix,
        springs::Springs,
    },
};
use std::ops::Range;

/// Beside the staves, to the sheet's edges: chosen.
pub const MARGIN: f32 = 0.4;
/// From the signatures to the first note, and after the last, room for a roof: chosen.
pub const LEAD: f32 = 0.9;
pub const TAIL: f32 = 1.2;

/// A row of columns with the room before its first note.
pub struct Row {
    pub columns: Vec<Column>,
    pub width: f32,
}

/// Places a range of columns on a system of at most `width` staff spaces.
pub fn row(
    galley: &Galley,
    all: &[Column],
    springs: &Springs,
    range: Range<usize>,
    width: f32,
    most: f32,
    meter: bool,
) -> Row {
    let first = &all[range.start].opening();
    let start = prefix(galley, first, meter) + first.reach()[0];
    let last = &all[range.end - 1];
    let tail = last.reach()[1] + if last.is_notes() { TAIL } else { 0.0 };
    let stretch = springs.stretch(range.clone(), width - start - tail, most);
    let mut xs = Vec::new();
    springs.stretched(range.clone(), stretch, &mut xs);
    let place = |(column, x): (&Column, &f32)| column.at_x(start + x);
    let columns: Vec<Column> = std::iter::once(first).chain(&all[range][1..]).zip(&xs).map(place).collect();
    let width = columns.last().map_or(start, |column| column.x) + tail;
    Row { columns, width }
}

/// Where the first note of a system may stand.
pub fn prefix(galley: &Galley, first: &Column, meter: bool) -> f32 {
    let at = first.at - galley.bars[first.bar].start;
    Prefix::new(galley, first.bar, at, meter).end + LEAD
}

/// Whether a system may begin with a column: with notes that are under no beam with those before.
pub fn breaks(galley: &Galley, all: &[Column]) -> Vec<bool> {
    let mut can: Vec<bool> = all.iter().map(Column::is_notes).collect();
    for members in &galley.beams {
        let ends = members.iter().map(|index| &galley.chords[*index]).map(|chord| (chord.bar, chord.column));
        let (Some(first), Some(last)) = (ends.clone().min(), ends.max()) else { continue };
        let under = |column: &Column| match column.holds {
            Holds::Notes(nth) => first < (column.bar, nth) && (column.bar, nth) <= last,
            _ => false,
        };
        let from = all.partition_point(|column| column.bar < first.0);
        let to = all.partition_point(|column| column.bar <= last.0);
        (from..to).filter(|index| under(&all[*index])).for_each(|index| can[index] = false);
    }
    can
}

/// How much further off a break inside a bar counts than one at its end, as part of a row's width: chosen.
const INSIDE_BAR: f32 = 0.3;

/// All columns in at most so many rows that are about equally wide and end with a bar where one is near.
pub fn wrapped(all: &[Column], springs: &Springs, breaks: &[bool], count: usize) -> Vec<Range<usize>> {
    let range = 0..all.len();
    let mut xs = Vec::new();
    springs.stretched(range.clone(), 1.0, &mut xs);
    let each = xs.last().copied().unwrap_or(0.0) / count as f32;
    let mut rows = Vec::new();
    let mut start = range.start;
    for row in 1..count {
        let cost = |index: &usize| {
            let off = (xs[index - range.start] - row as f32 * each).abs();
            off + if all[index - 1].is_notes() { INSIDE_BAR * each } else { 0.0 }
        };
        let can_begin = |index: &usize| breaks[*index];
        let best = (start + 1..range.end).filter(can_begin).min_by(|a, b| cost(a).total_cmp(&cost(b)));
        let Some(next) = best else { break };
        // Signatures that change here are announced at the end of the system before (Gould 2011, "Key
        // signatures", from memory).
        rows.push(start..next);
        start = next;
    }
    rows.push(start..range.end);
    rows
}
