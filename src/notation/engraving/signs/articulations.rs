//! Articulations: each as near to its note as what is already there allows.

use crate::{
    music::passage::Articulation,
    notation::{
        drawing::Ink,
        engraving::{
            prepared::{articulations::above_head, chords::Chord},
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

/// Dots and strokes go into the staff, in the middle of the next free space.
fn near(engraver: &mut Engraver, chord: &Chord, ink: Ink, glyph: Glyph, x: f32, above: bool) {
    let [highest, lowest] = chord.ends();
    let toward = if above { -1.0 } else { 1.0 };
    let edge = if above { highest } else { lowest };
    let at_stem = chord.has_stem() && chord.up == above;
    let mut y = edge + toward;
    if (y - y.round()).abs() < 0.1 && (-0.1..=4.1).contains(&y) {
        y += 0.5 * toward;
    }
    let inside = (0.0..=4.0).contains(&y) && !at_stem;
    let half = 0.5 * glyph.width();
    let free = {
        let line = &engraver.pen.skylines[chord.staff];
        if above { line.above(x - half, x + half) > y + 0.2 } else { line.below(x - half, x + half) < y - 0.2 }
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

fn arpeggio(engraver: &mut Engraver, chord: &Chord, x: f32, ink: Ink) {
    let [highest, lowest] = chord.ends();
    let left = x + arpeggio_left(chord);
    let waves = ((lowest - highest) + 1.0).ceil().max(1.0) as usize;
    for wave in 0..waves.min(24) {
        engraver.pen.glyph(chord.staff, ink, Glyph::Arpeggio, (left, highest - 0.5 + wave as f32), 1.0);
    }
}
