//! Tuplets: the figure, and a bracket where no beam joins its notes.

use crate::{
    music::written::{Spanner, Spans},
    notation::engraving::{
        metrics::{BRACKET, TEXT_HEIGHT},
        pen::text_width,
        signs::{
            engraver::Engraver,
            spanners::{APART, anchored, is_shown},
        },
    },
};

pub fn tuplets(engraver: &mut Engraver) {
    for spanner in &engraver.plan.galley.part.spanners {
        if is_shown(engraver, spanner) {
            tuplet(engraver, spanner);
        }
    }
}

fn tuplet(engraver: &mut Engraver, spanner: &Spanner) {
    let Spans::Tuplet { figure, bracket } = spanner.kind else { return };
    let (Some((first, x)), Some((last, end))) = (anchored(engraver, &spanner.from), anchored(engraver, &spanner.to))
    else {
        return;
    };
    let above = spanner.above.unwrap_or(first.company.unwrap_or(first.up || first.is_rest()));
    let beamed = first.beam.is_some() && first.beam == last.beam && first.up == above;
    let bracketed = bracket.unwrap_or(!beamed);
    let (left, right) = (x + first.dx.min(0.0), end + last.dx + last.head_width());
    let size = engraver.plan.text;
    let text = figure.to_string();
    let half = 0.5 * text_width(&text, size);
    let height = TEXT_HEIGHT * size;
    let line = &engraver.pen.skylines[first.staff];
    let middle = 0.5 * (left + right);
    let (from, to) = if bracketed { (left, right) } else { (middle - half, middle + half) };
    let y =
        if above { line.above(from, to) - APART - 0.5 * height } else { line.below(from, to) + APART + 0.5 * height };
    let ink = engraver.ink(first);
    let toward = if above { 1.0 } else { -1.0 };
    if bracketed {
        let hook = y + toward * 0.5 * height;
        for (from, to) in [
            ((left, hook), (left, y)),
            ((left, y), (middle - half - 0.2, y)),
            ((middle + half + 0.2, y), (right, y)),
            ((right, y), (right, hook)),
        ] {
            if from.0 <= to.0 {
                engraver.pen.line(first.staff, ink, from, to, BRACKET);
            }
        }
        engraver.pen.take(first.staff, [left, y - 0.5 * height, right, y + 0.5 * height]);
    }
    engraver.pen.text(first.staff, ink, (middle, y), size, true, text);
}
