//! Ornaments and fermatas, over and under their notes.

use crate::{
    music::{passage::Articulation, written::Ornament},
    notation::{
        drawing::Ink,
        engraving::{
            metrics::STEM,
            prepared::chords::Chord,
            signs::{engraver::Engraver, fermatas, tremolos},
        },
        glyph::Glyph,
    },
};

/// The stroke through an inverted turn: how far it reaches from the middle, and how much room it takes over and under
/// the sign, which is twice so wide as `HALF_TURN`. Chosen.
const STROKE_HALF: f32 = 0.7;
const STROKE_BEYOND: f32 = 0.3;
const HALF_TURN: f32 = 1.1;

pub fn ornaments(engraver: &mut Engraver) {
    for (chord, x) in engraver.chords() {
        let ink = engraver.ink(chord);
        let middle = x + chord.dx + 0.5 * chord.head_width();
        for ornament in &chord.event.ornaments {
            let above = chord.company != Some(false);
            match ornament {
                Ornament::Trill => {}
                Ornament::Turn => engraver.put(chord.staff, ink, Glyph::Turn, middle, above),
                Ornament::InvertedTurn => inverted_turn(engraver, chord, ink, middle, above),
                Ornament::Mordent => engraver.put(chord.staff, ink, Glyph::Mordent, middle, above),
                Ornament::ShortTrill => engraver.put(chord.staff, ink, Glyph::ShortTrill, middle, above),
                Ornament::Tremolo(strokes) => tremolos::single(engraver, chord, x, *strokes, ink),
            }
        }
        if chord.event.articulations.contains(&Articulation::Fermata) {
            let middle = if chord.is_rest() { x + chord.dx + 0.5 * chord.rest_glyph().width() } else { middle };
            fermatas::fermata(engraver, chord, middle, ink);
        }
    }
}

/// A turn with an upright stroke through it.
fn inverted_turn(engraver: &mut Engraver, chord: &Chord, ink: Ink, x: f32, above: bool) {
    let [_, top, _, bottom] = Glyph::Turn.extent();
    let y = engraver.beyond(chord.staff, above, (x - HALF_TURN, x + HALF_TURN), bottom - top + 2.0 * STROKE_BEYOND);
    engraver.pen.line(chord.staff, ink, (x, y - STROKE_HALF), (x, y + STROKE_HALF), STEM);
    engraver.put(chord.staff, ink, Glyph::Turn, x, above);
}
