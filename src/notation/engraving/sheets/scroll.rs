//! A whole part to scroll through: which bars a system has and how high it is, at once; any one system drawn
//! when it comes into sight.

use crate::{
    music::{Part, Quarters, score::ScoreBar},
    notation::{
        drawing::Ink,
        engraving::{
            prepared::galley::Galley,
            sheets::{focus::Focus, sheet::Sheet, system::EngravedSystem},
            signs::engraver::SystemPlan,
            spaced::{
                columns::{Column, Holds, columns},
                line_breaks::{MARGIN, Row, prefix, row},
                springs::Springs,
            },
        },
    },
};
use std::ops::Range;

/// One system of a scroll.
#[derive(Clone, Debug, PartialEq)]
pub struct ScrollSystem {
    /// By their index in the part.
    pub bars: Range<usize>,
    /// In px from the begin of the scroll.
    pub top: f32,
    /// In px.
    pub height: f32,
    /// From the start of the part's first bar.
    start: Quarters,
}

/// How a part is broken into systems of one width.
#[derive(Clone, Debug, PartialEq)]
pub struct Scroll {
    /// Top to bottom.
    pub systems: Vec<ScrollSystem>,
    width: f32,
    space: f32,
}

/// How far springs are pressed before a system is broken, and stretched at most, in the last one little: chosen.
const PRESSED: f32 = 0.85;
const STRETCHED: f32 = 1.8;
const LAST_STRETCHED: f32 = 1.2;
/// Height of text, in staff spaces: small beside the notes, as in print (chosen).
const TEXT: f32 = 1.7;
/// Between systems, in staff spaces: chosen.
const BETWEEN: f32 = 1.0;
/// The least width and staff space that a part is laid out for, in px: chosen.
const LEAST_WIDTH: f32 = 60.0;
const LEAST_SPACE: f32 = 2.0;

impl Scroll {
    /// Breaks a part into systems of `width` px, a staff space being `space` px.
    pub fn new(part: &Part, width: f32, space: f32) -> Scroll {
        let mut scroll = Scroll::begin(width, space);
        while !scroll.is_whole(part) {
            scroll.go_on(part);
        }
        scroll
    }

    /// A scroll of which nothing is laid out yet.
    pub fn begin(width: f32, space: f32) -> Scroll {
        Scroll { systems: Vec::new(), width: width.max(LEAST_WIDTH), space: space.max(LEAST_SPACE) }
    }

    /// Whether all of the part is laid out.
    pub fn is_whole(&self, part: &Part) -> bool {
        self.bars_laid_out() >= part.bars.len()
    }

    /// Lays out some more of the part: as much as takes a few milliseconds, whatever stands in it.
    pub fn go_on(&mut self, part: &Part) {
        let first = self.bars_laid_out();
        let window = first..end_of_window(part, first);
        let mut top = self.height();
        let mut start = self.systems.last().map_or(Quarters::ZERO, |system| system.start + lasts(part, &system.bars));
        let mut systems = self.broken(part, window.clone(), start);
        // The next bars may still fit into the last system.
        if window.end < part.bars.len() && systems.len() > 1 {
            systems.pop();
        }
        for bars in systems {
            let height = self.space * (self.engraved(part, bars.clone(), start, None).1.height() + BETWEEN);
            let length = lasts(part, &bars);
            self.systems.push(ScrollSystem { bars, top, height, start });
            top += height;
            start += length;
        }
    }

    fn bars_laid_out(&self) -> usize {
        self.systems.last().map_or(0, |system| system.bars.end)
    }

    /// Height of all systems, in px.
    pub fn height(&self) -> f32 {
        self.systems.last().map_or(0.0, |system| system.top + system.height)
    }

    /// The system with this index on a sheet of its own height. What is practised is in full ink and the
    /// rest faint, or all in full ink where there is no focus; places are those of the focus.
    pub fn draw(&self, part: &Part, system: usize, focus: Option<&Focus>) -> Sheet {
        let Some(system) = self.systems.get(system) else { return Sheet::new(self.width, 0.0, self.space) };
        let (row, engraved) = self.engraved(part, system.bars.clone(), system.start, focus);
        let mut sheet = Sheet::new(self.width, system.height, self.space);
        let onsets = focus.map_or(&[][..], |focus| focus.onsets);
        let corner = (MARGIN * self.space, 0.5 * BETWEEN * self.space);
        sheet.add(&engraved, &row.columns, onsets, corner, |bar| system.bars.start + bar);
        sheet
    }

    fn columns(&self, galley: &Galley) -> Vec<Column> {
        columns(galley, TEXT)
    }

    /// As many bars of the window to a system as fit; the window begins `start` after the part's first bar.
    fn broken(&self, part: &Part, window: Range<usize>, start: Quarters) -> Vec<Range<usize>> {
        let galley = Galley::starting(part, window.clone(), start, &|_| false);
        let all = self.columns(&galley);
        let springs = Springs::of(&all);
        let starts: Vec<usize> =
            (0..=galley.bars.len()).map(|bar| all.partition_point(|column| column.bar < bar)).collect();
        let fits = |bars: Range<usize>| {
            // With what is announced at its end.
            let range = begin(&all, starts[bars.start])..begin(&all, starts[bars.end]);
            let Some(first) = all.get(range.start).filter(|_| !range.is_empty()) else { return true };
            let before = prefix(&galley, first, window.start + bars.start == 0) + first.reach()[0];
            let width = before + springs.width(range.clone(), PRESSED) + all[range.end - 1].reach()[1];
            (width + 2.0 * MARGIN) * self.space <= self.width
        };
        let mut systems = Vec::new();
        let mut first = 0;
        for bar in 1..=galley.bars.len() {
            if bar == galley.bars.len() || !fits(first..bar + 1) {
                systems.push(window.start + first..window.start + bar);
                first = bar;
            }
        }
        systems
    }

    fn engraved(
        &self,
        part: &Part,
        bars: Range<usize>,
        start: Quarters,
        focus: Option<&Focus>,
    ) -> (Row, EngravedSystem) {
        // A key or meter that changes behind its last bar is announced there (Gould 2011, "Key signatures",
        // from memory).
        let shown = bars.start..bars.end + usize::from(changes_at(part, bars.end));
        let galley = Galley::starting(part, shown, start, &|_| false);
        let all = self.columns(&galley);
        let springs = Springs::of(&all);
        let most = if bars.end == part.bars.len() { LAST_STRETCHED } else { STRETCHED };
        let meter = bars.start == 0 || part.bars[bars.start].meter != part.bars[bars.start - 1].meter;
        let range = begin(&all, 0)..begin(&all, all.partition_point(|column| column.bar < bars.len()));
        let width = self.width / self.space - 2.0 * MARGIN;
        let row = row(&galley, &all, &springs, range, width, most, meter);
        let inks = |at, staff, tied| focus.map_or(Ink::Full, |focus| focus.ink(at, staff, tied));
        let plan = SystemPlan {
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
        let engraved = plan.engrave();
        (row, engraved)
    }
}

/// Most events that are laid out in one go, except for those of a single bar.
const WINDOW: usize = 400;

/// The end of the bars that are looked at together from `first` on: more than one system's, of bounded content.
fn end_of_window(part: &Part, first: usize) -> usize {
    let mut content = 0;
    let fits = |bar: &&ScoreBar| {
        content += 1 + bar.written.voices.iter().map(|voice| voice.events.len()).sum::<usize>();
        content <= WINDOW
    };
    (first + part.bars[first..].iter().take_while(fits).count()).max(first + 1)
}

/// How long some bars last together.
fn lasts(part: &Part, bars: &Range<usize>) -> Quarters {
    part.bars[bars.clone()].iter().map(|bar| bar.length).sum()
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
