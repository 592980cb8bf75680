//! How loud: dynamic marks and hairpins, on one line under a staff with the words that stand there.

use crate::{
    music::Quarters,
    notation::{
        drawing::{Ink, Point},
        engraving::{
            metrics::STAFF,
            prepared::places::{quarters, staff_index},
            signs::{
                cross_staff::{self, free_side},
                engraver::Engraver,
                hairpins,
                loudness::{
                    BASELINE, HALF_LETTER, Loud, WORDS, advance, bearing, is_letters, letter, letter_scale, loud,
                    mark_width, shortened,
                },
                spanners::{APART, x_at},
                staff_text,
            },
        },
        glyph::Glyph,
    },
    sort,
};

/// All that says how loud, on one line under each staff and one over it: the middle of the hairpins is that of the
/// letters. Under, but where the file says over, or where something that joins the staves stands in its place.
pub fn dynamics(engraver: &mut Engraver) {
    let scale = letter_scale(engraver.plan.text);
    let joined = cross_staff::joined(engraver);
    for staff in 0..engraver.plan.galley.staves() {
        let mut all = marks(engraver, staff);
        all.extend(staff_text::on_line(engraver, staff).into_iter().map(|(loud, ink)| (loud, ink, false)));
        for (loud, _, above) in &mut all {
            *above = free_side(loud.extent(scale), (staff, *above), &joined);
        }
        for above in [true, false] {
            let of_side = all.extract_if(.., |(.., side)| *side == above);
            let mut line: Vec<(Loud, Ink)> = of_side.map(|(loud, ink, _)| (loud, ink)).collect();
            set_apart(&mut line, scale);
            hairpins::add(engraver, (staff, above), (scale, &joined), &mut line);
            set_apart(&mut line, scale);
            draw(engraver, (staff, above), &line, scale);
        }
    }
}

/// From the staff to the middle of a line at least: common practice, no source.
const NEAREST: f32 = 1.2;

/// The dynamic marks of a staff that are shown, and whether the file puts them over it.
fn marks<'a>(engraver: &Engraver<'a>, staff: usize) -> Vec<(Loud<'a>, Ink, bool)> {
    let galley = engraver.plan.galley;
    let mut marks = Vec::new();
    for column in engraver.plan.columns.iter().filter(|column| column.is_notes()) {
        let ready = &galley.bars[column.bar];
        let of_bar = &galley.part.bars[ready.index].dynamics;
        let next = if of_bar.is_empty() { None } else { next_column(engraver, column.at) };
        for mark in of_bar {
            let at = ready.start + mark.at;
            let here = column.at <= at && next.map_or(at == column.at, |next| at < next);
            if here && staff_index(galley.part, mark.staff) == staff {
                let x = x_at(engraver, quarters(at)) + 0.5 * Glyph::HeadBlack.width();
                let ink = loud((engraver.plan.inks)(at, staff, false));
                marks.push((Loud::Mark { x, text: &mark.mark }, ink, mark.above.unwrap_or(false)));
            }
        }
    }
    marks
}

/// Least distance between what stands side by side on a line: common practice, no source.
const BESIDE: f32 = 0.25;
/// Beside larger letters hairpins open no further than beside letters of this scale: chosen.
const LARGEST_HAIRPIN: f32 = 1.3;

/// What would stand at one place stands behind one another.
fn set_apart(line: &mut [(Loud, Ink)], scale: f32) {
    sort::by(line, |(a, _), (b, _)| a.begin().total_cmp(&b.begin()));
    let mut free = f32::MIN;
    for (loud, _) in line {
        loud.begin_behind(free, scale);
        free = loud.extent(scale).1 + BESIDE;
    }
}

/// The middle of a line beyond all that is there.
fn height(engraver: &Engraver, (staff, above): (usize, bool), line: &[(Loud, Ink)], scale: f32) -> f32 {
    let skyline = &engraver.pen.skylines[staff];
    let needs = line.iter().map(|(loud, _)| {
        let ((left, right), [rise, fall]) = (loud.extent(scale), loud.reach(scale));
        if above { skyline.above(left, right) - APART - fall } else { skyline.below(left, right) + APART + rise }
    });
    if above { needs.fold(-NEAREST, f32::min) } else { needs.fold(STAFF + NEAREST, f32::max) }
}

fn draw(engraver: &mut Engraver, (staff, above): (usize, bool), line: &[(Loud, Ink)], scale: f32) {
    let y = height(engraver, (staff, above), line, scale);
    for (loud, ink) in line {
        let (left, right) = loud.extent(scale);
        match loud {
            Loud::Mark { x, text } => draw_mark(engraver, staff, *ink, (*x, y), text, scale),
            Loud::Hairpin(hairpin) => {
                hairpin.draw(engraver, staff, *ink, (y, scale.min(LARGEST_HAIRPIN)));
                let half = HALF_LETTER * scale;
                engraver.pen.take(staff, [left, y - half, right, y + half]);
            }
            Loud::Manner { text, size, .. } => {
                let (half, most) = (0.5 * (right - left), engraver.plan.width - 0.5 * (right - left));
                let mut at = ((left + half).min(most).max(half), y);
                if left + half > most {
                    // What finds no room behind a mark stands beyond it.
                    let off = HALF_LETTER * scale + 0.5 * size;
                    let beyond = engraver.beyond(staff, above, (at.0 - half, at.0 + half), *size);
                    at.1 = if above { beyond.min(y - off) } else { beyond.max(y + off) };
                }
                engraver.pen.text(staff, *ink, at, *size, true, text.to_string());
            }
        }
    }
}

fn next_column(engraver: &Engraver, at: Quarters) -> Option<Quarters> {
    engraver.plan.columns.iter().filter(|column| column.is_notes() && column.at > at).map(|column| column.at).next()
}

/// A mark centred on a point: in its own letters, or as text.
fn draw_mark(engraver: &mut Engraver, staff: usize, ink: Ink, (x, y): Point, text: &str, scale: f32) {
    if !is_letters(text) {
        return engraver.pen.text(staff, ink, (x, y), WORDS * scale, true, shortened(text));
    }
    let mut left = x - 0.5 * mark_width(text, scale);
    for glyph in text.chars().filter_map(letter) {
        engraver.pen.glyph(staff, ink, glyph, (left - scale * bearing(glyph), y + BASELINE * scale), scale);
        left += advance(glyph, scale);
    }
}
