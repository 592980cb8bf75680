//! The brackets over the bars of first and second endings.

use crate::{
    music::written::EndingEnd,
    notation::{
        drawing::Ink,
        engraving::{
            metrics::{BRACKET, TEXT_HEIGHT},
            pen::text_width,
            signs::{
                engraver::Engraver,
                spanners::{APART, BEFORE_FIRST},
            },
            spaced::columns::Holds,
        },
    },
};

/// Longest number, in characters.
const LONGEST: usize = 8;
/// How far a bracket reaches over the last note where the line behind it is not shown: chosen.
const BEYOND_NOTE: f32 = 1.5;
/// From the bracket's left end to its number, room over and under that together, and how far down its middle stands,
/// as part of the bracket's height. Common practice, no source.
const BEFORE_NUMBER: f32 = 0.3;
const AROUND_NUMBER: f32 = 0.4;
const NUMBER_DOWN: f32 = 0.55;

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
        let left = (first.x - first.reach()[0] - BEFORE_FIRST).max(0.0);
        let right = if last.holds == Holds::Barline { last.x } else { last.x + BEYOND_NOTE };
        let height = TEXT_HEIGHT * size + AROUND_NUMBER;
        let text: String = ending.text.chars().take(LONGEST).collect();
        let width = text_width(&text, size);
        let below = engraver.pen.skylines[0].above(left, right.max(left + width));
        let y = below - APART - height;
        engraver.pen.line(0, Ink::Faint, (left, y), (right, y), BRACKET);
        if ending.begins {
            engraver.pen.line(0, Ink::Faint, (left, y), (left, y + height), BRACKET);
            let middle = (left + BEFORE_NUMBER + 0.5 * width, y + NUMBER_DOWN * height);
            engraver.pen.text(0, Ink::Faint, middle, size, false, text);
        }
        if ending.ends == EndingEnd::Hook {
            engraver.pen.line(0, Ink::Faint, (right, y), (right, y + height), BRACKET);
        }
        engraver.pen.take(0, [left, y, right.max(left + BEFORE_NUMBER + width), y + height]);
    }
}
