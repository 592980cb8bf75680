//! Rows of columns: what a system holds and how wide it is.

use super::{
    columns::{Column, Holds},
    galley::Galley,
    signatures,
    springs::Springs,
};
use std::ops::Range;

/// Beside the staves, to the sheet's edges.
pub const MARGIN: f32 = 0.4;
/// From the signatures to the first note, and after the last: room for a roof.
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
    signatures::prefix(None, galley, first.bar, at, meter) + LEAD
}

/// With the bar line that follows.
pub fn closed(all: &[Column], end: usize) -> usize {
    end + usize::from(all.get(end).is_some_and(|column| column.holds == Holds::Barline))
}

/// A range in at most so many rows that are about equally wide and end with a bar where one is near.
pub fn wrapped(all: &[Column], springs: &Springs, range: &Range<usize>, count: usize) -> Vec<Range<usize>> {
    let mut xs = Vec::new();
    springs.stretched(range.clone(), 1.0, &mut xs);
    let each = xs.last().copied().unwrap_or(0.0) / count as f32;
    let mut rows = Vec::new();
    let mut start = range.start;
    for row in 1..count {
        let cost = |index: &usize| {
            let off = (xs[index - range.start] - row as f32 * each).abs();
            off + if all[index - 1].is_notes() { 0.3 * each } else { 0.0 }
        };
        let can_begin = |index: &usize| all[*index].is_notes();
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
