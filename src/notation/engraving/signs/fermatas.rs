//! Fermatas in the shapes that tell how long they hold.
//!
//! The arc is the usual one; an angle holds shorter, a square longer, doubled ones still shorter and longer (SMuFL,
//! "Holds and pauses").

use crate::{
    music::written::{Fermata, FermataShape},
    notation::{
        drawing::{Ink, Point},
        engraving::{
            metrics::{BEAM, STEM},
            prepared::chords::Chord,
            signs::engraver::Engraver,
        },
        glyph::Glyph,
    },
};

/// Half the width and the height of a shape made of strokes: those of the arc.
const HALF: f32 = 1.2;
const HEIGHT: f32 = 1.3;
/// The height of a shape that has another inside it, and the size of that one as part of it: chosen.
const DOUBLE_HEIGHT: f32 = 1.7;
const INNER: f32 = 0.6;
/// From the foot of a shape to the middle of its dot, and how large the dot is beside that of a staccato: chosen.
const DOT: f32 = 0.2;
const DOT_SIZE: f32 = 1.3;
/// The strokes of a shape are as thick as stems, but for the right side of an angle and the top of a square: chosen.
const ANGLE_RIGHT: f32 = 2.0 * STEM;
const SQUARE_TOP: f32 = 0.6 * BEAM;

/// The fermata of a chord, over or under all that is there, its middle at x.
pub fn fermata(engraver: &mut Engraver, chord: &Chord, x: f32, ink: Ink) {
    let Fermata { shape, above } = chord.event.fermata.unwrap_or_default();
    let above = above.unwrap_or(chord.company != Some(false));
    let (angled, double) = match shape {
        FermataShape::Normal => {
            let glyph = if above { Glyph::FermataAbove } else { Glyph::FermataBelow };
            return engraver.put(chord.staff, ink, glyph, x, above);
        }
        FermataShape::Angled => (true, false),
        FermataShape::DoubleAngled => (true, true),
        FermataShape::Square => (false, false),
        FermataShape::DoubleSquare => (false, true),
    };
    let high = if double { DOUBLE_HEIGHT } else { HEIGHT };
    let middle = engraver.beyond(chord.staff, above, (x - HALF, x + HALF), high);
    let up = if above { -1.0 } else { 1.0 };
    let foot = middle - 0.5 * up * high;
    for size in if double { &[1.0, INNER][..] } else { &[1.0] } {
        let at = |side: f32, height: f32| (x + size * side * HALF, foot + size * up * height * high);
        stroked(engraver, (chord.staff, ink), if angled { angle(at) } else { square(at) });
    }
    let dot = Glyph::Staccato;
    let at = (x - 0.5 * DOT_SIZE * dot.width(), foot + up * DOT);
    engraver.pen.glyph(chord.staff, ink, dot, at, DOT_SIZE);
    engraver.pen.take(chord.staff, [x - HALF, middle - 0.5 * high, x + HALF, middle + 0.5 * high]);
}

/// A stroke with its width.
type Stroke = (Point, Point, f32);

fn angle(at: impl Fn(f32, f32) -> Point) -> Vec<Stroke> {
    vec![(at(-1.0, 0.0), at(0.0, 1.0), STEM), (at(0.0, 1.0), at(1.0, 0.0), ANGLE_RIGHT)]
}

fn square(at: impl Fn(f32, f32) -> Point) -> Vec<Stroke> {
    let (left, right) = (at(-1.0, 1.0), at(1.0, 1.0));
    vec![(at(-1.0, 0.0), left, STEM), (left, right, SQUARE_TOP), (right, at(1.0, 0.0), STEM)]
}

fn stroked(engraver: &mut Engraver, (staff, ink): (usize, Ink), strokes: Vec<Stroke>) {
    strokes.into_iter().for_each(|(from, to, width)| engraver.pen.line(staff, ink, from, to, width));
}
