//! Ties and slurs: slender lenses between heads, and over what they join.
//!
//! Refuses to know what else stands over the staff but for the room it takes.

use super::{
    super::drawing::{Form, Point},
    chords::{Chord, ReadyHead, quarters},
    metrics::{CURVE_MIDDLE, STAFF},
    outside::above_head,
    spans::{APART, anchored, begin, ink_between, is_shown, time},
    system::Setting,
};
use crate::music::written::{Spanner, Spans};

/// A slender lens from one point to another that bulges by `height`, upward negative.
fn lens(from: Point, to: Point, height: f32, thickness: f32) -> Form {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let shoulder = (0.3 * dx).min(dx.abs() * 0.5);
    let at = |part: f32, height: f32| (from.0 + part * dx, from.1 + part * dy + height);
    let part = shoulder / dx.abs().max(0.01);
    // A cubic reaches three quarters of its control points' height.
    let control = height / 0.75;
    let inner = control - thickness.copysign(height) / 0.75;
    Form::Curve {
        ends: [from, to],
        outer: [at(part, control), at(1.0 - part, control)],
        inner: [at(part, inner), at(1.0 - part, inner)],
    }
}

/// A tie is flat: about a space high where it is long (Ross 1970, from memory).
fn tie_height(length: f32) -> f32 {
    (0.28 + 0.07 * length).clamp(0.35, 1.0)
}

pub fn ties(setting: &mut Setting) {
    let order = setting.order;
    for (_, chord, x) in order.chords() {
        let count = chord.heads.len();
        for (nth, head) in chord.heads.iter().enumerate() {
            let above = tie_above(chord, nth, count);
            let right = x + chord.dx + head.dx + chord.head_width() + 0.1;
            if head.head.tied_on {
                let to = follower(setting, chord, head).unwrap_or(edge_after(setting, right));
                draw_tie(setting, chord, head, (right, to), above);
            }
            if head.head.tied_from && !has_source(setting, chord, head) {
                let left = x + chord.dx + head.dx - 0.1;
                draw_tie(setting, chord, head, (left - 1.6, left), above);
            }
        }
    }
}

/// Away from the stem; in a chord the upper half upward.
fn tie_above(chord: &Chord, nth: usize, count: usize) -> bool {
    match (chord.company, count) {
        (Some(upper), _) => upper,
        (None, 1) => above_head(chord),
        (None, _) => 2 * nth >= count,
    }
}

/// Where the tied note stands: the left edge of its head.
fn follower(setting: &Setting, chord: &Chord, head: &ReadyHead) -> Option<f32> {
    let end = chord.at + chord.event.lasts;
    setting.order.chords().find_map(|(_, next, x)| {
        let same = |other: &&ReadyHead| {
            other.head.tied_from && other.staff == head.staff && other.head.place == head.head.place
        };
        if next.at != end {
            return None;
        }
        next.heads.iter().find(same).map(|other| x + next.dx + other.dx - 0.1)
    })
}

fn has_source(setting: &Setting, chord: &Chord, head: &ReadyHead) -> bool {
    setting.order.chords().any(|(_, before, _)| {
        let same =
            |other: &ReadyHead| other.head.tied_on && other.staff == head.staff && other.head.place == head.head.place;
        before.at + before.event.lasts == chord.at && before.at < chord.at && before.heads.iter().any(same)
    })
}

fn edge_after(setting: &Setting, right: f32) -> f32 {
    setting.order.width.min(right + 2.2).max(right + 0.8)
}

fn draw_tie(setting: &mut Setting, chord: &Chord, head: &ReadyHead, (from, to): (f32, f32), above: bool) {
    let toward = if above { -1.0 } else { 1.0 };
    // A single head's tie leaves beside it and over it, the inner ones of a chord between the heads.
    let y = head.y + toward * if chord.heads.len() == 1 { 0.6 } else { 0.3 };
    let inset = if chord.heads.len() == 1 { 0.25 } else { 0.0 };
    let (from, to) = (from - inset, (to + inset).max(from + 0.5));
    let height = toward * tie_height(to - from);
    let middle = 0.5 * (from + to);
    let reach = y + height;
    let quarter = 0.25 * (to - from);
    setting.pen.take(head.staff, [middle - quarter, reach.min(y), middle + quarter, reach.max(y)]);
    let ink = setting.order.ink(chord);
    setting.pen.mark(head.staff, ink, lens((from, y), (to, y), height, CURVE_MIDDLE));
}

pub fn slurs(setting: &mut Setting) {
    let spanners = &setting.order.galley.part.spanners;
    for spanner in spanners.iter().filter(|spanner| spanner.kind == Spans::Slur) {
        if is_shown(setting, spanner) {
            slur(setting, spanner);
        }
    }
}

fn slur(setting: &mut Setting, spanner: &Spanner) {
    let (from, to) = (anchored(setting, &spanner.from), anchored(setting, &spanner.to));
    let Some((chord, _)) = from.or(to) else { return };
    if let Some((note, x)) = to.filter(|_| chord.is_grace() && spanner.from.grace == 1) {
        return grace_slur(setting, from.unwrap_or((note, x)), (note, x));
    }
    let above = spanner.above.unwrap_or_else(|| slur_above(setting, spanner, chord));
    let toward = if above { -1.0 } else { 1.0 };
    let end = |found: Option<(&Chord, f32)>, otherwise: f32| match found {
        Some((chord, x)) => slur_end(setting, chord, x, above),
        None => (otherwise, if above { -1.5 } else { STAFF + 1.5 }),
    };
    let (mut a, mut b) = (end(from, begin(setting)), end(to, setting.order.width));
    if from.is_none() {
        a.1 = b.1 + 0.5 * toward;
    }
    if to.is_none() {
        b.1 = a.1 + 0.5 * toward;
    }
    if b.0 < a.0 + 0.8 {
        return;
    }
    let staff = chord.staff;
    let needed = slur_height(setting, staff, a, b, above);
    let height = needed.min(0.8 + 0.3 * (b.0 - a.0)).min(HIGHEST_SLUR);
    // What an arc of this height does not clear it clears by standing further off.
    let off = 0.8 * (needed - height).min(4.0);
    (a.1, b.1) = (a.1 + toward * off, b.1 + toward * off);
    for step in 1..8 {
        let (left, right) = (step as f32 / 9.0, (step + 1) as f32 / 9.0);
        let y = |part: f32| a.1 + part * (b.1 - a.1) + toward * 4.0 * part * (1.0 - part) * height;
        let (x0, x1) = (a.0 + left * (b.0 - a.0), a.0 + right * (b.0 - a.0));
        let (top, bottom) = (y(left).min(y(right)), y(left).max(y(right)));
        setting.pen.take(staff, [x0, top - 0.1, x1, bottom + 0.1]);
    }
    let ink = ink_between(setting, spanner, staff);
    setting.pen.mark(staff, ink, lens(a, b, toward * height, CURVE_MIDDLE));
}

/// From a single grace note to its note: a small arc at their heads, away from the stems of grace notes (Gould 2011,
/// "Grace notes", from memory).
fn grace_slur(setting: &mut Setting, (grace, grace_x): (&Chord, f32), (note, x): (&Chord, f32)) {
    let above = !grace.up;
    let toward = if above { -1.0 } else { 1.0 };
    let side = |chord: &Chord| if above { chord.ends()[0] } else { chord.ends()[1] };
    let from = (grace_x + grace.dx + 0.5 * grace.head_width(), side(grace) + toward * 0.6);
    let to = (x + note.dx - 0.15, side(note) + toward * 0.5);
    if to.0 > from.0 + 0.5 {
        let height = toward * tie_height(to.0 - from.0);
        let reach = if above { from.1.min(to.1) + height } else { from.1.max(to.1) + height };
        setting.pen.take(grace.staff, [from.0, from.1.min(reach), to.0, from.1.max(reach)]);
        let ink = setting.order.ink(note);
        setting.pen.mark(grace.staff, ink, lens(from, to, height, 0.8 * CURVE_MIDDLE));
    }
}

/// Over the notes unless all stems point up; in company outside.
fn slur_above(setting: &Setting, spanner: &Spanner, chord: &Chord) -> bool {
    if let Some(upper) = chord.company {
        return upper;
    }
    let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
    let inside = setting.order.chords().filter(|(_, other, _)| {
        let at = quarters(other.at);
        !other.is_rest() && other.staff == chord.staff && other.voice == chord.voice && from <= at && at <= to
    });
    inside.map(|(_, other, _)| other).any(|other| !other.up || !other.has_stem())
}

/// At the head, or over the stem where that is on this side.
fn slur_end(setting: &Setting, chord: &Chord, x: f32, above: bool) -> Point {
    let [highest, lowest] = chord.ends();
    let middle = x + chord.dx + 0.5 * chord.head_width();
    if chord.is_rest() {
        return (middle, if above { chord.rest - 1.5 } else { chord.rest + 1.5 });
    }
    let at_stem = chord.has_stem() && chord.up == above;
    let x = if at_stem { x + chord.stem_x() } else { middle };
    let signed = &setting.pen.skylines[chord.staff];
    let y = if above {
        (if at_stem { setting.tip(chord, middle) } else { highest - 0.5 }).min(near_signs(
            chord,
            signed.above(middle - 0.1, middle + 0.1),
            highest - 2.2,
        ))
    } else {
        (if at_stem { setting.tip(chord, middle) } else { lowest + 0.5 }).max(near_signs(
            chord,
            signed.below(middle - 0.1, middle + 0.1),
            lowest + 2.2,
        ))
    };
    (x, y + if above { -APART } else { APART })
}

/// A slur goes round the articulations of its end notes; the staff's own edge does not count.
fn near_signs(chord: &Chord, edge: f32, most: f32) -> f32 {
    let [highest, lowest] = chord.ends();
    if chord.event.articulations.is_empty() {
        0.5 * (highest + lowest)
    } else if most < lowest {
        edge.max(most)
    } else {
        edge.min(most)
    }
}

const HIGHEST_SLUR: f32 = 4.0;

/// A slur is a shallow arc that clears what is under it.
fn slur_height(setting: &Setting, staff: usize, a: Point, b: Point, above: bool) -> f32 {
    let length = b.0 - a.0;
    let natural = (0.5 + 0.09 * length).clamp(0.7, 2.4);
    let line = &setting.pen.skylines[staff];
    let mut height = natural;
    for step in 1..12 {
        let part = step as f32 / 12.0;
        let x = a.0 + part * length;
        let chord = a.1 + part * (b.1 - a.1);
        let edge = if above { chord - line.above(x - 0.1, x + 0.1) } else { line.below(x - 0.1, x + 0.1) - chord };
        // Lines of the staff itself may be crossed.
        let outside =
            if above { line.above(x - 0.1, x + 0.1) < -0.01 } else { line.below(x - 0.1, x + 0.1) > STAFF + 0.01 };
        if outside {
            height = height.max((edge + APART) / (4.0 * part * (1.0 - part)).max(0.4));
        }
    }
    height
}
