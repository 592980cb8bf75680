//! Where onsets stand from left to right: wider apart where they are further apart in time, never
//! so near that they touch, wrapped into systems where one line is too short.
//!
//! Refuses to know what is drawn at an onset.

use crate::{
    method::Span,
    music::{Onset, Quarters},
};

/// Room kept free on either side of a system, in px.
pub const MARGIN: f32 = 44.0;
/// Least distance of two onsets, in px: noteheads of the span are 28 px wide, those around it 20.
const LEAST_IN_SPAN: f32 = 34.0;
const LEAST_AROUND: f32 = 24.0;
/// Most px that a beat is stretched over, so that a few onsets do not fly apart.
const WIDEST_BEAT: f32 = 170.0;

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
    pub fn onsets(&self) -> std::ops::Range<usize> {
        self.first..self.first + self.xs.len()
    }
}

/// Lays the span out in at most `most` systems of `width` px, with as much around it as finds room
/// on a single one.
pub fn systems(onsets: &[Onset], span: Span, beat: Quarters, width: f32, most: usize) -> Vec<System> {
    let room = width - 2.0 * MARGIN;
    let last = span.last().min(onsets.len() - 1);
    let first = span.first().min(last);
    let spacing = Spacing { onsets, span, beat };
    if spacing.least(first, last) <= room {
        let (first, last) = spacing.widened(first, last, room);
        return vec![spacing.system(first, last, room)];
    }
    wrap(&spacing, first, last, room, most.max(1))
}

struct Spacing<'a> {
    onsets: &'a [Onset],
    span: Span,
    beat: Quarters,
}

impl Spacing<'_> {
    /// Least distance between an onset and the next one.
    fn least_after(&self, onset: usize) -> f32 {
        let inside = self.span.contains(onset) && self.span.contains(onset + 1);
        if inside { LEAST_IN_SPAN } else { LEAST_AROUND }
    }

    /// Beats between an onset and the next one.
    fn beats_after(&self, onset: usize) -> f32 {
        let beats = (self.onsets[onset + 1].at - self.onsets[onset].at) / self.beat;
        *beats.numer() as f32 / *beats.denom() as f32
    }

    /// Least width of the onsets `first..=last`.
    fn least(&self, first: usize, last: usize) -> f32 {
        (first..last).map(|onset| self.least_after(onset)).sum()
    }

    /// The onsets `first..=last` and their neighbours, by turns before and after, as long as they fit
    /// without crowding the span.
    fn widened(&self, mut first: usize, mut last: usize, room: f32) -> (usize, usize) {
        let comfortable = |first, last| self.least(first, last) <= 0.8 * room;
        loop {
            let before = first > 0 && comfortable(first - 1, last);
            first -= usize::from(before);
            let after = last + 1 < self.onsets.len() && comfortable(first, last + 1);
            last += usize::from(after);
            if !before && !after {
                return (first, last);
            }
        }
    }

    /// One system with the onsets `first..=last`, centred; squeezed where it must be.
    fn system(&self, first: usize, last: usize, room: f32) -> System {
        let (least, beats) = (self.least(first, last), (first..last).map(|onset| self.beats_after(onset)).sum::<f32>());
        let stretch = if beats > 0.0 { ((room - least) / beats).clamp(0.0, WIDEST_BEAT) } else { 0.0 };
        let squeeze = if least > room { room / least } else { 1.0 };
        let mut x = 0.0;
        let mut xs = vec![x];
        for onset in first..last {
            x += squeeze * self.least_after(onset) + stretch * self.beats_after(onset);
            xs.push(x);
        }
        let start = MARGIN + 0.5 * (room - x).max(0.0);
        xs.iter_mut().for_each(|x| *x += start);
        System { first, xs }
    }
}

/// The span `first..=last` on as many systems as it needs, `most` at the most.
fn wrap(spacing: &Spacing, first: usize, last: usize, room: f32, most: usize) -> Vec<System> {
    let needed = (spacing.least(first, last) / room).ceil() as usize;
    let rows = needed.clamp(1, most);
    let count = last - first + 1;
    let row = |row: usize| (first + row * count / rows, first + (row + 1) * count / rows - 1);
    (0..rows).map(row).map(|(from, to)| spacing.system(from, to, room)).collect()
}
