//! The signs of the step that is practised: roofs over what it arrives at, a mark where it is entered.

use crate::notation::{
    drawing::{Form, Ink},
    engraving::signs::engraver::{Crown, Engraver},
    glyph::Glyph,
};

/// Half the width of a roof.
const EAVES: f32 = 1.5;

/// The roof over the goal, a thin one over what a narrowed task arrives at, and the mark where the count-in
/// hands over.
pub fn crowns(engraver: &mut Engraver) {
    let plan = engraver.plan;
    for (at, crown) in plan.crowns {
        let here = plan.columns.iter().find(|column| column.is_notes() && column.at == *at);
        let Some(column) = here else { continue };
        let x = column.x + 0.5 * Glyph::HeadBlack.width();
        let y = engraver.beyond(0, true, (x - EAVES, x + EAVES), 1.3);
        engraver.pen.take(0, [x - EAVES, y - 0.75, x + EAVES, y + 0.65]);
        let at = |dx: f32, dy: f32| (x + dx, y + dy);
        if *crown == Crown::Entry {
            engraver.pen.polygon(0, Ink::Accent, vec![at(-0.5, -0.6), at(0.6, 0.0), at(-0.5, 0.6)]);
            continue;
        }
        let width = if *crown == Crown::Goal { 0.34 } else { 0.14 };
        let points = [at(-EAVES, 0.65), at(-EAVES, 0.25), at(0.0, -0.6), at(EAVES, 0.25), at(EAVES, 0.65)];
        for ends in points.windows(2) {
            engraver.pen.mark(0, Ink::Accent, Form::Line { from: ends[0], to: ends[1], width });
        }
    }
}
