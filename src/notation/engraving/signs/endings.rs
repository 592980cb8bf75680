//! The brackets over the bars of first and second endings.

use crate::{
    music::written::EndingEnd,
    notation::{
        drawing::Ink,
        engraving::{
            metrics::{BRACKET, TEXT_HEIGHT},
            pen::text_width,
            signs::{engraver::Engraver, spanners::APART},
            spaced::columns::Holds,
        },
    },
};

/// Brackets over the bars of an ending.
pub fn endings(engraver: &mut Engraver) {
    let plan = engraver.plan;
    let size = plan.text;
    let mut bars: Vec<usize> =
        plan.columns.iter().filter(|column| column.is_notes()).map(|column| column.bar).collect();
    bars.dedup();
    for bar in bars {
        let written = &plan.galley.part.bars[plan.galley.bars[bar].index].written;
        let Some(ending) = &written.ending else { continue };
        let of_bar = || plan.columns.iter().filter(|column| column.bar == bar);
        let (Some(first), Some(last)) = (of_bar().find(|column| column.is_notes()), of_bar().next_back()) else {
            continue;
        };
        let left = (first.x - first.reach()[0] - 0.6).max(0.0);
        let right = if last.holds == Holds::Barline { last.x } else { last.x + 1.5 };
        let height = TEXT_HEIGHT * size + 0.4;
        let text: String = ending.text.chars().take(8).collect();
        let width = text_width(&text, size);
        let below = engraver.pen.skylines[0].above(left, right.max(left + width));
        let y = below - APART - height;
        engraver.pen.line(0, Ink::Faint, (left, y), (right, y), BRACKET);
        if ending.begins {
            engraver.pen.line(0, Ink::Faint, (left, y), (left, y + height), BRACKET);
            engraver.pen.text(0, Ink::Faint, (left + 0.3 + 0.5 * width, y + 0.55 * height), size, false, text);
        }
        if ending.ends == EndingEnd::Hook {
            engraver.pen.line(0, Ink::Faint, (right, y), (right, y + height), BRACKET);
        }
        engraver.pen.take(0, [left, y, right.max(left + 0.3 + width), y + height]);
    }
}
