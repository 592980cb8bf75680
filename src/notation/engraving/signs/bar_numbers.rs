//! The numbers of bars, over their first notes.

use crate::notation::{
    drawing::Ink,
    engraving::{metrics::TEXT_HEIGHT, pen::text_width, signs::engraver::Engraver, spaced::columns::Holds},
};

const LONGEST_NUMBER: usize = 4;

/// What stands nearer than this to a bar's number is beside it: chosen.
const BESIDE: f32 = 1.0;
/// From the left edge of a system to its number: chosen.
const FROM_EDGE: f32 = 0.2;
/// From the middle of a further bar's number to its first notes: over the bar line (common practice, no source).
const BEFORE_NOTES: f32 = 0.9;
/// Between two numbers at least: chosen.
const BETWEEN: f32 = 0.6;

/// The numbers of bars, over their first notes.
pub fn numbers(engraver: &mut Engraver) {
    let plan = engraver.plan;
    let size = plan.text;
    let mut free = f32::MIN;
    let mut before: Option<usize> = None;
    for column in plan.columns {
        let begins = before != Some(column.bar) && matches!(column.holds, Holds::Notes(0));
        let first = before.is_none() && column.is_notes();
        if column.is_notes() {
            before = Some(column.bar);
        }
        if !(first || begins && plan.number_all) {
            continue;
        }
        let bar = &plan.galley.part.bars[plan.galley.bars[column.bar].index];
        let number: String = bar.number.chars().take(LONGEST_NUMBER).collect();
        let half = 0.5 * text_width(&number, size);
        let middle = if first { half + FROM_EDGE } else { (column.x - BEFORE_NOTES - column.reach()[0]).max(half) };
        if middle - half < free || number.is_empty() {
            continue;
        }
        // Over all that is near: right beside a head or a finger a number would be read as belonging to it.
        let y = engraver.beyond(0, true, (middle - half - BESIDE, middle + half + BESIDE), TEXT_HEIGHT * size);
        engraver.pen.text(0, Ink::Faint, (middle, y), size, true, number);
        free = middle + half + BETWEEN;
    }
}
