//! Articulations: each as near to its note as what is already there allows.

use crate::{
    music::passage::Articulation,
    notation::{
        drawing::Ink,
        engraving::{
            metrics::STAFF,
            prepared::{articulations::above_head, chords::Chord, places::is_on_line},
            signs::engraver::Engraver,
            spaced::columns::arpeggio_left,
        },
        glyph::Glyph,
    },
    sort,
};

pub fn articulations(engraver: &mut Engraver) {
    for (chord, x) in engraver.chords() {
        let ink = engraver.ink(chord);
        let middle = x + chord.dx + 0.5 * chord.head_width();
        let above = above_head(chord);
        let mut signs = chord.event.articulations.clone();
        sort::by_key(&mut signs, |sign| nearness(*sign));
        for sign in signs {
            match sign {
                Articulation::Staccato => near(engraver, chord, ink, Glyph::Staccato, middle, above),
                Articulation::Tenuto => near(engraver, chord, ink, Glyph::Tenuto, middle, above),
                Articulation::DetachedLegato => {
                    near(engraver, chord, ink, Glyph::Staccato, middle, above);
                    near(engraver, chord, ink, Glyph::Tenuto, middle, above);
                }
                Articulation::Staccatissimo => {
                    let glyph = if above { Glyph::WedgeAbove } else { Glyph::WedgeBelow };
                    engraver.put(chord.staff, ink, glyph, middle, above);
                }
                Articulation::Accent => engraver.put(chord.staff, ink, Glyph::Accent, middle, above),
                Articulation::StrongAccent => {
                    let above = chord.company != Some(false);
                    let glyph = if above { Glyph::MarcatoAbove } else { Glyph::MarcatoBelow };
                    engraver.put(chord.staff, ink, glyph, middle, above);
                }
                Articulation::Arpeggio => arpeggio(engraver, chord, x, ink),
                Articulation::Fermata => {}
            }
        }
    }
}

/// The shorter a sign asks to play, the nearer it stands (Gould 2011, "Articulation", from memory).
fn nearness(sign: Articulation) -> u8 {
    match sign {
        Articulation::Arpeggio => 0,
        Articulation::Staccato | Articulation::DetachedLegato | Articulation::Staccatissimo => 1,
        Articulation::Tenuto => 2,
        Articulation::Accent => 3,
        Articulation::StrongAccent => 4,
        Articulation::Fermata => 5,
    }
}

/// How near to the middle of a dot or stroke something may stand: half the height of a dot (SMuFL's
/// `articStaccatoAbove`, from memory).
const HALF_SIGN: f32 = 0.2;

/// Dots and strokes go into the staff, in the middle of the next free space.
fn near(engraver: &mut Engraver, chord: &Chord, ink: Ink, glyph: Glyph, x: f32, above: bool) {
    let [highest, lowest] = chord.ends();
    let toward = if above { -1.0 } else { 1.0 };
    let edge = if above { highest } else { lowest };
    let at_stem = chord.has_stem() && chord.up == above;
    let mut y = edge + toward;
    if is_on_line(y) && (0.0..=STAFF).contains(&y.round()) {
        y += 0.5 * toward;
    }
    let inside = (0.0..=STAFF).contains(&y) && !at_stem;
    let half = 0.5 * glyph.width();
    let free = {
        let line = &engraver.pen.skylines[chord.staff];
        match above {
            true => line.above(x - half, x + half) > y + HALF_SIGN,
            false => line.below(x - half, x + half) < y - HALF_SIGN,
        }
    };
    // Inside the staff its lines bound the skyline, so only what stands at the head counts.
    let stacked = chord.event.articulations.len() > 1
        && glyph == Glyph::Tenuto
        && chord.event.articulations.contains(&Articulation::Staccato);
    if inside && !stacked || free {
        engraver.pen.glyph(chord.staff, ink, glyph, (x - half, y), 1.0);
    } else {
        engraver.put(chord.staff, ink, glyph, x, above);
    }
}

/// The wave of an arpeggio reaches so far over and under the middles of the outer heads: common practice, no source.
const BEYOND_HEADS: f32 = 0.5;
/// More waves, a space high each, than a chord has any use for.
const MOST_WAVES: usize = 24;

fn arpeggio(engraver: &mut Engraver, chord: &Chord, x: f32, ink: Ink) {
    let [highest, lowest] = chord.ends();
    let left = x + arpeggio_left(chord);
    let waves = (lowest - highest + 2.0 * BEYOND_HEADS).ceil().max(1.0) as usize;
    for wave in 0..waves.min(MOST_WAVES) {
        engraver.pen.glyph(chord.staff, ink, Glyph::Arpeggio, (left, highest - BEYOND_HEADS + wave as f32), 1.0);
    }
}
