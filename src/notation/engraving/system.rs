//! One system drawn: from columns that stand to marks on staves, staves moved apart as far as what is
//! between them needs.
//!
//! Refuses to know which columns it is given and how large a staff space is.

use super::{
    super::drawing::{Drawing, Form, Ink, Shape},
    accidentals::BRACKET_WIDTH,
    beaming::{self, Lie, Stalk, Stroke},
    chords::{Chord, Galley},
    columns::{CLEF_BEFORE, Column, Holds, leftmost},
    glyph::Glyph,
    metrics::{BEAM, BEAM_STEP, LEDGER, LEDGER_OUT, STAFF, STAFF_LINE, STEM},
    outside,
    pen::Pen,
    signatures, spanners,
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
    /// Size of fingerings, dynamics and numbers.
    pub text: f32,
    /// Whether the time signature stands at the begin.
    pub meter: bool,
    /// Whether each bar is numbered, or only the first of the system.
    pub number_all: bool,
    /// Signs over columns: the goal, what the step arrives at, where it is entered.
    pub crowns: &'a [(Quarters, Crown)],
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crown {
    Goal,
    Aim,
    Entry,
}

/// A system that is drawn, in staff spaces.
pub struct Set {
    pub pen: Pen,
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
    /// Of each column's chords.
    pub lies: Vec<Option<Lie>>,
}

impl<'a> Order<'a> {
    pub fn set(&'a self) -> Set {
        let pen = Pen::new(self.galley.staves(), self.width);
        let mut setting = Setting { order: self, pen, lies: vec![None; self.galley.beams.len()] };
        setting.signatures();
        setting.beams();
        setting.notes();
        spanners::ties(&mut setting);
        outside::articulations(&mut setting);
        spanners::near(&mut setting);
        outside::fingerings(&mut setting);
        outside::ornaments(&mut setting);
        spanners::far(&mut setting);
        outside::numbers(&mut setting);
        outside::crowns(&mut setting);
        setting.finish()
    }

    /// The chords that are shown, with their indices and the x of their columns.
    pub fn chords(&self) -> impl Iterator<Item = (usize, &'a Chord<'a>, f32)> {
        let galley = self.galley;
        self.columns.iter().flat_map(move |column| {
            let Holds::Notes(nth) = column.holds else { return None.into_iter().flatten() };
            Some(galley.column(column.bar, nth).map(move |(index, chord)| (index, chord, column.x)))
                .into_iter()
                .flatten()
        })
    }

    /// The x of a chord's column, if it is shown.
    pub fn x_of(&self, chord: &Chord) -> Option<f32> {
        let shown = |column: &&Column| column.bar == chord.bar && column.holds == Holds::Notes(chord.column);
        self.columns.iter().find(shown).map(|column| column.x)
    }

    pub fn ink(&self, chord: &Chord) -> Ink {
        let holds_on = !chord.is_rest() && chord.heads.iter().all(|head| head.head.tied_from);
        (self.inks)(chord.at, chord.staff, holds_on)
    }
}

impl<'a> Setting<'a> {
    /// Where a chord's stem ends: at its beam, or as long as it is alone.
    pub fn tip(&self, chord: &Chord, x: f32) -> f32 {
        let lie = chord.beam.and_then(|beam| self.lies[beam]);
        lie.map_or(chord.stem_tip(), |lie| lie.at(x + chord.stem_x()))
    }

    /// The members of a beam that are shown.
    fn members(&self, beam: usize) -> Vec<(&'a Chord<'a>, f32)> {
        let galley = self.order.galley;
        let chords = galley.beams[beam].iter().map(|index| &galley.chords[*index]);
        chords.filter_map(|chord| Some((chord, self.order.x_of(chord)?))).collect()
    }

    fn beams(&mut self) {
        for beam in 0..self.order.galley.beams.len() {
            let members = self.members(beam);
            let staff = members.first().map_or(0, |(chord, _)| chord.staff);
            let one_staff = members.iter().all(|(chord, _)| chord.staff == staff && !chord.crosses());
            if members.len() < 2 || !one_staff {
                continue;
            }
            let up = members[0].0.up;
            let stalk = |(chord, x): &(&Chord, f32)| {
                let [highest, lowest] = chord.ends();
                Stalk { x: x + chord.stem_x(), head: if up { highest } else { lowest }, beams: chord.flags() }
            };
            let stalks: Vec<Stalk> = members.iter().map(stalk).collect();
            let lie = beaming::lie(&stalks, up, members[0].0.scale);
            self.lies[beam] = Some(lie);
            self.draw_beam(&members, lie, staff, |_| up);
        }
    }

    /// Draws the beams over chords; `toward` tells for the first chord whether its stem points up.
    fn draw_beam(&mut self, members: &[(&Chord, f32)], lie: Lie, staff: usize, up: impl Fn(&Chord) -> bool) {
        let chords: Vec<&Chord> = members.iter().map(|(chord, _)| *chord).collect();
        let scale = chords[0].scale;
        let x = |nth: usize| members[nth].1 + chords[nth].stem_x();
        for Stroke { beam, first, last, hook } in beaming::strokes(&chords) {
            let (left, right) = match hook {
                None => (x(first), x(last)),
                Some(forward) => {
                    let neighbour = if forward { first + 1 } else { first - 1 };
                    let length = (0.45 * (x(neighbour) - x(first)).abs()).min(1.1 * scale);
                    if forward { (x(first), x(first) + length) } else { (x(first) - length, x(first)) }
                }
            };
            let down = if up(chords[first]) { scale } else { -scale };
            let (near, far) = (down * BEAM_STEP * beam as f32, down * (BEAM_STEP * beam as f32 + BEAM));
            let (left, right) = (left - 0.5 * STEM, right + 0.5 * STEM);
            let at = |x: f32, off: f32| (x, lie.at(x) + off);
            let inks: Vec<Ink> = chords[first..=last].iter().map(|chord| self.order.ink(chord)).collect();
            let ink = if inks.contains(&Ink::Full) { Ink::Full } else { inks[0] };
            let corners = vec![at(left, near), at(right, near), at(right, far), at(left, far)];
            let (top, bottom) =
                corners.iter().fold((f32::MAX, f32::MIN), |(top, bottom), (_, y)| (top.min(*y), bottom.max(*y)));
            self.pen.take(staff, [left, top, right, bottom]);
            self.pen.polygon(staff, ink, corners);
        }
    }

    fn notes(&mut self) {
        let order = self.order;
        for (_, chord, x) in order.chords() {
            let ink = order.ink(chord);
            self.ledgers(chord, x);
            if chord.is_rest() {
                self.rest(chord, x, ink);
            } else {
                self.heads(chord, x, ink);
                let across = chord.crosses()
                    || chord.beam.is_some_and(|beam| self.lies[beam].is_none() && self.members(beam).len() > 1);
                if chord.has_stem() && !across {
                    self.stem(chord, x, ink);
                }
            }
        }
    }

    fn rest(&mut self, chord: &Chord, x: f32, ink: Ink) {
        let glyph = chord.rest_glyph();
        for (dx, y) in chord.rest_places() {
            self.pen.glyph(chord.staff, ink, glyph, (x + dx, y), chord.scale);
        }
        if matches!(glyph, Glyph::RestWhole | Glyph::RestHalf) && !(0.0..=4.0).contains(&chord.rest) {
            let (left, right) = (x + chord.dx - LEDGER_OUT, x + chord.dx + glyph.width() + LEDGER_OUT);
            self.pen.line(chord.staff, ink, (left, chord.rest), (right, chord.rest), LEDGER);
        }
        self.dots(chord, x, ink, chord.staff, chord.rest - 0.5);
    }

    fn heads(&mut self, chord: &Chord, x: f32, ink: Ink) {
        for head in &chord.heads {
            self.pen.glyph(head.staff, ink, chord.head_glyph(), (x + chord.dx + head.dx, head.y), chord.scale);
            if let Some(y) = head.dot {
                self.dots(chord, x, ink, head.staff, y);
            }
            let Some(accidental) = &head.accidental else { continue };
            let mut left = x + accidental.dx;
            if accidental.bracketed {
                self.pen.glyph(head.staff, ink, Glyph::ParenLeft, (left, head.y), chord.scale);
                left += BRACKET_WIDTH * chord.scale;
                let right = left + chord.scale * (accidental.glyph.width() + 0.08);
                self.pen.glyph(head.staff, ink, Glyph::ParenRight, (right, head.y), chord.scale);
            }
            self.pen.glyph(head.staff, ink, accidental.glyph, (left, head.y), chord.scale);
        }
    }

    fn dots(&mut self, chord: &Chord, x: f32, ink: Ink, staff: usize, y: f32) {
        for nth in 0..chord.event.dots.min(4) {
            let at = (x + chord.dots + 0.55 * f32::from(nth), y);
            self.pen.glyph(staff, ink, Glyph::Staccato, at, chord.scale);
        }
    }

    /// Short lines for heads outside the staff, at every whole space.
    fn ledgers(&mut self, chord: &Chord, x: f32) {
        if self.order.galley.part.lines == 1 {
            return;
        }
        let ink = if self.order.ink(chord) == Ink::Full { Ink::Full } else { Ink::Faint };
        let (out, width) = (LEDGER_OUT * chord.scale, chord.head_width());
        let staves = 0..self.order.galley.staves();
        for staff in staves {
            let heads = || chord.heads.iter().filter(|head| head.staff == staff);
            for side in [-1.0, 1.0] {
                let furthest = heads().map(|head| side * (head.y - 2.0)).fold(0.0, f32::max);
                for line in 3..=(furthest + 0.1) as i32 {
                    let y = 2.0 + side * line as f32;
                    let beyond = heads().filter(|head| side * (head.y - y) > -0.75);
                    let (left, right) = beyond
                        .fold((f32::MAX, f32::MIN), |(left, right), head| (left.min(head.dx), right.max(head.dx)));
                    let (left, right) = (x + chord.dx + left - out, x + chord.dx + right + width + out);
                    self.pen.line(staff, ink, (left, y), (right, y), LEDGER);
                }
            }
        }
    }

    fn stem(&mut self, chord: &Chord, x: f32, ink: Ink) {
        let (middle, foot, tip) = (x + chord.stem_x(), chord.stem_foot(), self.tip(chord, x));
        let under_beam = chord.beam.is_some_and(|beam| self.lies[beam].is_some());
        // A stem ends inside its beam.
        let into = if under_beam { 0.1 * chord.scale } else { 0.0 };
        let end = if chord.up { tip + into } else { tip - into };
        let width = if ink == Ink::Resting { 0.5 * STEM } else { STEM };
        self.pen.line(chord.staff, ink, (middle, foot), (middle, end), width);
        self.pen.take(chord.staff, [middle - 0.06, tip.min(foot), middle + 0.06, tip.max(foot)]);
        let flags = if under_beam { 0 } else { chord.flags() };
        for nth in 0..flags {
            let (glyph, down) = match (chord.up, flags == 1) {
                (true, true) => (Glyph::FlagUp, 1.0),
                (true, false) => (Glyph::FlagUpMore, 1.0),
                (false, true) => (Glyph::FlagDown, -1.0),
                (false, false) => (Glyph::FlagDownMore, -1.0),
            };
            let at = (middle - 0.5 * STEM, tip + down * chord.scale * BEAM_STEP * nth as f32);
            self.pen.glyph(chord.staff, ink, glyph, at, chord.scale);
        }
        if chord.event.grace.is_some_and(|grace| grace.slashed) && (flags > 0 || under_beam) {
            let down = if chord.up { 1.0 } else { -1.0 };
            let (from, to) = ((middle - 0.5, tip + down * 1.5), (middle + 0.8, tip + down * 0.3));
            self.pen.line(chord.staff, ink, from, to, 0.12);
        }
    }

    /// Moves the staves apart, then draws what stands on several: staff lines, bar lines, stems across.
    fn finish(mut self) -> Set {
        let galley = self.order.galley;
        let across =
            galley.beams.iter().enumerate().any(|(beam, members)| self.lies[beam].is_none() && members.len() > 1);
        let mut tops = vec![0.0];
        for staff in 1..galley.staves() {
            let (upper, lower) = (&self.pen.skylines[staff - 1], &self.pen.skylines[staff]);
            let needed = upper.bottom.iter().zip(&lower.top).map(|(bottom, top)| bottom - top + BETWEEN_STAVES);
            let least = if across { 10.5 } else { STAFF + STAVES_APART };
            tops.push(tops[staff - 1] + needed.fold(least, f32::max));
        }
        self.across(&tops);
        // What frames the notes lies under them.
        let notes = self.pen.marks.len();
        self.frame(&tops);
        self.pen.marks.rotate_left(notes);
        let reach = |staff: usize| {
            let line = &self.pen.skylines[staff];
            let top = line.top.iter().copied().fold(0.0, f32::min);
            let bottom = line.bottom.iter().copied().fold(STAFF, f32::max);
            (tops[staff] + top, tops[staff] + bottom)
        };
        let (top, bottom) =
            (0..tops.len()).map(reach).fold((0.0_f32, 0.0_f32), |(top, bottom), (a, b)| (top.min(a), bottom.max(b)));
        Set { pen: self.pen, tops, top: top - EDGE, bottom: bottom + EDGE }
    }

    /// Stems and beams that reach from staff to staff.
    fn across(&mut self, tops: &[f32]) {
        let order = self.order;
        for (_, chord, x) in order.chords() {
            let beamed = chord.beam.is_some_and(|beam| self.members(beam).len() > 1);
            if chord.crosses() && chord.has_stem() && !beamed {
                let ys = chord.heads.iter().map(|head| tops[head.staff] + head.y);
                let (high, low) = ys.fold((f32::MAX, f32::MIN), |(high, low), y| (high.min(y), low.max(y)));
                let (from, to) = if chord.up { (high - 3.5, low) } else { (high, low + 3.5) };
                let middle = x + chord.stem_x();
                self.pen.line(0, order.ink(chord), (middle, from), (middle, to), STEM);
            }
        }
        for beam in 0..order.galley.beams.len() {
            let members = self.members(beam);
            if members.len() > 1 && self.lies[beam].is_none() {
                self.beam_across(&members, tops);
            }
        }
    }

    /// A beam in the middle between the staves, level.
    fn beam_across(&mut self, members: &[(&Chord, f32)], tops: &[f32]) {
        let staffs = || members.iter().flat_map(|(chord, _)| chord.heads.iter().map(|head| head.staff));
        let (upper, lower) = (staffs().min().unwrap_or(0), staffs().max().unwrap_or(0));
        let y = 0.5 * (tops[upper] + STAFF + tops[lower]);
        let lie = Lie { x: 0.0, y, slope: 0.0 };
        let first_up = members[0].0.up;
        self.draw_beam(members, lie, 0, |_| first_up);
        for (chord, x) in members {
            let ys = chord.heads.iter().map(|head| tops[head.staff] + head.y);
            let foot = if chord.up { ys.fold(f32::MIN, f32::max) } else { ys.fold(f32::MAX, f32::min) };
            let middle = x + chord.stem_x();
            self.pen.line(0, self.order.ink(chord), (middle, foot), (middle, y), STEM);
        }
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
        for column in columns {
            if column.holds == Holds::Signature {
                signatures::draw_change(&mut self.pen, galley, column.bar, column.x);
            }
            self.clef_changes(column);
        }
    }

    fn clef_changes(&mut self, column: &Column) {
        let galley = self.order.galley;
        let bar = &galley.part.bars[galley.bars[column.bar].index];
        let start = galley.bars[column.bar].start;
        for change in &bar.written.clef_changes {
            let staff = super::chords::staff_index(galley.part, change.staff);
            let width = signatures::CHANGED_CLEF * signatures::clef_glyph(change.clef).width();
            let left = match column.holds {
                Holds::Notes(nth) if nth > 0 && start + change.at == column.at => {
                    // The clef's own box is the leftmost.
                    column.x + leftmost(&column.boxes, staff)
                }
                Holds::Barline if change.at >= bar.length => column.x - CLEF_BEFORE - width,
                _ => continue,
            };
            signatures::draw_clef(&mut self.pen, staff, Ink::Faint, change.clef, left, signatures::CHANGED_CLEF);
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
    pub fn height(&self) -> f32 {
        self.bottom - self.top
    }

    /// Puts the system on a sheet, a staff space being `space` px, its top left corner at a place.
    pub fn draw(&self, drawing: &mut Drawing, space: f32, (left, top): (f32, f32)) {
        for mark in &self.pen.marks {
            let y = top + space * (self.tops[mark.staff.min(self.tops.len() - 1)] - self.top);
            drawing.shapes.push(Shape { form: mark.form.placed(space, (left, y)), ink: mark.ink });
        }
    }
}
