//! Octave lines.

use crate::{
    music::written::{Spanner, Spans},
    notation::{
        engraving::{
            metrics::{BRACKET, TEXT_HEIGHT},
            pen::text_width,
            prepared::places::{quarters, staff_index},
            signs::{
                engraver::Engraver,
                spanners::{APART, begin, goes_on, ink_between, is_shown, shown, time, x_at},
            },
        },
        glyph::Glyph,
    },
};

/// Octave signs: where one goes on from the system before its figure stands again, where it goes on in the
/// next one its line stays open (Gould 2011, "Octave signs", from memory).
pub fn octaves(engraver: &mut Engraver) {
    let plan = engraver.plan;
    for spanner in &plan.galley.part.spanners {
        let Spans::Octave(octaves) = spanner.kind else { continue };
        if octaves != 0 && is_shown(engraver, spanner) {
            octave(engraver, spanner, octaves);
        }
    }
}

fn octave(engraver: &mut Engraver, spanner: &Spanner, octaves: i8) {
    let plan = engraver.plan;
    let staff = staff_index(plan.galley.part, spanner.from.staff);
    let above = spanner.above.unwrap_or(octaves > 0);
    let toward = if above { 1.0 } else { -1.0 };
    let (size, ink) = (plan.text, ink_between(engraver, spanner, staff));
    let text = octave_text(octaves, above);
    let (half, height) = (0.5 * text_width(text, size), TEXT_HEIGHT * size);
    let (first, _) = shown(engraver);
    let (from, to) = (time(engraver, &spanner.from), time(engraver, &spanner.to));
    let left = if from < first { begin(engraver) } else { x_at(engraver, from) };
    let left = left.min(plan.width - 2.0 * half).max(0.0);
    let right = if goes_on(engraver, spanner) { plan.width } else { end_of_last(engraver, to) };
    let right = right.min(plan.width).max(left + 1.0);
    let line = &engraver.pen.skylines[staff];
    let off = APART + 0.5 * height;
    let y = if above { line.above(left - half, right) - off } else { line.below(left - half, right) + off };
    engraver.pen.text(staff, ink, (left + half - 0.2, y), size, true, text.to_string());
    let rail = y - toward * 0.4 * height;
    let mut x = left + 2.0 * half + 0.2;
    while x < right - 0.2 {
        engraver.pen.line(staff, ink, (x, rail), ((x + 0.6).min(right), rail), BRACKET);
        x += 1.1;
    }
    if !goes_on(engraver, spanner) {
        engraver.pen.line(staff, ink, (right, rail), (right, rail + toward * 0.8), BRACKET);
    }
    engraver.pen.take(staff, [left - half, y - 0.5 * height, right, y + 0.5 * height]);
}

fn octave_text(octaves: i8, above: bool) -> &'static str {
    match (octaves.unsigned_abs(), above) {
        (1, true) => "8va",
        (1, false) => "8vb",
        (2, true) => "15ma",
        (2, false) => "15mb",
        (_, true) => "22ma",
        (_, false) => "22mb",
    }
}

/// The right edge of the last heads that begin before a time.
fn end_of_last(engraver: &Engraver, time: f32) -> f32 {
    let notes = || engraver.plan.columns.iter().filter(|column| column.is_notes());
    let last = notes().rfind(|column| quarters(column.at) < time - 1e-3).or_else(|| notes().next());
    last.map_or(0.0, |column| column.x + Glyph::HeadBlack.width() + 0.2)
}
