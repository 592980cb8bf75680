//! Octave lines.

use crate::{
    music::written::{Spanner, Spans},
    notation::{
        drawing::Ink,
        engraving::{
            metrics::{BRACKET, TEXT_HEIGHT},
            pen::text_width,
            prepared::places::{INSTANT, quarters, staff_index},
            signs::{
                engraver::Engraver,
                spanners::{APART, begin, goes_on, ink_between, is_shown, shown, time, x_at},
            },
        },
        glyph::Glyph,
    },
};

/// A dash and the gap behind it, the hook at the end, and how far over the figure's middle the line runs, as part of the
/// figure's height: common practice, no source.
const DASH: f32 = 0.6;
const DASH_STEP: f32 = 1.1;
const HOOK: f32 = 0.8;
const RAIL: f32 = 0.4;
/// Between the figure and its line, and how far the figure stands out before its note: common practice, no source.
const BESIDE_FIGURE: f32 = 0.2;
/// How far the line reaches beyond the last head: common practice, no source.
const BEYOND_HEAD: f32 = 0.2;
/// The shortest line, its figure included: common practice, no source.
const SHORTEST: f32 = 1.0;

/// Octave signs: where one goes on from the system before its figure stands again, where it goes on in the
/// next one its line stays open (Gould 2011, "Octave signs", from memory).
pub fn octaves(engraver: &mut Engraver) {
    let plan = engraver.plan;
    for spanner in &plan.galley.part.spanners {
        let Spans::Octave(octaves) = spanner.kind else { continue };
        if octaves != 0 && is_shown(engraver, spanner) {
            let ink = ink_between(engraver, spanner, staff_index(plan.galley.part, spanner.from.staff));
            OctaveLine::measured(engraver, spanner, octaves).draw(engraver, ink);
        }
    }
}

/// An octave sign's figure and line, as they will stand.
struct OctaveLine {
    staff: usize,
    above: bool,
    text: &'static str,
    /// Width and height of the figure.
    size: (f32, f32),
    left: f32,
    right: f32,
    /// The middle of the figure.
    y: f32,
    /// Whether its line goes on in the next system.
    open: bool,
}

impl OctaveLine {
    fn measured(engraver: &Engraver, spanner: &Spanner, octaves: i8) -> OctaveLine {
        let plan = engraver.plan;
        let staff = staff_index(plan.galley.part, spanner.from.staff);
        let above = spanner.above.unwrap_or(octaves > 0);
        let text = octave_text(octaves, above);
        let size = (text_width(text, plan.text), TEXT_HEIGHT * plan.text);
        let (first, _) = shown(engraver);
        let (from, to) = (time(engraver, &spanner.from), time(engraver, &spanner.to));
        let left = if from < first { begin(engraver) } else { x_at(engraver, from) };
        let left = left.min(plan.width - size.0).max(0.0);
        let open = goes_on(engraver, spanner);
        let right = if open { plan.width } else { end_of_last(engraver, to) };
        let right = right.min(plan.width).max(left + SHORTEST);
        let (line, from, off) = (&engraver.pen.skylines[staff], left - 0.5 * size.0, APART + 0.5 * size.1);
        let y = if above { line.above(from, right) - off } else { line.below(from, right) + off };
        OctaveLine { staff, above, text, size, left, right, y, open }
    }

    fn draw(&self, engraver: &mut Engraver, ink: Ink) {
        let OctaveLine { staff, left, right, y, size: (width, height), .. } = *self;
        let half = 0.5 * width;
        let toward = if self.above { 1.0 } else { -1.0 };
        let at = (left + half - BESIDE_FIGURE, y);
        engraver.pen.text(staff, ink, at, engraver.plan.text, true, self.text.to_string());
        let rail = y - toward * RAIL * height;
        let mut x = left + width + BESIDE_FIGURE;
        while x < right - BESIDE_FIGURE {
            engraver.pen.line(staff, ink, (x, rail), ((x + DASH).min(right), rail), BRACKET);
            x += DASH_STEP;
        }
        if !self.open {
            engraver.pen.line(staff, ink, (right, rail), (right, rail + toward * HOOK), BRACKET);
        }
        engraver.pen.take(staff, [left - half, y - 0.5 * height, right, y + 0.5 * height]);
    }
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
    let last = notes().rfind(|column| quarters(column.at) < time - INSTANT).or_else(|| notes().next());
    last.map_or(0.0, |column| column.x + Glyph::HeadBlack.width() + BEYOND_HEAD)
}
