//! Hairpins: where they begin and end between dynamic marks and across systems.

use super::{
    super::drawing::Ink,
    across::Joined,
    chords::staff_index,
    dynamics::{Loud, free_side},
    metrics::HAIRPIN,
    spans::{begin, end_inks, goes_on, is_shown, shown, time, x_at},
    system::Setting,
};
use crate::music::written::{Spanner, Spans};

/// A hairpin from left to right; its opening at either end, 1 at its widest.
pub struct Hairpin {
    pub left: f32,
    pub right: f32,
    openings: [f32; 2],
}

/// Shortest hairpin that reads as one: common practice, no source.
const SHORTEST: f32 = 1.0;
/// Half of the widest opening.
const HALF_OPENING: f32 = 0.6;
/// How far it is open where a system ends and where the next begins: never closed, lest it read as two
/// (Gould 2011, "Dynamics", from memory).
const AT_BREAK: [f32; 2] = [0.65, 0.4];
/// Least distance to a mark beside it.
const BESIDE: f32 = 0.4;

impl Hairpin {
    /// Lets it begin behind a place, and end later where it would become too short.
    pub fn begin_behind(&mut self, free: f32) {
        self.left = self.left.max(free);
        self.right = self.right.max(self.left + SHORTEST);
    }

    /// Draws it around its middle.
    pub fn draw(&self, setting: &mut Setting, staff: usize, ink: Ink, (y, scale): (f32, f32)) {
        for side in [-HALF_OPENING, HALF_OPENING] {
            let end = |x: f32, opening: f32| (x, y + side * scale * opening);
            setting.pen.line(staff, ink, end(self.left, self.openings[0]), end(self.right, self.openings[1]), HAIRPIN);
        }
    }
}

/// Adds the hairpins on one side of a staff to what else stands on that line: they end before marks and begin behind
/// them.
pub fn add(
    setting: &Setting,
    (staff, above): (usize, bool),
    (scale, joined): (f32, &[Joined]),
    placed: &mut Vec<(Loud, Ink)>,
) {
    let order = setting.order;
    for spanner in &order.galley.part.spanners {
        let is_hairpin = matches!(spanner.kind, Spans::Crescendo | Spans::Diminuendo);
        if !is_hairpin || staff_index(order.galley.part, spanner.from.staff) != staff || !is_shown(setting, spanner) {
            continue;
        }
        let side = free_side(nominal(setting, spanner), (staff, spanner.above.unwrap_or(false)), joined);
        let (left, right) = between_marks(setting, spanner, scale, placed);
        if side == above && right < order.width {
            // What reaches into what is played now is to be heeded now.
            let around = end_inks(setting, spanner, staff) == [Ink::Faint; 2];
            let ink = if around { Ink::Faint } else { Ink::Full };
            placed.push((Loud::Hairpin(Hairpin { left, right, openings: openings(setting, spanner) }), ink));
        }
    }
}

/// From where to where it reaches by its places in time.
fn nominal(setting: &Setting, spanner: &Spanner) -> (f32, f32) {
    let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
    let (first, _) = shown(setting);
    let left = if from < first { begin(setting) } else { x_at(setting, from) };
    (left, x_at(setting, to).min(setting.order.width - 0.4))
}

fn between_marks(setting: &Setting, spanner: &Spanner, scale: f32, placed: &[(Loud, Ink)]) -> (f32, f32) {
    let (mut left, mut right) = nominal(setting, spanner);
    for (loud, _) in placed.iter().filter(|(loud, _)| !matches!(loud, Loud::Hairpin(_))) {
        let (begins, ends) = loud.extent(scale);
        let (begins, ends) = (begins - BESIDE, ends + BESIDE);
        if begins <= left + 0.5 && left < ends {
            left = ends;
        } else if begins > left && begins < right {
            right = begins;
        }
    }
    (left, right.max(left + SHORTEST))
}

fn openings(setting: &Setting, spanner: &Spanner) -> [f32; 2] {
    let comes = time(setting, &spanner.from) < shown(setting).0 - 1e-3;
    let goes = goes_on(setting, spanner);
    let [at_end, at_begin] = AT_BREAK;
    let grown = [if comes { at_begin } else { 0.0 }, if goes { at_end } else { 1.0 }];
    // The same from right to left.
    let shrunk = [if comes { at_end } else { 1.0 }, if goes { at_begin } else { 0.0 }];
    if spanner.kind == Spans::Crescendo { grown } else { shrunk }
}
