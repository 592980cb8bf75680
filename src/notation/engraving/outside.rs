//! What stands over and under the staves beside slurs and hairpins: articulations, fingerings, ornaments,
//! numbers, and the signs of the step.
//!
//! Each goes as near to its note as what is already there allows.

use super::{
    super::drawing::{Form, Ink},
    chords::Chord,
    columns::{Holds, arpeggio_left},
    fermatas,
    glyph::Glyph,
    metrics::{STEM, TEXT_HEIGHT},
    pen::text_width,
    system::{Crown, Setting},
    tremolos,
};
use crate::music::{passage::Articulation, written::Ornament};
use crate::order;

/// Least distance between signs.
const APART: f32 = 0.3;

impl Setting<'_> {
    /// The y of the middle of something `height` high, over or under all that is there.
    pub fn beyond(&self, staff: usize, above: bool, (left, right): (f32, f32), height: f32) -> f32 {
        let line = &self.pen.skylines[staff];
        if above {
            line.above(left, right) - APART - 0.5 * height
        } else {
            line.below(left, right) + APART + 0.5 * height
        }
    }

    /// A glyph centred on x, over or under all that is there.
    pub fn put(&mut self, staff: usize, ink: Ink, glyph: Glyph, x: f32, above: bool) {
        let [left, top, right, bottom] = glyph.extent();
        let half = 0.5 * (right - left);
        let middle = self.beyond(staff, above, (x - half, x + half), bottom - top);
        self.pen.glyph(staff, ink, glyph, (x - half - left, middle - 0.5 * (top + bottom)), 1.0);
    }
}

/// Whether signs of a chord's head side stand above: away from the stem; in company, outside.
pub fn above_head(chord: &Chord) -> bool {
    chord.company.unwrap_or(!chord.up || !chord.has_stem())
}

pub fn articulations(setting: &mut Setting) {
    for (chord, x) in setting.chords() {
        let ink = setting.ink(chord);
        let middle = x + chord.dx + 0.5 * chord.head_width();
        let above = above_head(chord);
        let mut signs = chord.event.articulations.clone();
        order::by_key(&mut signs, |sign| nearness(*sign));
        for sign in signs {
            match sign {
                Articulation::Staccato => near(setting, chord, ink, Glyph::Staccato, middle, above),
                Articulation::Tenuto => near(setting, chord, ink, Glyph::Tenuto, middle, above),
                Articulation::DetachedLegato => {
                    near(setting, chord, ink, Glyph::Staccato, middle, above);
                    near(setting, chord, ink, Glyph::Tenuto, middle, above);
                }
                Articulation::Staccatissimo => {
                    let glyph = if above { Glyph::WedgeAbove } else { Glyph::WedgeBelow };
                    setting.put(chord.staff, ink, glyph, middle, above);
                }
                Articulation::Accent => setting.put(chord.staff, ink, Glyph::Accent, middle, above),
                Articulation::StrongAccent => {
                    let above = chord.company != Some(false);
                    let glyph = if above { Glyph::MarcatoAbove } else { Glyph::MarcatoBelow };
                    setting.put(chord.staff, ink, glyph, middle, above);
                }
                Articulation::Arpeggio => arpeggio(setting, chord, x, ink),
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

/// Whether a sign stands close to its head, in the staff.
pub fn is_near(sign: Articulation) -> bool {
    matches!(sign, Articulation::Staccato | Articulation::Tenuto | Articulation::DetachedLegato)
}

/// Dots and strokes go into the staff, in the middle of the next free space.
fn near(setting: &mut Setting, chord: &Chord, ink: Ink, glyph: Glyph, x: f32, above: bool) {
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
        let line = &setting.pen.skylines[chord.staff];
        if above { line.above(x - half, x + half) > y + 0.2 } else { line.below(x - half, x + half) < y - 0.2 }
    };
    // Inside the staff its lines bound the skyline, so only what stands at the head counts.
    let stacked = chord.event.articulations.len() > 1
        && glyph == Glyph::Tenuto
        && chord.event.articulations.contains(&Articulation::Staccato);
    if inside && !stacked || free {
        setting.pen.glyph(chord.staff, ink, glyph, (x - half, y), 1.0);
    } else {
        setting.put(chord.staff, ink, glyph, x, above);
    }
}

fn arpeggio(setting: &mut Setting, chord: &Chord, x: f32, ink: Ink) {
    let [highest, lowest] = chord.ends();
    let left = x + arpeggio_left(chord);
    let waves = ((lowest - highest) + 1.0).ceil().max(1.0) as usize;
    for wave in 0..waves.min(24) {
        setting.pen.glyph(chord.staff, ink, Glyph::Arpeggio, (left, highest - 0.5 + wave as f32), 1.0);
    }
}

/// Fingers stand over the upper staves and under the lower ones, the highest note's uppermost.
pub fn fingerings(setting: &mut Setting) {
    let order = setting.order;
    let staves = order.galley.staves();
    let size = order.text;
    for (chord, x) in setting.chords() {
        if !(order.plays)(chord.staff) {
            continue;
        }
        let ink = setting.ink(chord);
        let above = chord.company.unwrap_or(staves < 2 || chord.staff < staves / 2);
        let middle = x + chord.dx + 0.5 * chord.head_width();
        let size = if chord.is_grace() { 0.8 * size } else { size };
        let fingers: Vec<&str> = chord.heads.iter().filter_map(|head| head.head.fingering.as_deref()).collect();
        let outward: Box<dyn Iterator<Item = &&str>> =
            if above { Box::new(fingers.iter()) } else { Box::new(fingers.iter().rev()) };
        for finger in outward {
            let finger: String = finger.chars().take(LONGEST).collect();
            let half = 0.5 * text_width(&finger, size);
            let (mut left, mut right) = (middle - half + 0.12, middle + half - 0.12);
            if chord.event.dots > 0 {
                // Beside a dot a finger would read as one with it.
                right = right.max(x + chord.dots + 0.4);
            }
            if chord.has_stem() && chord.up == above {
                (left, right) = (left.min(x + chord.stem_x()), right.max(x + chord.stem_x()));
            }
            let y = setting.beyond(chord.staff, above, (left, right), TEXT_HEIGHT * size);
            setting.pen.text(chord.staff, ink, (middle, y), size, false, finger);
        }
    }
}

/// Longest text of a sign, in characters.
const LONGEST: usize = 16;

pub fn ornaments(setting: &mut Setting) {
    for (chord, x) in setting.chords() {
        let ink = setting.ink(chord);
        let middle = x + chord.dx + 0.5 * chord.head_width();
        for ornament in &chord.event.ornaments {
            let above = chord.company != Some(false);
            match ornament {
                Ornament::Trill => {}
                Ornament::Turn => setting.put(chord.staff, ink, Glyph::Turn, middle, above),
                Ornament::InvertedTurn => inverted_turn(setting, chord, ink, middle, above),
                Ornament::Mordent => setting.put(chord.staff, ink, Glyph::Mordent, middle, above),
                Ornament::ShortTrill => setting.put(chord.staff, ink, Glyph::ShortTrill, middle, above),
                Ornament::Tremolo(strokes) => tremolos::single(setting, chord, x, *strokes, ink),
            }
        }
        if chord.event.articulations.contains(&Articulation::Fermata) {
            let middle = if chord.is_rest() { x + chord.dx + 0.5 * chord.rest_glyph().width() } else { middle };
            fermatas::fermata(setting, chord, middle, ink);
        }
    }
}

/// A turn with an upright stroke through it.
fn inverted_turn(setting: &mut Setting, chord: &Chord, ink: Ink, x: f32, above: bool) {
    let [_, top, _, bottom] = Glyph::Turn.extent();
    let y = setting.beyond(chord.staff, above, (x - 1.1, x + 1.1), bottom - top + 0.6);
    setting.pen.line(chord.staff, ink, (x, y - 0.7), (x, y + 0.7), STEM);
    setting.put(chord.staff, ink, Glyph::Turn, x, above);
}

/// The numbers of bars, over their first notes.
pub fn numbers(setting: &mut Setting) {
    let order = setting.order;
    let size = order.text;
    let mut free = f32::MIN;
    let mut before: Option<usize> = None;
    for column in order.columns {
        let begins = before != Some(column.bar) && matches!(column.holds, Holds::Notes(0));
        let first = before.is_none() && column.is_notes();
        if column.is_notes() {
            before = Some(column.bar);
        }
        if !(first || begins && order.number_all) {
            continue;
        }
        let bar = &order.galley.part.bars[order.galley.bars[column.bar].index];
        let number: String = bar.number.chars().take(LONGEST_NUMBER).collect();
        let half = 0.5 * text_width(&number, size);
        let middle = if first { half + 0.2 } else { (column.x - 0.9 - column.reach()[0]).max(half) };
        if middle - half < free || number.is_empty() {
            continue;
        }
        // Over all that is near: right beside a head or a finger a number would be read as belonging to it.
        let y = setting.beyond(0, true, (middle - half - BESIDE, middle + half + BESIDE), TEXT_HEIGHT * size);
        setting.pen.text(0, Ink::Faint, (middle, y), size, true, number);
        free = middle + half + 0.6;
    }
}

const LONGEST_NUMBER: usize = 4;
/// What stands nearer than this to a bar's number is beside it.
const BESIDE: f32 = 1.0;

/// Half the width of a roof.
const EAVES: f32 = 1.5;

/// The roof over the goal, a thin one over what a narrowed task arrives at, and the mark where the count-in
/// hands over.
pub fn crowns(setting: &mut Setting) {
    let order = setting.order;
    for (at, crown) in order.crowns {
        let here = order.columns.iter().find(|column| column.is_notes() && column.at == *at);
        let Some(column) = here else { continue };
        let x = column.x + 0.5 * Glyph::HeadBlack.width();
        let y = setting.beyond(0, true, (x - EAVES, x + EAVES), 1.3);
        setting.pen.take(0, [x - EAVES, y - 0.75, x + EAVES, y + 0.65]);
        let at = |dx: f32, dy: f32| (x + dx, y + dy);
        if *crown == Crown::Entry {
            setting.pen.polygon(0, Ink::Accent, vec![at(-0.5, -0.6), at(0.6, 0.0), at(-0.5, 0.6)]);
            continue;
        }
        let width = if *crown == Crown::Goal { 0.34 } else { 0.14 };
        let points = [at(-EAVES, 0.65), at(-EAVES, 0.25), at(0.0, -0.6), at(EAVES, 0.25), at(EAVES, 0.65)];
        for ends in points.windows(2) {
            setting.pen.mark(0, Ink::Accent, Form::Line { from: ends[0], to: ends[1], width });
        }
    }
}
