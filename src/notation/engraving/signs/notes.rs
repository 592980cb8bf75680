//! Heads, stems, flags, beams, ledger lines, rests: what is drawn of a chord on its own staff.

use crate::notation::{
    drawing::{Ink, Point},
    engraving::{
        metrics::{BEAM, BEAM_STEP, HAIR, LEDGER, LEDGER_OUT, MIDDLE_LINE, STAFF, STEM, STEM_INTO_BEAM},
        prepared::{
            accidentals::BRACKET_WIDTH,
            beaming::{self, Lie, Stalk, Stroke},
            chords::{Chord, DOT_STEP, TOUCHES_HEAD},
            places::ON_LINE,
            tremolos,
        },
        signs::engraver::Engraver,
    },
    glyph::Glyph,
};

/// The stem of a cue note: a little thinner, as its head is smaller (chosen).
const CUE_STEM: f32 = 0.8 * STEM;
/// A broken beam: about as long as a head is wide, where notes are near a part of their distance (Gould 2011, "Beams",
/// from memory; the part is chosen).
const BROKEN_BEAM: f32 = 1.1;
const BROKEN_BEAM_PART: f32 = 0.45;
/// Least distance between the ledger lines of two notes: common practice, no source.
const LEDGER_GAP: f32 = 0.25;
/// How far ledger lines reach beyond a head at least, as part of what they do where nothing is near: chosen.
const LEDGER_LEAST: f32 = 0.4;
/// Between an accidental and the bracket behind it: common practice, no source.
const BEFORE_BRACKET: f32 = 0.08;
/// The stroke through a grace note, from the tip of an upward stem: drawn by eye, as thick as a stem.
const SLASH: [Point; 2] = [(-0.5, 1.5), (0.8, 0.3)];

impl<'a> Engraver<'a> {
    pub fn beams(&mut self) {
        for beam in 0..self.plan.galley.beams.len() {
            let members = self.members(beam);
            let staff = members.first().map_or(0, |(chord, _)| chord.staff);
            let one_staff = members.iter().all(|(chord, _)| chord.staff == staff && !chord.crosses());
            if members.len() < 2 || !one_staff {
                continue;
            }
            let up = members[0].0.up;
            let stalk = |(chord, x): &(&Chord, f32)| {
                let [highest, lowest] = chord.ends();
                Stalk {
                    x: x + chord.stem_x(),
                    head: if up { highest } else { lowest },
                    beams: chord.flags() + usize::from(chord.strokes),
                }
            };
            let stalks: Vec<Stalk> = members.iter().map(stalk).collect();
            let lie = match members[0].0.has_stem() {
                true => beaming::lie(&stalks, up, members[0].0.scale),
                false => tremolos::lie_between(&members, up),
            };
            self.lies[beam] = Some(lie);
            self.draw_beam(&members, lie, staff, up);
        }
    }

    /// Draws the beams over chords; further ones lie below the outermost where it is `up`.
    pub fn draw_beam(&mut self, members: &[(&Chord, f32)], lie: Lie, staff: usize, up: bool) {
        if members[0].0.strokes > 0 {
            self.strokes_between(members, lie, staff, up);
        }
        let chords: Vec<&Chord> = members.iter().map(|(chord, _)| *chord).collect();
        let scale = chords[0].scale;
        let x = |nth: usize| members[nth].1 + chords[nth].stem_x();
        for Stroke { beam, first, last, hook } in beaming::strokes(&chords) {
            let (left, right) = match hook {
                None => (x(first), x(last)),
                Some(forward) => {
                    let neighbour = if forward { first + 1 } else { first - 1 };
                    let length = (BROKEN_BEAM_PART * (x(neighbour) - x(first)).abs()).min(BROKEN_BEAM * scale);
                    if forward { (x(first), x(first) + length) } else { (x(first) - length, x(first)) }
                }
            };
            let down = if up { scale } else { -scale };
            let (near, far) = (down * BEAM_STEP * beam as f32, down * (BEAM_STEP * beam as f32 + BEAM));
            let (left, right) = (left - 0.5 * STEM, right + 0.5 * STEM);
            let at = |x: f32, off: f32| (x, lie.at(x) + off);
            let inks: Vec<Ink> = chords[first..=last].iter().map(|chord| self.ink(chord)).collect();
            let ink = if inks.contains(&Ink::Full) { Ink::Full } else { inks[0] };
            let corners = vec![at(left, near), at(right, near), at(right, far), at(left, far)];
            let (top, bottom) =
                corners.iter().fold((f32::MAX, f32::MIN), |(top, bottom), (_, y)| (top.min(*y), bottom.max(*y)));
            self.pen.take(staff, [left, top, right, bottom]);
            self.pen.polygon(staff, ink, corners);
        }
    }

    pub fn notes(&mut self) {
        for (chord, x) in self.chords() {
            let ink = self.ink(chord);
            self.ledgers(chord, x);
            if chord.is_rest() {
                self.rest(chord, x, ink);
            } else {
                self.heads(chord, x, ink);
                let across = chord.crosses() || chord.beam.is_some_and(|beam| self.is_across(beam));
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
        if matches!(glyph, Glyph::RestWhole | Glyph::RestHalf) && !(0.0..=STAFF).contains(&chord.rest) {
            let (left, right) = (x + chord.dx - LEDGER_OUT, x + chord.dx + glyph.width() + LEDGER_OUT);
            self.pen.line(chord.staff, ink, (left, chord.rest), (right, chord.rest), LEDGER);
            self.pen.take(chord.staff, [left, chord.rest - 0.5 * LEDGER, right, chord.rest + 0.5 * LEDGER]);
        }
        self.dots(chord, x, ink, chord.staff, chord.rest_dot());
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
                let right = left + chord.scale * (accidental.glyph.width() + BEFORE_BRACKET);
                self.pen.glyph(head.staff, ink, Glyph::ParenRight, (right, head.y), chord.scale);
            }
            self.pen.glyph(head.staff, ink, accidental.glyph, (left, head.y), chord.scale);
        }
    }

    fn dots(&mut self, chord: &Chord, x: f32, ink: Ink, staff: usize, y: f32) {
        for nth in 0..chord.event.dots.min(4) {
            let at = (x + chord.dots + DOT_STEP * f32::from(nth), y);
            self.pen.glyph(staff, ink, Glyph::Staccato, at, chord.scale);
        }
    }

    /// Short lines for heads outside the staff, at every whole space.
    fn ledgers(&mut self, chord: &Chord, x: f32) {
        if self.plan.galley.part.lines == 1 {
            return;
        }
        let ink = if self.ink(chord) == Ink::Full { Ink::Full } else { Ink::Faint };
        let width = chord.head_width();
        let outs = [false, true].map(|right| self.ledger_out(chord, x, right));
        let staves = 0..self.plan.galley.staves();
        for staff in staves {
            let heads = || chord.heads.iter().filter(|head| head.staff == staff);
            for side in [-1.0, 1.0] {
                let furthest = heads().map(|head| side * (head.y - MIDDLE_LINE)).fold(0.0, f32::max);
                for line in 3..=(furthest + ON_LINE) as i32 {
                    let y = MIDDLE_LINE + side * line as f32;
                    let beyond = heads().filter(|head| side * (head.y - y) > -TOUCHES_HEAD);
                    let (left, right) = beyond
                        .fold((f32::MAX, f32::MIN), |(left, right), head| (left.min(head.dx), right.max(head.dx)));
                    let (left, right) = (x + chord.dx + left - outs[0], x + chord.dx + right + width + outs[1]);
                    self.pen.line(staff, ink, (left, y), (right, y), LEDGER);
                }
            }
        }
    }

    /// How far a ledger line reaches beyond the heads: less where the next ones are near, so that the lines of two
    /// notes do not touch (Gould 2011, "Ledger lines", from memory).
    fn ledger_out(&self, chord: &Chord, x: f32, right: bool) -> f32 {
        let notes = || self.plan.columns.iter().filter(|column| column.is_notes());
        let gap = match right {
            true => notes().find(|column| column.x > x + HAIR).map(|next| next.x - x - chord.right()),
            false => {
                notes().rfind(|column| column.x < x - HAIR).map(|before| x + chord.dx - before.x - chord.head_width())
            }
        };
        let most = LEDGER_OUT * chord.scale;
        gap.map_or(most, |gap| (0.5 * (gap - LEDGER_GAP)).clamp(LEDGER_LEAST * most, most))
    }

    fn stem(&mut self, chord: &Chord, x: f32, ink: Ink) {
        let (middle, foot, tip) = (x + chord.stem_x(), chord.stem_foot(), self.tip(chord, x));
        let under_beam = chord.beam.is_some_and(|beam| self.lies[beam].is_some());
        let into = if under_beam { STEM_INTO_BEAM * chord.scale } else { 0.0 };
        let end = if chord.up { tip + into } else { tip - into };
        let width = if ink == Ink::Resting { CUE_STEM } else { STEM };
        self.pen.line(chord.staff, ink, (middle, foot), (middle, end), width);
        self.pen.take(chord.staff, [middle - 0.5 * STEM, tip.min(foot), middle + 0.5 * STEM, tip.max(foot)]);
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
        // One stroke for all grace notes under a beam (Gould 2011, "Grace notes", from memory).
        let is_first = chord.beam.is_none_or(|beam| self.plan.galley.beams[beam].first() == Some(&chord.index));
        if chord.event.grace.is_some_and(|grace| grace.slashed) && (flags > 0 || under_beam && is_first) {
            let down = if chord.up { 1.0 } else { -1.0 };
            let [from, to] = SLASH.map(|(dx, dy)| (middle + dx, tip + down * dy));
            self.pen.line(chord.staff, ink, from, to, STEM);
        }
    }
}
