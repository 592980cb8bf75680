//! The signs of the step that is practised: roofs over what it arrives at, a mark where it is entered.

use crate::notation::{
    drawing::{Form, Ink, Point},
    engraving::signs::engraver::{Crown, Engraver},
    glyph::Glyph,
};

/// A roof, drawn by eye: half its width, and from the middle of the sign up to its ridge and down to where its slopes
/// and its eaves end.
const HALF: f32 = 1.5;
const RIDGE: f32 = 0.6;
const SLOPES: f32 = 0.25;
const EAVES: f32 = 0.65;
/// How far over the middle of the sign nothing else may stand: over the ridge by half of the thickest stroke.
const ROOM: f32 = 0.75;
/// How thick the roof over the goal is, and one over what a narrowed task arrives at: chosen.
const GOAL: f32 = 0.34;
const AIM: f32 = 0.14;
/// The mark where the count-in hands over, from the middle of the sign: drawn by eye.
const ENTRY: [Point; 3] = [(-0.5, -0.6), (0.6, 0.0), (-0.5, 0.6)];

/// The roof over the goal, a thin one over what a narrowed task arrives at, and the mark where the count-in
/// hands over.
pub fn crowns(engraver: &mut Engraver) {
    let plan = engraver.plan;
    for (at, crown) in plan.crowns {
        let here = plan.columns.iter().find(|column| column.is_notes() && column.at == *at);
        let Some(column) = here else { continue };
        let x = column.x + 0.5 * Glyph::HeadBlack.width();
        let y = engraver.beyond(0, true, (x - HALF, x + HALF), 2.0 * EAVES);
        engraver.pen.take(0, [x - HALF, y - ROOM, x + HALF, y + EAVES]);
        let at = |(dx, dy): Point| (x + dx, y + dy);
        let width = match crown {
            Crown::Entry => {
                engraver.pen.polygon(0, Ink::Accent, ENTRY.map(at).to_vec());
                continue;
            }
            Crown::Goal => GOAL,
            Crown::Aim => AIM,
        };
        let points = [(-HALF, EAVES), (-HALF, SLOPES), (0.0, -RIDGE), (HALF, SLOPES), (HALF, EAVES)].map(at);
        for ends in points.windows(2) {
            engraver.pen.mark(0, Ink::Accent, Form::Line { from: ends[0], to: ends[1], width });
        }
    }
}
