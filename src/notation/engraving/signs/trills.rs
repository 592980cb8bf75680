//! Trills with their wavy lines.
//!
//! The line runs on from the sign to the end of the last note that is trilled (Gould 2011, "Ornaments", from memory).

use crate::{
    music::written::{Ornament, Spanner, Spans},
    notation::{
        drawing::Ink,
        engraving::{
            prepared::{chords::Chord, places::quarters},
            signs::{
                engraver::Engraver,
                spanners::{APART, anchored, begin, goes_on, ink_between, is_shown, time, x_at},
            },
        },
        glyph::Glyph,
    },
};

/// From the sign to its line, and from the line to the note that ends it: common practice, no source.
const BEHIND_SIGN: f32 = 0.25;
const BEFORE_NOTE: f32 = 0.5;
/// From the middle of a note to the left edge of its sign: half of the sign's width.
const BEFORE_MIDDLE: f32 = 0.8;
/// The middle of the waves over the foot of the sign, and how far waves without a sign reach up and down:
/// as their glyphs are drawn.
const WAVE: f32 = 0.45;
const WAVE_REACH: (f32, f32) = (0.5, 0.25);
/// Before the edge of a system where the line goes on in the next: chosen.
const BEFORE_EDGE: f32 = 0.2;
/// Far more than a system has room for.
const MOST_WAVES: f32 = 400.0;

pub fn trills(engraver: &mut Engraver) {
    let plan = engraver.plan;
    let lined: Vec<&Spanner> =
        plan.galley.part.spanners.iter().filter(|spanner| spanner.kind == Spans::Trill).collect();
    for spanner in &lined {
        if is_shown(engraver, spanner) {
            line(engraver, spanner);
        }
    }
    let has_line = |chord: &Chord| {
        lined
            .iter()
            .filter_map(|spanner| anchored(engraver, &spanner.from))
            .any(|(other, _)| std::ptr::eq(other, chord))
    };
    let is_bare = |chord: &Chord| chord.event.ornaments.contains(&Ornament::Trill) && !has_line(chord);
    let bare: Vec<(&Chord, f32)> = engraver.chords().filter(|(chord, _)| is_bare(chord)).collect();
    for (chord, x) in bare {
        let middle = x + chord.dx + 0.5 * chord.head_width();
        engraver.put(chord.staff, engraver.ink(chord), Glyph::Trill, middle, is_above(chord));
    }
}

fn is_above(chord: &Chord) -> bool {
    chord.company != Some(false)
}

/// A line with its sign, if it begins here and has one.
fn line(engraver: &mut Engraver, spanner: &Spanner) {
    let (from, to) = (anchored(engraver, &spanner.from), anchored(engraver, &spanner.to));
    let Some((chord, _)) = from.or(to) else { return };
    let above = spanner.above.unwrap_or(is_above(chord));
    let left = from.map_or(begin(engraver), |(chord, x)| x + chord.dx + 0.5 * chord.head_width() - BEFORE_MIDDLE);
    let right = if goes_on(engraver, spanner) { engraver.plan.width - BEFORE_EDGE } else { end(engraver, spanner, to) };
    let signed = from.is_some_and(|(chord, _)| chord.event.ornaments.contains(&Ornament::Trill));
    let ink = ink_between(engraver, spanner, chord.staff);
    Trill::measured(engraver, chord.staff, (left, right), above, signed).draw(engraver, ink);
}

/// Behind the last note where that is trilled too: the same note, or tied on; else before it.
fn end(engraver: &Engraver, spanner: &Spanner, to: Option<(&Chord, f32)>) -> f32 {
    let is_trilled = |chord: &Chord| spanner.from == spanner.to || chord.heads.iter().any(|head| head.head.tied_from);
    match to {
        Some((chord, _)) if is_trilled(chord) => {
            x_at(engraver, quarters(chord.at) + chord.lasts).min(engraver.plan.width) - BEFORE_NOTE
        }
        Some((chord, x)) => x + chord.left() - BEFORE_NOTE,
        None => x_at(engraver, time(engraver, &spanner.to)) - BEFORE_NOTE,
    }
}

/// A trill's sign and its waves, as they will stand.
struct Trill {
    staff: usize,
    left: f32,
    /// The width of the sign and the gap before its waves; 0 without a sign.
    sign: f32,
    waves: f32,
    /// How far it reaches up and down from the foot of the sign.
    reach: (f32, f32),
    /// The foot of the sign.
    y: f32,
}

impl Trill {
    fn measured(engraver: &Engraver, staff: usize, (left, right): (f32, f32), above: bool, signed: bool) -> Trill {
        let [sign_left, top, sign_right, bottom] = Glyph::Trill.extent();
        let sign = if signed { sign_right - sign_left + BEHIND_SIGN } else { 0.0 };
        let waves = (right - left - sign).max(1.0).floor();
        let (rise, fall) = if signed { (-top, bottom) } else { WAVE_REACH };
        let right = left + sign + waves;
        let line = &engraver.pen.skylines[staff];
        let y = if above { line.above(left, right) - APART - fall } else { line.below(left, right) + APART + rise };
        Trill { staff, left, sign, waves, reach: (rise, fall), y }
    }

    fn draw(&self, engraver: &mut Engraver, ink: Ink) {
        let Trill { staff, left, sign, waves, reach: (rise, fall), y } = *self;
        if sign > 0.0 {
            engraver.pen.glyph(staff, ink, Glyph::Trill, (left - Glyph::Trill.extent()[0], y), 1.0);
        }
        for wave in 0..waves.min(MOST_WAVES) as usize {
            engraver.pen.glyph(staff, ink, Glyph::TrillWave, (left + sign + wave as f32, y - WAVE), 1.0);
        }
        engraver.pen.take(staff, [left, y - rise, left + sign + waves, y + fall]);
    }
}
