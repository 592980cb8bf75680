//! Trills with their wavy lines.
//!
//! The line runs on from the sign to the end of the last note that is trilled (Gould 2011, "Ornaments", from memory).

use super::{
    super::drawing::Ink,
    chords::{Chord, quarters},
    glyph::Glyph,
    spans::{APART, anchored, begin, goes_on, ink_between, is_shown, time, x_at},
    system::Setting,
};
use crate::music::written::{Ornament, Spanner, Spans};

/// From the sign to its line, and from the line to the note that ends it.
const BEHIND_SIGN: f32 = 0.25;
const BEFORE_NOTE: f32 = 0.5;

pub fn trills(setting: &mut Setting) {
    let order = setting.order;
    let lined: Vec<&Spanner> =
        order.galley.part.spanners.iter().filter(|spanner| spanner.kind == Spans::Trill).collect();
    for spanner in &lined {
        if is_shown(setting, spanner) {
            line(setting, spanner);
        }
    }
    let has_line = |chord: &Chord| {
        lined.iter().filter_map(|spanner| anchored(setting, &spanner.from)).any(|(other, _)| std::ptr::eq(other, chord))
    };
    let is_bare = |chord: &Chord| chord.event.ornaments.contains(&Ornament::Trill) && !has_line(chord);
    let bare: Vec<(&Chord, f32)> = setting.chords().filter(|(chord, _)| is_bare(chord)).collect();
    for (chord, x) in bare {
        let middle = x + chord.dx + 0.5 * chord.head_width();
        setting.put(chord.staff, setting.ink(chord), Glyph::Trill, middle, is_above(chord));
    }
}

fn is_above(chord: &Chord) -> bool {
    chord.company != Some(false)
}

/// A line with its sign, if it begins here and has one.
fn line(setting: &mut Setting, spanner: &Spanner) {
    let (from, to) = (anchored(setting, &spanner.from), anchored(setting, &spanner.to));
    let Some((chord, _)) = from.or(to) else { return };
    let above = spanner.above.unwrap_or(is_above(chord));
    let left = from.map_or(begin(setting), |(chord, x)| x + chord.dx + 0.5 * chord.head_width() - 0.8);
    let right = if goes_on(setting, spanner) { setting.order.width - 0.2 } else { end(setting, spanner, to) };
    let signed = from.is_some_and(|(chord, _)| chord.event.ornaments.contains(&Ornament::Trill));
    let ink = ink_between(setting, spanner, chord.staff);
    draw(setting, chord.staff, ink, (left, right), above, signed);
}

/// Behind the last note where that is trilled too: the same note, or tied on; else before it.
fn end(setting: &Setting, spanner: &Spanner, to: Option<(&Chord, f32)>) -> f32 {
    let is_trilled = |chord: &Chord| spanner.from == spanner.to || chord.heads.iter().any(|head| head.head.tied_from);
    match to {
        Some((chord, _)) if is_trilled(chord) => {
            x_at(setting, quarters(chord.at) + chord.lasts).min(setting.order.width) - BEFORE_NOTE
        }
        Some((chord, x)) => x + chord.left() - BEFORE_NOTE,
        None => x_at(setting, time(setting, &spanner.to)) - BEFORE_NOTE,
    }
}

fn draw(setting: &mut Setting, staff: usize, ink: Ink, (left, right): (f32, f32), above: bool, signed: bool) {
    let [sign_left, top, sign_right, bottom] = Glyph::Trill.extent();
    let sign = if signed { sign_right - sign_left + BEHIND_SIGN } else { 0.0 };
    let waves = (right - left - sign).max(1.0).floor();
    let (rise, fall) = if signed { (-top, bottom) } else { (0.5, 0.25) };
    let right = left + sign + waves;
    let line = &setting.pen.skylines[staff];
    // The foot of the sign.
    let y = if above { line.above(left, right) - APART - fall } else { line.below(left, right) + APART + rise };
    if signed {
        setting.pen.glyph(staff, ink, Glyph::Trill, (left - sign_left, y), 1.0);
    }
    for wave in 0..waves.min(400.0) as usize {
        setting.pen.glyph(staff, ink, Glyph::TrillWave, (left + sign + wave as f32, y - 0.45), 1.0);
    }
    setting.pen.take(staff, [left, y - rise, right, y + fall]);
}
