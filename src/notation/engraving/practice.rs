//! The sheet that is practised from: the present span as large as the room allows, on one system or on
//! several, with a little of what surrounds it.

use super::{
    Focus,
    columns::{Column, Holds, columns},
    galley::Galley,
    rows::{MARGIN, Row, TAIL, closed, prefix, row, wrapped},
    sheet::Sheet,
    springs::Springs,
    system::{Order, Set},
};
use crate::music::{Part, Quarters};
use std::ops::Range;

/// Largest staff space, in px.
const LARGEST: f32 = 20.0;
/// Least height of text, in px: a digit of about 22 arcminutes at 60 cm (ISO 9241-3, quoted by NUREG-0700).
const TEXT: f32 = 24.6;
/// How much smaller than it was laid out for a sheet is drawn rather than laid out again.
const NEARLY: f32 = 0.98;
/// And its limits in staff spaces.
const TEXT_LEAST: f32 = 1.3;
const TEXT_MOST: f32 = 2.6;
/// Up to this size of text each bar is numbered: where it is larger, numbers would stand among fingerings.
const MANY_NUMBERS: f32 = 1.9;
/// Most systems on a sheet.
const MOST_ROWS: usize = 8;
/// What a staff takes in height with what stands over and under it, in staff spaces, and how many rows of
/// text are among that: a first guess.
const USUAL_HEIGHT: f32 = 8.0;
const TEXT_ROWS: f32 = 1.8;
/// Most layouts that are tried for a sheet.
const MOST_TRIES: usize = 5;
/// Onsets around the span that are shown where there is room.
const BEFORE: usize = 4;
const BEHIND: usize = 3;
/// How far springs are pressed before a system is broken or made smaller, and stretched at most.
const PRESSED: f32 = 0.75;
const STRETCHED: f32 = 2.4;
/// Lays a part (a cut of a few bars) out on a sheet of `width` × `height` px with the present span in full
/// ink and as large as it can be. Long spans wrap into systems.
pub fn practice_sheet(part: &Part, focus: &Focus, width: f32, height: f32) -> Sheet {
    let (width, height) = (width.max(60.0), height.max(40.0));
    let Some(bars) = bars_around(part, focus) else { return Sheet::new(width, height, LARGEST) };
    let galley = Galley::new(part, bars);
    let page = Page { galley: &galley, focus, width, height };
    page.lay_out().unwrap_or_else(|| Sheet::new(width, height, LARGEST))
}

/// The bars of the span and its surroundings; none where there is nothing to show.
fn bars_around(part: &Part, focus: &Focus) -> Option<Range<usize>> {
    let last = focus.onsets.len().checked_sub(1)?;
    let first = *focus.onsets.get(focus.span.0.saturating_sub(BEFORE))?;
    let end = focus.onsets[(focus.span.1 + BEHIND).min(last)];
    let mut start = Quarters::ZERO;
    let mut bars: Option<Range<usize>> = None;
    for (index, bar) in part.bars.iter().enumerate() {
        let next = start + bar.length;
        if first < next && start <= end {
            bars = Some(bars.map_or(index, |bars| bars.start)..index + 1);
        }
        start = next;
    }
    bars
}

/// Size of text, in staff spaces.
pub fn text_size(space: f32) -> f32 {
    (TEXT / space).clamp(TEXT_LEAST, TEXT_MOST)
}

struct Page<'a> {
    galley: &'a Galley<'a>,
    focus: &'a Focus<'a>,
    width: f32,
    height: f32,
}

/// How the columns are shared out: the rows, and the staff space they are drawn with.
struct Plan {
    rows: Vec<Range<usize>>,
    space: f32,
}

impl Page<'_> {
    fn lay_out(&self) -> Option<Sheet> {
        let mut text = text_size(0.8 * LARGEST);
        let mut all = self.columns(text)?;
        let span = self.span(&all)?;
        let mut springs = Springs::of(&all);
        let usual = (USUAL_HEIGHT + TEXT_ROWS * text) * self.galley.staves() as f32;
        let mut plan = self.plan(&all, &springs, &span, self.height / self.foreseen(1, usual, text));
        // Into how many systems a long span is broken depends on how high one really is.
        if plan.rows.len() > 1 {
            let measured = self.set(&all, &springs, span.clone(), 0.7 * LARGEST, text).1.height();
            plan = self.plan(&all, &springs, &span, measured);
        }
        // Text takes more staff spaces the smaller they are, and what is narrower is higher: what does not
        // fit is made smaller, what leaves room larger, and looked at again.
        let mut best: Option<(Vec<(Row, Set)>, f32)> = None;
        for _ in 0..MOST_TRIES {
            text = text_size(plan.space);
            all.iter_mut().for_each(|column| column.text = text);
            springs.finger(&all);
            let sets = self.sets(&all, &springs, &plan, text);
            let fits = self.largest(&sets);
            let space = plan.space.min(fits);
            let is_on_sheet = fits >= NEARLY * plan.space;
            plan.space = if is_on_sheet {
                self.roomiest(&all, &springs, &plan, &sets)
            } else {
                0.995 * self.smaller(&sets, text)
            };
            if is_on_sheet && best.as_ref().is_none_or(|(_, before)| space > *before) {
                let near = plan.space < 1.05 * space;
                best = Some((sets, space));
                if near {
                    break;
                }
            } else if best.is_some() {
                break;
            }
        }
        let (sets, space) = best.unwrap_or_else(|| {
            let sets = self.sets(&all, &springs, &plan, text);
            let space = plan.space.min(self.largest(&sets));
            (sets, space)
        });
        Some(self.sheet(&sets, space))
    }

    /// The largest staff space with which systems fit on the sheet.
    fn largest(&self, sets: &[(Row, Set)]) -> f32 {
        let needed: f32 = sets.iter().map(|(_, set)| set.height()).sum();
        let widest = sets.iter().map(|(row, _)| row.width).fold(0.0, f32::max) + 2.0 * MARGIN;
        (self.height / needed).min(self.width / widest)
    }

    /// The staff space at which systems should fit that did not, text growing as the spaces shrink.
    fn smaller(&self, sets: &[(Row, Set)], text: f32) -> f32 {
        let needed: f32 = sets.iter().map(|(_, set)| set.height()).sum();
        self.foreseen(sets.len(), needed, text).min(self.largest(sets))
    }

    /// The staff space at which so many systems fit the height that together took `height` staff spaces when
    /// text took `text`.
    fn foreseen(&self, systems: usize, height: f32, text: f32) -> f32 {
        let rows = TEXT_ROWS * (systems * self.galley.staves()) as f32;
        let fitting = |space: f32| self.height / (height + rows * (text_size(space) - text)).max(1.0);
        (0..4).fold(self.height / height, |space, _| fitting(space))
    }

    /// The largest staff space for which these systems are low enough and their rows can be pressed into the
    /// width.
    fn roomiest(&self, all: &[Column], springs: &Springs, plan: &Plan, sets: &[(Row, Set)]) -> f32 {
        let needed: f32 = sets.iter().map(|(_, set)| set.height()).sum();
        let widest = plan.rows.iter().map(|row| self.least(all, springs, row)).fold(1.0, f32::max);
        (self.width / widest).min(self.height / needed).min(LARGEST)
    }

    fn columns(&self, text: f32) -> Option<Vec<Column>> {
        Some(columns(self.galley, text)).filter(|columns| !columns.is_empty())
    }

    fn at(&self, onset: usize) -> Option<Quarters> {
        self.focus.onsets.get(onset.min(self.focus.onsets.len().checked_sub(1)?)).copied()
    }

    /// The columns from the first to the last onset that is played.
    fn span(&self, all: &[Column]) -> Option<Range<usize>> {
        let (first, last) = (self.at(self.focus.span.0)?, self.at(self.focus.span.1)?);
        let start = all.iter().position(|column| column.is_notes() && column.at >= first)?;
        let end = all.iter().rposition(|column| column.is_notes() && column.at <= last)?;
        Some(start.min(end)..closed(all, end.max(start) + 1))
    }

    /// As few systems as let the music be largest.
    fn plan(&self, all: &[Column], springs: &Springs, span: &Range<usize>, high: f32) -> Plan {
        let mut best = Plan { rows: vec![span.clone()], space: 0.0 };
        for count in 1..=MOST_ROWS {
            let rows = wrapped(all, springs, span, count);
            let widest = rows.iter().map(|row| self.least(all, springs, row)).fold(0.0, f32::max);
            let space = (self.height / (high * count as f32)).min(self.width / widest).min(LARGEST);
            if space > 1.08 * best.space {
                best = Plan { rows, space };
            }
        }
        if let [row] = &mut best.rows[..] {
            *row = self.widened(all, springs, row.clone(), best.space);
        }
        best
    }

    /// The least comfortable width of a row.
    fn least(&self, all: &[Column], springs: &Springs, row: &Range<usize>) -> f32 {
        let (first, last) = (&all[row.start], &all[row.end - 1]);
        let before = prefix(self.galley, first, true) + first.reach()[0];
        before + springs.width(row.clone(), PRESSED) + last.reach()[1] + TAIL + 2.0 * MARGIN
    }

    /// A row with its neighbours, by turns before and behind, as long as they find room.
    fn widened(&self, all: &[Column], springs: &Springs, row: Range<usize>, space: f32) -> Range<usize> {
        let earliest = self.at(self.focus.span.0.saturating_sub(BEFORE)).unwrap_or(Quarters::ZERO);
        let latest = self.at(self.focus.span.1 + BEHIND).unwrap_or(Quarters::ZERO);
        let fits = |wide: &Range<usize>| self.least(all, springs, wide) * space <= self.width;
        let mut wide = row.clone();
        loop {
            let before = (0..wide.start).rev().find(|index| all[*index].is_notes() && all[*index].at >= earliest);
            let earlier = before.map(|start| start..wide.end).filter(fits);
            wide = earlier.clone().unwrap_or(wide);
            let behind = (wide.end..all.len()).find(|index| all[*index].is_notes() && all[*index].at <= latest);
            let later = behind.map(|end| wide.start..closed(all, end + 1)).filter(fits);
            wide = later.clone().unwrap_or(wide);
            if earlier.is_none() && later.is_none() {
                return self.whole_beams(all, wide, &row);
            }
        }
    }

    /// A row without what surrounds its kernel under beams that it does not show whole.
    fn whole_beams(&self, all: &[Column], wide: Range<usize>, kernel: &Range<usize>) -> Range<usize> {
        let joined = |index: usize| self.beam_goes_on(&all[index - 1], &all[index]);
        let start = (wide.start..kernel.start).find(|index| *index == 0 || !joined(*index)).unwrap_or(kernel.start);
        let ends = |end: &usize| *end == all.len() || !joined(*end);
        let end = (kernel.end..wide.end + 1).rev().find(ends).unwrap_or(kernel.end);
        start..end
    }

    /// Whether a beam reaches from one column to the next.
    fn beam_goes_on(&self, before: &Column, next: &Column) -> bool {
        let (Holds::Notes(a), Holds::Notes(b)) = (before.holds, next.holds) else { return false };
        let beams = |bar, nth| self.galley.column(bar, nth).filter_map(|chord| chord.beam);
        before.bar == next.bar
            && self.galley.beams.iter().enumerate().any(|(beam, members)| {
                let columns =
                    || members.iter().map(|index| &self.galley.chords[*index]).filter(|chord| chord.bar == next.bar);
                let covers = columns().any(|chord| chord.column <= a) && columns().any(|chord| chord.column >= b);
                covers && beams(next.bar, a).chain(beams(next.bar, b)).any(|other| other == beam)
            })
    }

    fn set(&self, all: &[Column], springs: &Springs, range: Range<usize>, space: f32, text: f32) -> (Row, Set) {
        let width = self.width / space - 2.0 * MARGIN;
        let row = row(self.galley, all, springs, range, width, STRETCHED, true);
        let inks = |at, staff, tied| self.focus.ink(at, staff, tied);
        let order = Order {
            galley: self.galley,
            columns: &row.columns,
            width: row.width,
            inks: &inks,
            plays: &|staff| self.focus.plays_on(staff),
            text,
            meter: true,
            number_all: text < MANY_NUMBERS,
            crowns: &self.focus.crowns(),
        };
        let set = order.set();
        (row, set)
    }

    fn sets(&self, all: &[Column], springs: &Springs, plan: &Plan, text: f32) -> Vec<(Row, Set)> {
        plan.rows.iter().map(|range| self.set(all, springs, range.clone(), plan.space, text)).collect()
    }

    /// The systems in the middle of the sheet, what height is left shared out around them.
    fn sheet(&self, sets: &[(Row, Set)], space: f32) -> Sheet {
        let needed: f32 = sets.iter().map(|(_, set)| set.height()).sum();
        let mut sheet = Sheet::new(self.width, self.height, space);
        let room = (self.height - needed * space).max(0.0) / (sets.len() + 1) as f32;
        let mut top = room;
        for (row, set) in sets {
            let left = 0.5 * (self.width - space * row.width).max(0.0);
            sheet.add(set, &row.columns, self.focus.onsets, (left, top), |bar| self.galley.bars[bar].index);
            top += space * set.height() + room;
        }
        sheet
    }
}
