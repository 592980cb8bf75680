//! Where onsets stand from left to right: wider apart where they are further apart in time, never
//! so near that they touch, wrapped into systems where one line is too short.
//!
//! Refuses to know what is drawn at an onset; it is told how far that reaches to either side.

use crate::{
    method::Span,
    music::{Passage, Quarters},
};
use std::ops::Range;

/// Room kept free on either side of a system, in px at scale 1.
const MARGIN: f32 = 40.0;
/// Least distance between what is drawn at two onsets, in px at scale 1, and what a bar line adds.
const APART: f32 = 6.0;
const BAR_LINE: f32 = 14.0;
/// Most px that a beat is stretched over at scale 1, so that a few onsets do not fly apart.
const WIDEST_BEAT: f32 = 150.0;
/// The largest that anything is drawn.
const LARGEST: f32 = 1.6;
/// Most onsets around the span that are shown, before and behind it.
const BEFORE: usize = 4;
const BEHIND: usize = 2;
/// How far a system may end from where it would be evenly filled, as part of the room, to end with a bar.
const BAR_IN_REACH: f32 = 0.2;

/// One system: consecutive onsets and where they stand.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    /// Index of the first onset.
    pub first: usize,
    /// Left to right, in px.
    pub xs: Vec<f32>,
}

impl System {
    /// The onsets by their index.
    pub fn onsets(&self) -> Range<usize> {
        self.first..self.first + self.xs.len()
    }
}

/// Systems and how large they are drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Spaced {
    pub systems: Vec<System>,
    /// 1 is the least size that is read at a music stand.
    pub scale: f32,
    /// What noteheads are squeezed by: below 1 only where the span fits in no other way.
    pub squeeze: f32,
    /// Whether there is room for what is written to the notes.
    pub signs: bool,
}

/// What is to be spaced.
pub struct Spacing<'a> {
    pub passage: &'a Passage,
    pub span: Span,
    pub beat: Quarters,
    /// How far what is drawn at an onset reaches to either side, in px at scale 1, without and with
    /// what is written to its notes.
    pub reach: &'a dyn Fn(usize, bool) -> f32,
}

impl Spacing<'_> {
    /// Lays the span and a little around it on a sheet of `width` × `height` px, of which a system
    /// takes at least `system` px of height at scale 1: as large as it can be on one system, then on
    /// more, then without what is written to the notes, then squeezed.
    pub fn lay_out(&self, width: f32, height: f32, system: f32) -> Spaced {
        let most = (height / system).floor().max(1.0) as usize;
        let largest = |rows: usize| (height / (rows as f32 * system)).min(LARGEST);
        let sizes = (1..=most).flat_map(|rows| [(rows, largest(rows)), (rows, largest(rows).min(1.0))]);
        let sizes: Vec<(usize, f32)> = sizes.collect();
        let mut ways = [true, false].into_iter().flat_map(|signs| sizes.iter().map(move |size| (*size, signs)));
        ways.find_map(|((rows, scale), signs)| self.at_size(width, rows, scale, signs))
            .unwrap_or_else(|| self.squeezed(width, most, largest(most).min(1.0)))
    }

    /// The span on `rows` systems at this scale, if it fits.
    fn at_size(&self, width: f32, rows: usize, scale: f32, signs: bool) -> Option<Spaced> {
        let room = width / scale - 2.0 * MARGIN;
        let mut rows = self.wrapped(rows, signs);
        if rows.iter().any(|row| self.least(row, signs) > room) {
            return None;
        }
        if let [row] = &mut rows[..] {
            *row = self.widened(row.clone(), room, signs);
        }
        let systems = rows.iter().map(|row| self.system(row, room, scale, 1.0, signs)).collect();
        Some(Spaced { systems, scale, squeeze: 1.0, signs })
    }

    fn squeezed(&self, width: f32, rows: usize, scale: f32) -> Spaced {
        let room = (width / scale - 2.0 * MARGIN).max(1.0);
        let rows = self.wrapped(rows, false);
        let widest = rows.iter().map(|row| self.least(row, false)).fold(room, f32::max);
        let squeeze = room / widest;
        let systems = rows.iter().map(|row| self.system(row, room, scale, squeeze, false)).collect();
        Spaced { systems, scale, squeeze, signs: false }
    }

    /// The span in at most `rows` rows that are about equally full and end with a bar where one is near.
    fn wrapped(&self, rows: usize, signs: bool) -> Vec<Range<usize>> {
        let end = self.passage.onsets().len().min(self.span.last() + 1);
        let first = self.span.first().min(end - 1);
        let each = self.least(&(first..end), signs) / rows as f32;
        let mut begins = first;
        let mut wrapped = Vec::new();
        for row in 1..rows {
            let off = |next: &usize| (self.least(&(first..next + 1), signs) - row as f32 * each).abs();
            let in_reach = |next: &usize| self.opens_bar(*next) && off(next) <= BAR_IN_REACH * each;
            let nearest = |a: &usize, b: &usize| off(a).total_cmp(&off(b));
            let bar = (begins + 1..end).filter(in_reach).min_by(nearest);
            if let Some(next) = bar.or_else(|| (begins + 1..end).min_by(nearest)) {
                wrapped.push(begins..next);
                begins = next;
            }
        }
        wrapped.push(begins..end);
        wrapped
    }

    /// A row with its neighbours, by turns before and behind, as long as they find room.
    fn widened(&self, row: Range<usize>, room: f32, signs: bool) -> Range<usize> {
        let earliest = row.start.saturating_sub(BEFORE);
        let latest = (row.end + BEHIND).min(self.passage.onsets().len());
        let fits = |row: Range<usize>| self.least(&row, signs) <= room;
        let mut wide = row;
        loop {
            let before = wide.start > earliest && fits(wide.start - 1..wide.end);
            wide.start -= usize::from(before);
            let behind = wide.end < latest && fits(wide.start..wide.end + 1);
            wide.end += usize::from(behind);
            if !before && !behind {
                return wide;
            }
        }
    }

    /// One system, centred: least distances, and what room is left shared out by time.
    fn system(&self, row: &Range<usize>, room: f32, scale: f32, squeeze: f32, signs: bool) -> System {
        let beats: f32 = (row.start..row.end - 1).map(|onset| self.beats_after(onset)).sum();
        let left = room - squeeze * self.least(row, signs);
        let stretch = if beats > 0.0 { (left / beats).clamp(0.0, WIDEST_BEAT) } else { 0.0 };
        let mut x = 0.0;
        let mut xs = vec![x];
        for onset in row.start..row.end - 1 {
            x += squeeze * self.least_after(onset, signs) + stretch * self.beats_after(onset);
            xs.push(x);
        }
        let [before, behind] = self.overhang(row, signs);
        let start = MARGIN + before + 0.5 * (room - before - x - behind).max(0.0);
        System { first: row.start, xs: xs.iter().map(|x| scale * (start + x)).collect() }
    }

    /// Least width of a row between its margins.
    fn least(&self, row: &Range<usize>, signs: bool) -> f32 {
        let inside: f32 = (row.start..row.end - 1).map(|onset| self.least_after(onset, signs)).sum();
        inside + self.overhang(row, signs).iter().sum::<f32>()
    }

    /// How far the first and the last onset reach beyond what the margin has room for.
    fn overhang(&self, row: &Range<usize>, signs: bool) -> [f32; 2] {
        [row.start, row.end - 1].map(|onset| ((self.reach)(onset, signs) + APART - MARGIN).max(0.0))
    }

    /// Least distance between an onset and the next one.
    fn least_after(&self, onset: usize, signs: bool) -> f32 {
        let reach = |onset| (self.reach)(onset, signs);
        reach(onset) + reach(onset + 1) + APART + if self.opens_bar(onset + 1) { BAR_LINE } else { 0.0 }
    }

    fn opens_bar(&self, onset: usize) -> bool {
        let at = self.passage.onsets()[onset].at;
        self.passage.bar_at(at).start == at
    }

    /// Beats between an onset and the next one.
    fn beats_after(&self, onset: usize) -> f32 {
        let onsets = self.passage.onsets();
        let beats = (onsets[onset + 1].at - onsets[onset].at) / self.beat;
        *beats.numer() as f32 / *beats.denom() as f32
    }
}
