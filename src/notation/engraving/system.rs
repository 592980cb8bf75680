//! One system drawn: from columns that stand to marks on staves, staves moved apart as far as what is
//! between them needs.

use super::{
    super::drawing::{Drawing, Form, Ink, Shape},
    across,
    beaming::Lie,
    chords::{Chord, staff_index},
    columns::{CLEF_BEFORE, Column, Holds, leftmost},
    dynamics,
    galley::{Galley, clefs_at_end},
    metrics::{STAFF, STAFF_LINE},
    outside, pedals,
    pen::{Mark, Pen},
    rails,
    rows::LEAD,
    signatures, slurs, ties, trills, tuplets, words,
};
use crate::music::Quarters;

/// In which ink what stands at a place of a staff is drawn; whether it is a tied continuation or a rest
/// matters at the end of what is played.
pub type Inks<'a> = dyn Fn(Quarters, usize, bool) -> Ink + 'a;

/// What the drawing of a system needs to be told.
pub struct Order<'a> {
    pub galley: &'a Galley<'a>,
    pub columns: &'a [Column],
    /// Where the staves end.
    pub width: f32,
    pub inks: &'a Inks<'a>,
    /// Whether the hand on a staff plays now: fingers are shown of those that do.
    pub plays: &'a dyn Fn(usize) -> bool,
    /// Size of fingerings, dynamics and numbers.
    pub text: f32,
    /// Whether the time signature stands at the begin.
    pub meter: bool,
    /// Whether each bar is numbered, or only the first of the system.
    pub number_all: bool,
    /// Signs over columns: the goal, what the step arrives at, where it is entered.
    pub crowns: &'a [(Quarters, Crown)],
    /// How far each staff's top line is below that of the first at least; none for as little as can be.
    pub tops: &'a [f32],
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crown {
    Goal,
    Aim,
    Entry,
}

/// A system that is drawn, in staff spaces.
pub struct Set {
    /// What lies under the notes: staff lines and bar lines.
    frame: Vec<Mark>,
    pen: Pen,
    /// Of each staff's top line from that of the first.
    pub tops: Vec<f32>,
    /// How far it reaches above the first staff's top line (negative) and below it.
    pub top: f32,
    pub bottom: f32,
}

/// A system being drawn.
pub struct Setting<'a> {
    pub order: &'a Order<'a>,
    pub pen: Pen,
    /// How each beam of the galley lies, once it is settled.
    pub lies: Vec<Option<Lie>>,
    /// The chords that are shown, column by column, with the x of their columns.
    placed: &'a [(&'a Chord<'a>, f32)],
    /// Of each chord of the galley that is shown: the x of its column and its ink.
    shown: Vec<Option<(f32, Ink)>>,
    /// How many marks there are of the notes with their nearest signs: what slurs go round.
    pub notes: usize,
}

impl Order<'_> {
    pub fn set(&self) -> Set {
        let pen = Pen::new(self.galley.staves(), self.width);
        let placed: Vec<(&Chord, f32)> = self.chords().collect();
        let mut shown = vec![None; self.galley.chords.len()];
        placed.iter().for_each(|(chord, x)| shown[chord.index] = Some((*x, self.ink(chord))));
        let lies = vec![None; self.galley.beams.len()];
        let mut setting = Setting { order: self, pen, lies, placed: &placed, shown, notes: 0 };
        setting.signatures();
        setting.beams();
        setting.notes();
        ties::ties(&mut setting);
        outside::articulations(&mut setting);
        tuplets::tuplets(&mut setting);
        setting.notes = setting.pen.marks.len();
        slurs::slurs(&mut setting);
        outside::fingerings(&mut setting);
        outside::ornaments(&mut setting);
        trills::trills(&mut setting);
        rails::octaves(&mut setting);
        dynamics::dynamics(&mut setting);
        pedals::pedals(&mut setting);
        rails::endings(&mut setting);
        words::words(&mut setting);
        outside::numbers(&mut setting);
        outside::crowns(&mut setting);
        setting.finish()
    }

    fn chords(&self) -> impl Iterator<Item = (&Chord<'_>, f32)> {
        self.columns.iter().flat_map(|column| {
            let chords = column.notes_index().into_iter().flat_map(|nth| self.galley.column(column.bar, nth));
            chords.map(|chord| (chord, if chord.is_bar_rest() { self.mid_bar(column.bar, chord) } else { column.x }))
        })
    }

    /// The left edge of a bar's rest, which stands in the middle between the bar lines or signatures around it (Gould
    /// 2011, "Rests", from memory); between what is shown of its bar where a line is not shown.
    fn mid_bar(&self, bar: usize, rest: &Chord) -> f32 {
        let of_bar = |column: &&Column| column.bar == bar && column.notes_index().is_some();
        let first = self.columns.iter().position(|column| of_bar(&column)).unwrap_or(0);
        let left = match first.checked_sub(1).map(|before| &self.columns[before]) {
            Some(line) => line.x + line.reach()[1],
            None => self.columns[first].x - self.columns[first].reach()[0] - LEAD,
        };
        let line = self.columns[first..].iter().find(|column| column.holds == Holds::Barline);
        let right = match line {
            Some(line) => line.x - line.reach()[0],
            None => self.columns.iter().rev().find(of_bar).map_or(left, |last| last.x + last.reach()[1]),
        };
        0.5 * (left + right - rest.scale * rest.rest_glyph().width())
    }

    fn ink(&self, chord: &Chord) -> Ink {
        let holds_on = !chord.is_rest() && chord.heads.iter().all(|head| head.head.tied_from);
        (self.inks)(chord.at, chord.staff, holds_on)
    }
}

impl<'a> Setting<'a> {
    /// The x of the column of a chord of the galley, if it is shown.
    pub fn x_of(&self, chord: usize) -> Option<f32> {
        self.shown[chord].map(|(x, _)| x)
    }

    /// The chords that are shown, column by column, with the x of their columns.
    pub fn chords(&self) -> impl Iterator<Item = (&'a Chord<'a>, f32)> + use<'a> {
        self.placed.iter().copied()
    }

    pub fn ink(&self, chord: &Chord) -> Ink {
        self.shown[chord.index].map_or(Ink::Faint, |(_, ink)| ink)
    }

    /// Moves the staves apart, then draws what stands on several: staff lines, bar lines, stems across.
    fn finish(mut self) -> Set {
        let galley = self.order.galley;
        let across = (0..galley.beams.len()).any(|beam| self.is_across(beam));
        let mut tops = vec![0.0];
        for staff in 1..galley.staves() {
            let (upper, lower) = (&self.pen.skylines[staff - 1], &self.pen.skylines[staff]);
            let needed = upper.bottom.iter().zip(&lower.top).map(|(bottom, top)| bottom - top + BETWEEN_STAVES);
            let least = if across { 10.5 } else { STAFF + STAVES_APART };
            let at_least = self.order.tops.get(staff).copied().unwrap_or(0.0);
            tops.push(at_least.max(tops[staff - 1] + needed.fold(least, f32::max)));
        }
        let signs = self.pen.marks.len();
        across::draw(&mut self, &tops);
        slurs::across(&mut self, &tops, signs);
        // What frames the notes lies under them.
        let notes = std::mem::take(&mut self.pen.marks);
        self.frame(&tops);
        let frame = std::mem::replace(&mut self.pen.marks, notes);
        let reach = |staff: usize| {
            let line = &self.pen.skylines[staff];
            let top = line.top.iter().copied().fold(0.0, f32::min);
            let bottom = line.bottom.iter().copied().fold(STAFF, f32::max);
            (tops[staff] + top, tops[staff] + bottom)
        };
        let (top, bottom) =
            (0..tops.len()).map(reach).fold((0.0_f32, 0.0_f32), |(top, bottom), (a, b)| (top.min(a), bottom.max(b)));
        Set { frame, pen: self.pen, tops, top: top - EDGE, bottom: bottom + EDGE }
    }

    /// Staff lines and bar lines.
    fn frame(&mut self, tops: &[f32]) {
        let Order { galley, columns, width, .. } = *self.order;
        for staff in 0..tops.len() {
            let lines: &[f32] = if galley.part.lines == 1 { &[2.0] } else { &[0.0, 1.0, 2.0, 3.0, 4.0] };
            let left = if tops.len() > 1 { 1.0 } else { 0.0 };
            lines.iter().for_each(|y| self.pen.line(staff, Ink::Faint, (left, *y), (width, *y), STAFF_LINE));
        }
        if tops.len() > 1 {
            let bottom = tops[tops.len() - 1] + STAFF;
            self.pen.line(0, Ink::Faint, (1.0, 0.0), (1.0, bottom), 0.16);
            self.brace(bottom);
        }
        for column in columns {
            let opening = column.holds == Holds::Opening;
            if opening || column.holds == Holds::Barline {
                signatures::draw_barline(&mut self.pen, galley, (column.bar, opening), column.x, tops);
            }
        }
    }

    /// Clefs, keys and time signatures, at the begin and where they change.
    fn signatures(&mut self) {
        let Order { galley, columns, .. } = *self.order;
        if let Some(first) = columns.first() {
            let at = first.at - galley.bars[first.bar].start;
            signatures::prefix(Some(&mut self.pen), galley, first.bar, at, self.order.meter);
        }
        for (nth, column) in columns.iter().enumerate() {
            if column.holds == Holds::Signature {
                signatures::draw_change(&mut self.pen, galley, column.bar, column.x);
            }
            self.clef_changes(column, nth == 0);
        }
    }

    /// The clefs that change at a column; those of the first stand in the system's signatures.
    fn clef_changes(&mut self, column: &Column, is_first: bool) {
        let galley = self.order.galley;
        let bar = &galley.part.bars[galley.bars[column.bar].index];
        let start = galley.bars[column.bar].start;
        let mut draw = |staff: usize, clef, left| {
            signatures::draw_clef(&mut self.pen, staff, Ink::Faint, clef, left, signatures::CHANGED_CLEF);
        };
        if column.holds == Holds::Barline {
            for (staff, clef) in clefs_at_end(galley.part, galley.bars[column.bar].index) {
                let width = signatures::CHANGED_CLEF * signatures::clef_glyph(clef).width();
                draw(staff, clef, column.x - CLEF_BEFORE - width);
            }
        }
        for change in &bar.written.clef_changes {
            let inside = matches!(column.holds, Holds::Notes(nth) if nth > 0) && change.at < bar.length && !is_first;
            if inside && start + change.at == column.at {
                let staff = staff_index(galley.part, change.staff);
                // The clef's own box is the leftmost.
                draw(staff, change.clef, column.x + leftmost(&column.boxes, staff));
            }
        }
    }

    /// Two curves that meet in a point left of the staves.
    fn brace(&mut self, bottom: f32) {
        let (right, left, middle) = (0.75, 0.05, 0.5 * bottom);
        for end in [0.0, bottom] {
            let y = |part: f32| end + part * (middle - end);
            let outer = [(-0.3, y(0.28)), (0.75, y(0.68))];
            let inner = [(0.1, y(0.28)), (1.2, y(0.68))];
            self.pen.mark(0, Ink::Faint, Form::Curve { ends: [(right, end), (left, middle)], outer, inner });
        }
    }
}

/// Least distance between what belongs to two staves, between their lines, and to the sheet's edge.
const BETWEEN_STAVES: f32 = 0.5;
const STAVES_APART: f32 = 4.0;
const EDGE: f32 = 0.25;

impl Set {
    /// The same in a room of its own.
    pub fn within(self, top: f32, bottom: f32) -> Set {
        Set { top, bottom, ..self }
    }

    pub fn height(&self) -> f32 {
        self.bottom - self.top
    }

    /// Puts the system on a sheet, a staff space being `space` px, its top left corner at a place.
    pub fn draw(&self, drawing: &mut Drawing, space: f32, (left, top): (f32, f32)) {
        drawing.shapes.reserve(self.frame.len() + self.pen.marks.len());
        for mark in self.frame.iter().chain(&self.pen.marks) {
            let y = top + space * (self.tops[mark.staff.min(self.tops.len() - 1)] - self.top);
            drawing.shapes.push(Shape { form: mark.form.placed(space, (left, y)), ink: mark.ink });
        }
    }
}
