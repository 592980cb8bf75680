//! What runs along a system: octave signs, pedal marks, the brackets of endings.
//!
//! Refuses to know single notes.

use super::{
    super::drawing::Ink,
    chords::staff_index,
    columns::Holds,
    glyph::Glyph,
    metrics::{BRACKET, TEXT_HEIGHT},
    pen::text_width,
    spans::{APART, begin, ink_between, is_shown, shown, time, x_at},
    system::Setting,
};
use crate::music::written::{EndingEnd, Spanner, Spans};

pub fn octaves(setting: &mut Setting) {
    let order = setting.order;
    for spanner in &order.galley.part.spanners {
        let Spans::Octave(octaves) = spanner.kind else { continue };
        if octaves == 0 || !is_shown(setting, spanner) {
            continue;
        }
        let staff = staff_index(order.galley.part, spanner.from.staff);
        let above = spanner.above.unwrap_or(octaves > 0);
        let text = match (octaves.unsigned_abs() > 1, above) {
            (false, true) => "8va",
            (false, false) => "8vb",
            (true, true) => "15ma",
            (true, false) => "15mb",
        };
        let (first, _) = shown(setting);
        let from = time(setting, &spanner.from);
        let left = if from < first { begin(setting) } else { x_at(setting, from) };
        let right = (x_at(setting, time(setting, &spanner.to)) + 1.4).min(order.width).max(left + 1.0);
        let (size, ink) = (order.text, ink_between(setting, spanner, staff));
        let half = 0.5 * text_width(text, size);
        let height = TEXT_HEIGHT * size;
        let line = &setting.pen.skylines[staff];
        let y = if above {
            line.above(left - half, right) - APART - 0.5 * height
        } else {
            line.below(left - half, right) + APART + 0.5 * height
        };
        setting.pen.text(staff, ink, (left + half - 0.2, y), size, true, text.to_string());
        let rail = if above { y - 0.4 * height } else { y + 0.4 * height };
        let mut x = left + 2.0 * half + 0.2;
        while x < right - 0.2 {
            setting.pen.line(staff, ink, (x, rail), ((x + 0.6).min(right), rail), BRACKET);
            x += 1.1;
        }
        let hook = if above { rail + 0.8 } else { rail - 0.8 };
        setting.pen.line(staff, ink, (right, rail), (right, hook), BRACKET);
        setting.pen.take(staff, [left - half, y - 0.5 * height, right, y + 0.5 * height]);
    }
}

/// Under the lowest staff of the instrument, all of a system on one line.
pub fn pedals(setting: &mut Setting) {
    let order = setting.order;
    let staff = order.galley.staves() - 1;
    let pedals: Vec<&Spanner> = order
        .galley
        .part
        .spanners
        .iter()
        .filter(|spanner| spanner.kind == Spans::Pedal && is_shown(setting, spanner))
        .collect();
    if pedals.is_empty() {
        return;
    }
    let y = setting.pen.skylines[staff].below(0.0, order.width) + APART + 1.75;
    let (first, last) = shown(setting);
    let mut free = f32::MIN;
    for spanner in pedals {
        let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
        for (glyph, at, anchor) in [(Glyph::Pedal, from, &spanner.from), (Glyph::PedalUp, to, &spanner.to)] {
            if at < first - 1e-3 || at > last + 1e-3 && glyph == Glyph::Pedal || at > last + 64.0 {
                continue;
            }
            let [left, _, right, _] = glyph.extent();
            let x = (x_at(setting, at) - if glyph == Glyph::PedalUp { 1.2 } else { 0.2 }).max(free - left);
            if x + right > order.width {
                continue;
            }
            let bars = &order.galley.bars;
            let bar = bars.iter().find(|bar| bar.index as isize == anchor.bar);
            let ink = bar.map_or(Ink::Faint, |bar| (order.inks)(bar.start + anchor.at, staff, true));
            setting.pen.glyph(staff, ink, glyph, (x, y), 1.0);
            free = x + right + 0.3;
        }
    }
}

/// Brackets over the bars of an ending.
pub fn endings(setting: &mut Setting) {
    let order = setting.order;
    let size = order.text;
    let mut bars: Vec<usize> =
        order.columns.iter().filter(|column| column.is_notes()).map(|column| column.bar).collect();
    bars.dedup();
    for bar in bars {
        let written = &order.galley.part.bars[order.galley.bars[bar].index].written;
        let Some(ending) = &written.ending else { continue };
        let of_bar = || order.columns.iter().filter(|column| column.bar == bar);
        let (Some(first), Some(last)) = (of_bar().find(|column| column.is_notes()), of_bar().next_back()) else {
            continue;
        };
        let left = (first.x - first.reach()[0] - 0.6).max(0.0);
        let right = if last.holds == Holds::Barline { last.x } else { last.x + 1.5 };
        let height = TEXT_HEIGHT * size + 0.4;
        let text: String = ending.text.chars().take(8).collect();
        let width = text_width(&text, size);
        let below = setting.pen.skylines[0].above(left, right.max(left + width));
        let y = below - APART - height;
        setting.pen.line(0, Ink::Faint, (left, y), (right, y), BRACKET);
        if ending.begins {
            setting.pen.line(0, Ink::Faint, (left, y), (left, y + height), BRACKET);
            setting.pen.text(0, Ink::Faint, (left + 0.3 + 0.5 * width, y + 0.55 * height), size, false, text);
        }
        if ending.ends == EndingEnd::Hook {
            setting.pen.line(0, Ink::Faint, (right, y), (right, y + height), BRACKET);
        }
        setting.pen.take(0, [left, y, right.max(left + 0.3 + width), y + height]);
    }
}
