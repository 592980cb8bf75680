//! Tuplets: the figure, and a bracket where no beam joins its notes.

use crate::{
    music::written::{Spanner, Spans},
    notation::engraving::{
        metrics::{BRACKET, TEXT_HEIGHT},
        pen::text_width,
        prepared::chords::Chord,
        signs::{
            engraver::Engraver,
            spanners::{APART, anchored, is_shown},
        },
    },
};

/// Between the figure and its bracket: common practice, no source.
const BESIDE_FIGURE: f32 = 0.2;

pub fn tuplets(engraver: &mut Engraver) {
    for spanner in &engraver.plan.galley.part.spanners {
        if is_shown(engraver, spanner)
            && let Some(tuplet) = Tuplet::measured(engraver, spanner)
        {
            tuplet.draw(engraver);
        }
    }
}

/// A tuplet's figure and bracket, as they will stand.
struct Tuplet<'a> {
    first: &'a Chord<'a>,
    figure: String,
    /// Width and height of the figure.
    size: (f32, f32),
    bracketed: bool,
    above: bool,
    left: f32,
    right: f32,
    /// The middle of the figure.
    y: f32,
}

impl<'a> Tuplet<'a> {
    fn measured(engraver: &Engraver<'a>, spanner: &Spanner) -> Option<Self> {
        let Spans::Tuplet { figure, bracket } = spanner.kind else { return None };
        let ((first, x), (last, end)) = (anchored(engraver, &spanner.from)?, anchored(engraver, &spanner.to)?);
        let above = spanner.above.unwrap_or(first.company.unwrap_or(first.up || first.is_rest()));
        let beamed = first.beam.is_some() && first.beam == last.beam && first.up == above;
        let bracketed = bracket.unwrap_or(!beamed);
        let (left, right) = (x + first.dx.min(0.0), end + last.dx + last.head_width());
        let figure = figure.to_string();
        let size = (text_width(&figure, engraver.plan.text), TEXT_HEIGHT * engraver.plan.text);
        let middle = 0.5 * (left + right);
        let (from, to) = if bracketed { (left, right) } else { (middle - 0.5 * size.0, middle + 0.5 * size.0) };
        let (line, off) = (&engraver.pen.skylines[first.staff], APART + 0.5 * size.1);
        let y = if above { line.above(from, to) - off } else { line.below(from, to) + off };
        Some(Tuplet { first, figure, size, bracketed, above, left, right, y })
    }

    fn draw(self, engraver: &mut Engraver) {
        let (staff, ink) = (self.first.staff, engraver.ink(self.first));
        if self.bracketed {
            self.bracket(engraver);
        }
        let middle = 0.5 * (self.left + self.right);
        engraver.pen.text(staff, ink, (middle, self.y), engraver.plan.text, true, self.figure);
    }

    /// The bracket, with a gap for the figure.
    fn bracket(&self, engraver: &mut Engraver) {
        let Tuplet { left, right, y, size: (width, height), .. } = *self;
        let (staff, ink) = (self.first.staff, engraver.ink(self.first));
        let hook = y + if self.above { 0.5 } else { -0.5 } * height;
        let (middle, gap) = (0.5 * (left + right), 0.5 * width + BESIDE_FIGURE);
        for (from, to) in [
            ((left, hook), (left, y)),
            ((left, y), (middle - gap, y)),
            ((middle + gap, y), (right, y)),
            ((right, y), (right, hook)),
        ] {
            if from.0 <= to.0 {
                engraver.pen.line(staff, ink, from, to, BRACKET);
            }
        }
        engraver.pen.take(staff, [left, y - 0.5 * height, right, y + 0.5 * height]);
    }
}
