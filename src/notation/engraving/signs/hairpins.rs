//! Hairpins: where they begin and end between dynamic marks and across systems.

use crate::{
    music::written::{Spanner, Spans},
    notation::{
        drawing::Ink,
        engraving::{
            metrics::HAIRPIN,
            prepared::places::{INSTANT, staff_index},
            signs::{
                cross_staff::{Joined, free_side},
                engraver::Engraver,
                loudness::{Hairpin, Loud, SHORTEST},
                spanners::{begin, end_inks, goes_on, is_shown, shown, time, x_at},
            },
        },
    },
};

/// Half of the widest opening: common practice, no source.
const HALF_OPENING: f32 = 0.6;
/// How far it is open where a system ends and where the next begins: never closed, so that it does not read as two
/// (Gould 2011, "Dynamics", from memory).
const AT_BREAK: [f32; 2] = [0.65, 0.4];
/// Least distance to a mark beside it: common practice, no source.
const BESIDE: f32 = 0.4;
/// Least distance to the edge of the system: chosen.
const BEFORE_EDGE: f32 = 0.4;
/// A mark that begins no further than this behind the begin of a hairpin stands before it: chosen.
const AT_BEGIN: f32 = 0.5;

impl Hairpin {
    /// Draws it around its middle.
    pub fn draw(&self, engraver: &mut Engraver, staff: usize, ink: Ink, (y, scale): (f32, f32)) {
        for side in [-HALF_OPENING, HALF_OPENING] {
            let end = |x: f32, opening: f32| (x, y + side * scale * opening);
            engraver.pen.line(staff, ink, end(self.left, self.openings[0]), end(self.right, self.openings[1]), HAIRPIN);
        }
    }
}

/// Adds the hairpins on one side of a staff to what else stands on that line: they end before marks and begin behind
/// them.
pub fn add(
    engraver: &Engraver,
    (staff, above): (usize, bool),
    (scale, joined): (f32, &[Joined]),
    placed: &mut Vec<(Loud, Ink)>,
) {
    let plan = engraver.plan;
    for spanner in &plan.galley.part.spanners {
        let is_hairpin = matches!(spanner.kind, Spans::Crescendo | Spans::Diminuendo);
        if !is_hairpin || staff_index(plan.galley.part, spanner.from.staff) != staff || !is_shown(engraver, spanner) {
            continue;
        }
        let side = free_side(nominal(engraver, spanner), (staff, spanner.above.unwrap_or(false)), joined);
        let (left, right) = between_marks(engraver, spanner, scale, placed);
        if side == above && right < plan.width {
            // What extends into the span that is played now matters now.
            let around = end_inks(engraver, spanner, staff) == [Ink::Faint; 2];
            let ink = if around { Ink::Faint } else { Ink::Full };
            placed.push((Loud::Hairpin(Hairpin { left, right, openings: openings(engraver, spanner) }), ink));
        }
    }
}

/// From where to where it reaches by its places in time.
fn nominal(engraver: &Engraver, spanner: &Spanner) -> (f32, f32) {
    let (from, to) = (time(engraver, &spanner.from), time(engraver, &spanner.to));
    let (first, _) = shown(engraver);
    let left = if from < first { begin(engraver) } else { x_at(engraver, from) };
    (left, x_at(engraver, to).min(engraver.plan.width - BEFORE_EDGE))
}

fn between_marks(engraver: &Engraver, spanner: &Spanner, scale: f32, placed: &[(Loud, Ink)]) -> (f32, f32) {
    let (mut left, mut right) = nominal(engraver, spanner);
    for (loud, _) in placed.iter().filter(|(loud, _)| !matches!(loud, Loud::Hairpin(_))) {
        let (begins, ends) = loud.extent(scale);
        let (begins, ends) = (begins - BESIDE, ends + BESIDE);
        if begins <= left + AT_BEGIN && left < ends {
            left = ends;
        } else if begins > left && begins < right {
            right = begins;
        }
    }
    (left, right.max(left + SHORTEST))
}

fn openings(engraver: &Engraver, spanner: &Spanner) -> [f32; 2] {
    let comes = time(engraver, &spanner.from) < shown(engraver).0 - INSTANT;
    let goes = goes_on(engraver, spanner);
    let [at_end, at_begin] = AT_BREAK;
    let grown = [if comes { at_begin } else { 0.0 }, if goes { at_end } else { 1.0 }];
    // The same from right to left.
    let shrunk = [if comes { at_end } else { 1.0 }, if goes { at_begin } else { 0.0 }];
    if spanner.kind == Spans::Crescendo { grown } else { shrunk }
}
