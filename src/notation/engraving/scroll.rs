//! A whole part to scroll through: which bars a system has and how high it is, at once; any one system drawn
//! when it comes into sight.

use super::{
    Focus,
    columns::{Column, Holds, columns},
    galley::Galley,
    rows::{MARGIN, Row, prefix, row},
    sheet::Sheet,
    springs::Springs,
    system::{Order, Set},
};
use crate::{music::Part, notation::drawing::Ink};
use std::ops::Range;

/// One system of a scroll.
#[derive(Clone, Debug, PartialEq)]
pub struct ScrollSystem {
    /// By their index in the part.
    pub bars: Range<usize>,
    /// In px from the begin of the scroll.
    pub top: f32,
    pub height: f32,
}

/// How a part is broken into systems of one width.
#[derive(Clone, Debug, PartialEq)]
pub struct Scroll {
    pub systems: Vec<ScrollSystem>,
    width: f32,
    space: f32,
}

/// How far springs are pressed before a system is broken, and stretched at most at the end.
const PRESSED: f32 = 0.85;
const STRETCHED: f32 = 1.8;
/// Height of text, in staff spaces: small beside the notes, as in print.
const TEXT: f32 = 1.7;
/// Between systems, in staff spaces.
const BETWEEN: f32 = 1.0;

impl Scroll {
    /// Breaks a part into systems of `width` px, a staff space being `space` px.
    pub fn new(part: &Part, width: f32, space: f32) -> Scroll {
        let (width, space) = (width.max(60.0), space.max(2.0));
        let mut scroll = Scroll { systems: Vec::new(), width, space };
        let mut top = 0.0;
        for bars in scroll.broken(part) {
            let height = space * (scroll.set(part, bars.clone(), None).1.height() + BETWEEN);
            scroll.systems.push(ScrollSystem { bars, top, height });
            top += height;
        }
        scroll
    }

    /// Height of all systems, in px.
    pub fn height(&self) -> f32 {
        self.systems.last().map_or(0.0, |system| system.top + system.height)
    }

    /// The system with this index on a sheet of its own height. What is practised is in full ink and the
    /// rest faint, or all in full ink where there is no focus; places are those of the focus.
    pub fn draw(&self, part: &Part, system: usize, focus: Option<&Focus>) -> Sheet {
        let Some(system) = self.systems.get(system) else { return Sheet::new(self.width, 0.0, self.space) };
        let (row, set) = self.set(part, system.bars.clone(), focus);
        let mut sheet = Sheet::new(self.width, system.height, self.space);
        let onsets = focus.map_or(&[][..], |focus| focus.onsets);
        let corner = (MARGIN * self.space, 0.5 * BETWEEN * self.space);
        sheet.add(&set, &row.columns, onsets, corner, |bar| system.bars.start + bar);
        sheet
    }

    fn columns(&self, galley: &Galley) -> Vec<Column> {
        columns(galley, TEXT)
    }

    /// As many bars to a system as fit.
    fn broken(&self, part: &Part) -> Vec<Range<usize>> {
        let galley = Galley::new(part, 0..part.bars.len());
        let all = self.columns(&galley);
        let springs = Springs::of(&all);
        let starts: Vec<usize> =
            (0..=galley.bars.len()).map(|bar| all.partition_point(|column| column.bar < bar)).collect();
        let fits = |bars: Range<usize>| {
            // With what is announced at its end.
            let range = begin(&all, starts[bars.start])..begin(&all, starts[bars.end]);
            let Some(first) = all.get(range.start).filter(|_| !range.is_empty()) else { return true };
            let before = prefix(&galley, first, bars.start == 0) + first.reach()[0];
            let width = before + springs.width(range.clone(), PRESSED) + all[range.end - 1].reach()[1];
            (width + 2.0 * MARGIN) * self.space <= self.width
        };
        let mut systems = Vec::new();
        let mut start = 0;
        for bar in 0..galley.bars.len() {
            if bar > start && !fits(start..bar + 1) {
                systems.push(start..bar);
                start = bar;
            }
        }
        if start < galley.bars.len() {
            systems.push(start..galley.bars.len());
        }
        systems
    }

    fn set(&self, part: &Part, bars: Range<usize>, focus: Option<&Focus>) -> (Row, Set) {
        // A key or meter that changes behind its last bar is announced there (Gould 2011, "Key signatures",
        // from memory).
        let galley = Galley::new(part, bars.start..bars.end + usize::from(changes_at(part, bars.end)));
        let all = self.columns(&galley);
        let springs = Springs::of(&all);
        let most = if bars.end == part.bars.len() { 1.2 } else { STRETCHED };
        let meter = bars.start == 0 || part.bars[bars.start].meter != part.bars[bars.start - 1].meter;
        let range = begin(&all, 0)..begin(&all, all.partition_point(|column| column.bar < bars.len()));
        let width = self.width / self.space - 2.0 * MARGIN;
        let row = row(&galley, &all, &springs, range, width, most, meter);
        let inks = |at, staff, tied| focus.map_or(Ink::Full, |focus| focus.ink(at, staff, tied));
        let order = Order {
            galley: &galley,
            columns: &row.columns,
            width: row.width,
            inks: &inks,
            plays: &|staff| focus.is_none_or(|focus| focus.plays_on(staff)),
            text: TEXT,
            meter,
            number_all: false,
            crowns: &focus.map_or(Vec::new(), Focus::crowns),
            tops: &[],
        };
        let set = order.set();
        (row, set)
    }
}

/// Whether the key or the meter changes where a bar begins that is not the first.
fn changes_at(part: &Part, bar: usize) -> bool {
    let signature = |bar: usize| part.bars.get(bar).map(|bar| (bar.fifths, bar.meter));
    let (now, before) = (signature(bar), bar.checked_sub(1).and_then(signature));
    now.is_some() && before.is_some() && now != before
}

/// The first column of a system: what changes there stands in its signatures.
fn begin(all: &[Column], start: usize) -> usize {
    start + usize::from(all.get(start).is_some_and(|column| column.holds == Holds::Signature))
}
