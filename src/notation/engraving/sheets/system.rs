//! One system drawn: from columns that stand to marks on staves, staves moved apart as far as what is
//! between them needs.

use crate::notation::{
    drawing::{Drawing, Form, Ink, Shape},
    engraving::{
        metrics::{MIDDLE_LINE, STAFF, STAFF_LINE, THIN},
        pen::{Mark, Pen},
        prepared::{chords::Chord, clefs::clefs_at_end, places::staff_index},
        signs::{
            articulations, bar_numbers, cross_staff, dynamics, endings,
            engraver::{Engraver, SystemPlan},
            fingerings, octave_lines, ornaments, pedals, signatures, slurs, staff_text, step_signs, ties, trills,
            tuplets,
        },
        spaced::{
            columns::{CLEF_BEFORE, Column, Holds, leftmost},
            signatures::{CHANGED_CLEF, Prefix, clef_glyph},
        },
    },
};

/// A system that is drawn, in staff spaces.
pub struct EngravedSystem {
    /// What lies under the notes: staff lines and bar lines.
    frame: Vec<Mark>,
    pen: Pen,
    /// Of each staff's top line from that of the first.
    pub tops: Vec<f32>,
    /// How far it reaches above the first staff's top line (negative) and below it.
    pub top: f32,
    pub bottom: f32,
}

impl SystemPlan<'_> {
    /// Draws the system, sign after sign.
    pub fn engrave(&self) -> EngravedSystem {
        let placed: Vec<(&Chord, f32)> = self.chords().collect();
        let mut engraver = Engraver::new(self, &placed);
        engraver.signatures();
        engraver.beams();
        engraver.notes();
        ties::ties(&mut engraver);
        articulations::articulations(&mut engraver);
        tuplets::tuplets(&mut engraver);
        engraver.notes = engraver.pen.marks.len();
        slurs::slurs(&mut engraver);
        fingerings::fingerings(&mut engraver);
        ornaments::ornaments(&mut engraver);
        trills::trills(&mut engraver);
        octave_lines::octaves(&mut engraver);
        dynamics::dynamics(&mut engraver);
        pedals::pedals(&mut engraver);
        endings::endings(&mut engraver);
        staff_text::staff_text(&mut engraver);
        bar_numbers::numbers(&mut engraver);
        step_signs::crowns(&mut engraver);
        engraver.finish()
    }
}

impl<'a> Engraver<'a> {
    /// Moves the staves apart, then draws what stands on several: staff lines, bar lines, stems across.
    fn finish(mut self) -> EngravedSystem {
        let galley = self.plan.galley;
        let across = (0..galley.beams.len()).any(|beam| self.is_across(beam));
        let mut tops = vec![0.0];
        for staff in 1..galley.staves() {
            let (upper, lower) = (&self.pen.skylines[staff - 1], &self.pen.skylines[staff]);
            let needed = upper.bottom.iter().zip(&lower.top).map(|(bottom, top)| bottom - top + BETWEEN_STAVES);
            let least = if across { STAVES_ACROSS } else { STAFF + STAVES_APART };
            let at_least = self.plan.tops.get(staff).copied().unwrap_or(0.0);
            tops.push(at_least.max(tops[staff - 1] + needed.fold(least, f32::max)));
        }
        let signs = self.pen.marks.len();
        cross_staff::draw(&mut self, &tops);
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
        EngravedSystem { frame, pen: self.pen, tops, top: top - EDGE, bottom: bottom + EDGE }
    }

    /// Staff lines and bar lines.
    fn frame(&mut self, tops: &[f32]) {
        let SystemPlan { galley, columns, width, .. } = *self.plan;
        for staff in 0..tops.len() {
            let lines: &[f32] = if galley.part.lines == 1 { &[MIDDLE_LINE] } else { &[0.0, 1.0, 2.0, 3.0, 4.0] };
            let left = if tops.len() > 1 { JOINED_LEFT } else { 0.0 };
            lines.iter().for_each(|y| self.pen.line(staff, Ink::Faint, (left, *y), (width, *y), STAFF_LINE));
        }
        if tops.len() > 1 {
            let bottom = tops[tops.len() - 1] + STAFF;
            self.pen.line(0, Ink::Faint, (JOINED_LEFT, 0.0), (JOINED_LEFT, bottom), THIN);
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
        let SystemPlan { galley, columns, .. } = *self.plan;
        if let Some(first) = columns.first() {
            let at = first.at - galley.bars[first.bar].start;
            signatures::draw_prefix(&mut self.pen, &Prefix::new(galley, first.bar, at, self.plan.meter));
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
        let galley = self.plan.galley;
        let bar = &galley.part.bars[galley.bars[column.bar].index];
        let start = galley.bars[column.bar].start;
        let mut draw = |staff: usize, clef, left| {
            signatures::draw_clef(&mut self.pen, staff, Ink::Faint, clef, left, CHANGED_CLEF);
        };
        if column.holds == Holds::Barline {
            for (staff, clef) in clefs_at_end(galley.part, galley.bars[column.bar].index) {
                let width = CHANGED_CLEF * clef_glyph(clef).width();
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
        let middle = 0.5 * bottom;
        for end in [0.0, bottom] {
            let controls = |xs: [f32; 2]| [0, 1].map(|nth| (xs[nth], end + BRACE_BENDS[nth] * (middle - end)));
            let ends = [(BRACE_ENDS, end), (BRACE_POINT, middle)];
            let (outer, inner) = (controls(BRACE_OUTER), controls(BRACE_INNER));
            self.pen.mark(0, Ink::Faint, Form::Curve { ends, outer, inner });
        }
    }
}

/// The x at which the staves of a system are joined: the brace stands before it.
const JOINED_LEFT: f32 = 1.0;
/// The brace, drawn by eye (common practice, no source): the x of its ends and of its point, of the control points of its
/// outer and inner edge, and how far down from its end to its point these stand.
const BRACE_ENDS: f32 = 0.75;
const BRACE_POINT: f32 = 0.05;
const BRACE_OUTER: [f32; 2] = [-0.3, 0.75];
const BRACE_INNER: [f32; 2] = [0.1, 1.2];
const BRACE_BENDS: [f32; 2] = [0.28, 0.68];

/// Least distance between what belongs to two staves, between their lines, and to the sheet's edge: common practice, no
/// source.
const BETWEEN_STAVES: f32 = 0.5;
const STAVES_APART: f32 = 4.0;
const EDGE: f32 = 0.25;
/// From one staff's top line to the next one's where a beam stands between them: common practice, no source.
const STAVES_ACROSS: f32 = 10.5;

impl EngravedSystem {
    /// The same in a room of its own.
    pub fn within(self, top: f32, bottom: f32) -> EngravedSystem {
        EngravedSystem { top, bottom, ..self }
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
