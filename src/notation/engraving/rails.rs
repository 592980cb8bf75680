//! What runs along a system: octave signs and the brackets of endings.

use super::{
    super::drawing::Ink,
    chords::{quarters, staff_index},
    columns::Holds,
    glyph::Glyph,
    metrics::{BRACKET, TEXT_HEIGHT},
    pen::text_width,
    spans::{APART, begin, goes_on, ink_between, is_shown, shown, time, x_at},
    system::Setting,
};
use crate::music::written::{EndingEnd, Spanner, Spans};

/// Octave signs: where one goes on from the system before its figure stands again, where it goes on in the
/// next one its line stays open (Gould 2011, "Octave signs", from memory).
pub fn octaves(setting: &mut Setting) {
    let order = setting.order;
    for spanner in &order.galley.part.spanners {
        let Spans::Octave(octaves) = spanner.kind else { continue };
        if octaves != 0 && is_shown(setting, spanner) {
            octave(setting, spanner, octaves);
        }
    }
}

fn octave(setting: &mut Setting, spanner: &Spanner, octaves: i8) {
    let order = setting.order;
    let staff = staff_index(order.galley.part, spanner.from.staff);
    let above = spanner.above.unwrap_or(octaves > 0);
    let toward = if above { 1.0 } else { -1.0 };
    let (size, ink) = (order.text, ink_between(setting, spanner, staff));
    let text = octave_text(octaves, above);
    let (half, height) = (0.5 * text_width(text, size), TEXT_HEIGHT * size);
    let (first, _) = shown(setting);
    let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
    let left = if from < first { begin(setting) } else { x_at(setting, from) };
    let left = left.min(order.width - 2.0 * half).max(0.0);
    let right = if goes_on(setting, spanner) { order.width } else { end_of_last(setting, to) };
    let right = right.min(order.width).max(left + 1.0);
    let line = &setting.pen.skylines[staff];
    let off = APART + 0.5 * height;
    let y = if above { line.above(left - half, right) - off } else { line.below(left - half, right) + off };
    setting.pen.text(staff, ink, (left + half - 0.2, y), size, true, text.to_string());
    let rail = y - toward * 0.4 * height;
    let mut x = left + 2.0 * half + 0.2;
    while x < right - 0.2 {
        setting.pen.line(staff, ink, (x, rail), ((x + 0.6).min(right), rail), BRACKET);
        x += 1.1;
    }
    if !goes_on(setting, spanner) {
        setting.pen.line(staff, ink, (right, rail), (right, rail + toward * 0.8), BRACKET);
    }
    setting.pen.take(staff, [left - half, y - 0.5 * height, right, y + 0.5 * height]);
}

fn octave_text(octaves: i8, above: bool) -> &'static str {
    match (octaves.unsigned_abs(), above) {
        (1, true) => "8va",
        (1, false) => "8vb",
        (2, true) => "15ma",
        (2, false) => "15mb",
        (_, true) => "22ma",
        (_, false) => "22mb",
    }
}

/// The right edge of the last heads that begin before a time.
fn end_of_last(setting: &Setting, time: f32) -> f32 {
    let notes = || setting.order.columns.iter().filter(|column| column.is_notes());
    let last = notes().rfind(|column| quarters(column.at) < time - 1e-3).or_else(|| notes().next());
    last.map_or(0.0, |column| column.x + Glyph::HeadBlack.width() + 0.2)
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
