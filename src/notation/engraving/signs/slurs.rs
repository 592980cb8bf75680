//! Slurs: from note to note, around what they span.

use crate::{
    music::written::{Spanner, Spans},
    notation::{
        drawing::Point,
        engraving::{
            curves::{Arc, in_the_way},
            metrics::{CURVE_MIDDLE, STAFF},
            pen::Mark,
            prepared::{chords::Chord, places::quarters},
            signs::{
                engraver::Engraver,
                spanners::{APART, anchored, begin, ink_between, is_shown, time},
            },
            spaced::ties::TIE_HEIGHT,
        },
    },
};

/// How much is shown at least of a slur that comes from another system or goes on in one, so that it is seen as a slur.
const CONTINUED: f32 = 2.5;
/// A slur is no higher than this over its ends; what is higher makes it stand further off.
const HIGHEST: f32 = 4.0;

pub fn slurs(engraver: &mut Engraver) {
    // Slurs may cross one another.
    let others = engraver.pen.marks.len();
    let spanners = &engraver.plan.galley.part.spanners;
    for spanner in spanners.iter().filter(|spanner| spanner.kind == Spans::Slur) {
        match is_across(engraver, spanner) {
            _ if !is_shown(engraver, spanner) => {}
            false => slur(engraver, spanner, others),
            true => reserve(engraver, spanner, others),
        }
    }
}

/// Keeps room for the ends of a slur across the staves, which is drawn when these stand.
fn reserve(engraver: &mut Engraver, spanner: &Spanner, others: usize) {
    let above = spanner.above.unwrap_or(true);
    let high = if above { -RESERVED } else { RESERVED };
    for anchor in [&spanner.from, &spanner.to] {
        let Some(found) = anchored(engraver, anchor) else { continue };
        let (x, y) = slur_end(&engraver.pen.marks[..others], found, above);
        engraver.pen.take(found.0.staff, [x - OWN, y.min(y + high), x + OWN, y.max(y + high)]);
    }
}

/// How high a slur rises or falls near its end.
const RESERVED: f32 = 0.8;

fn is_across(engraver: &Engraver, spanner: &Spanner) -> bool {
    let staff = |anchor| anchored(engraver, anchor).map(|(chord, _)| chord.staff);
    let (from, to) = (staff(&spanner.from), staff(&spanner.to));
    from.is_some() && to.is_some() && from != to
}

/// The first and the last note of each slur from staff to staff.
pub fn ends_across<'a>(engraver: &Engraver<'a>) -> Vec<[(&'a Chord<'a>, f32); 2]> {
    let spanners = engraver.plan.galley.part.spanners.iter();
    let across = spanners.filter(|spanner| spanner.kind == Spans::Slur && is_across(engraver, spanner));
    across.filter_map(|slur| Some([anchored(engraver, &slur.from)?, anchored(engraver, &slur.to)?])).collect()
}

/// The slurs from staff to staff, the staves' top lines being at `tops`. They go round the notes and, from the mark
/// with index `across` on, round what joins the staves; not round what stands outside the notes, so that they begin and
/// end at their own.
pub fn across(engraver: &mut Engraver, tops: &[f32], across: usize) {
    let mut others = engraver.pen.marks[..engraver.notes].to_vec();
    others.extend(joined(&engraver.pen.marks[across..], tops));
    let spanners = &engraver.plan.galley.part.spanners;
    for spanner in spanners.iter().filter(|spanner| spanner.kind == Spans::Slur) {
        if is_shown(engraver, spanner) && is_across(engraver, spanner) {
            slur_across(engraver, spanner, &others, tops);
        }
    }
}

/// The marks that join staves, which are counted from the first staff's top line, as marks of each staff.
fn joined(marks: &[Mark], tops: &[f32]) -> Vec<Mark> {
    let of_staff = |staff: usize| {
        marks.iter().map(move |mark| Mark { staff, form: mark.form.placed(1.0, (0.0, -tops[staff])), ..*mark })
    };
    (0..tops.len()).flat_map(of_staff).collect()
}

/// Over both ends, or under both where the file says so.
fn slur_across(engraver: &mut Engraver, spanner: &Spanner, others: &[Mark], tops: &[f32]) {
    let (Some(from), Some(to)) = (anchored(engraver, &spanner.from), anchored(engraver, &spanner.to)) else { return };
    let above = spanner.above.unwrap_or(true);
    let end = |found: (&Chord, f32)| {
        let (x, y) = slur_end(others, found, above);
        (x, y + tops[found.0.staff])
    };
    let (a, b) = (end(from), end(to));
    let length = b.0 - a.0;
    if length < 0.8 {
        return;
    }
    // What stands on the outer one of both staves.
    let staff = if above { from.0.staff.min(to.0.staff) } else { from.0.staff.max(to.0.staff) };
    let points = in_the_way(others, staff, (a.0, b.0), above);
    let points: Vec<Point> = points.into_iter().map(|(x, y)| (x, y + tops[staff])).collect();
    let shallow = Arc { from: a, to: b, height: (0.5 + 0.09 * length).clamp(0.7, 2.4), above };
    let arc = shallow.cleared(&points, (0.8 + 0.3 * length).min(HIGHEST));
    let ink = ink_between(engraver, spanner, from.0.staff);
    arc.draw(&mut engraver.pen, 0, ink, CURVE_MIDDLE);
}

fn slur(engraver: &mut Engraver, spanner: &Spanner, others: usize) {
    let (from, to) = (anchored(engraver, &spanner.from), anchored(engraver, &spanner.to));
    let Some((chord, _)) = from.or(to) else { return };
    if let Some((note, x)) = to.filter(|_| chord.is_grace() && spanner.from.grace == 1) {
        return grace_slur(engraver, from.unwrap_or((note, x)), (note, x));
    }
    let above = spanner.above.unwrap_or_else(|| slur_above(engraver, spanner, chord));
    let toward = if above { -1.0 } else { 1.0 };
    let end = |found: Option<(&Chord, f32)>, otherwise: f32| match found {
        Some(found) => slur_end(&engraver.pen.marks[..others], found, above),
        None => (otherwise, if above { -1.5 } else { STAFF + 1.5 }),
    };
    let (mut a, mut b) = (end(from, begin(engraver)), end(to, engraver.plan.width));
    if from.is_none() {
        a = (a.0.min(b.0 - CONTINUED), b.1 + 0.5 * toward);
    }
    if to.is_none() {
        b = (b.0.max(a.0 + CONTINUED), a.1 + 0.5 * toward);
    }
    let length = b.0 - a.0;
    if length < 0.8 {
        return;
    }
    let shallow = Arc { from: a, to: b, height: (0.5 + 0.09 * length).clamp(0.7, 2.4), above };
    let points = in_the_way(&engraver.pen.marks[..others], chord.staff, (a.0, b.0), above);
    let arc = shallow.cleared(&points, (0.8 + 0.3 * length).min(HIGHEST));
    let ink = ink_between(engraver, spanner, chord.staff);
    arc.draw(&mut engraver.pen, chord.staff, ink, CURVE_MIDDLE);
}

/// From a single grace note to its note: a small arc at their heads, away from the stems of grace notes (Gould 2011,
/// "Grace notes", from memory).
fn grace_slur(engraver: &mut Engraver, (grace, grace_x): (&Chord, f32), (note, x): (&Chord, f32)) {
    let above = !grace.up;
    let toward = if above { -1.0 } else { 1.0 };
    let side = |chord: &Chord| if above { chord.ends()[0] } else { chord.ends()[1] };
    let from = (grace_x + grace.dx + 0.5 * grace.head_width(), side(grace) + toward * 0.6);
    let to = (x + note.dx - 0.15, side(note) + toward * 0.5);
    if to.0 > from.0 + 0.5 {
        let arc = Arc { from, to, height: TIE_HEIGHT.at(to.0 - from.0), above };
        let ink = engraver.ink(note);
        arc.draw(&mut engraver.pen, grace.staff, ink, 0.8 * CURVE_MIDDLE);
    }
}

/// Over the notes unless all stems point up; in company outside.
fn slur_above(engraver: &Engraver, spanner: &Spanner, chord: &Chord) -> bool {
    if let Some(upper) = chord.company {
        return upper;
    }
    let (from, to) = (time(engraver, &spanner.from), time(engraver, &spanner.to));
    let inside = engraver.chords().filter(|(other, _)| {
        let at = quarters(other.at);
        !other.is_rest() && other.staff == chord.staff && other.voice == chord.voice && from <= at && at <= to
    });
    inside.map(|(other, _)| other).any(|other| !other.up || !other.has_stem())
}

/// At the head, or over the stem where that is on this side, outside the signs of the note.
fn slur_end(marks: &[Mark], (chord, x): (&Chord, f32), above: bool) -> Point {
    let width = if chord.is_rest() { chord.rest_glyph().width() } else { chord.head_width() };
    let middle = x + chord.dx + 0.5 * width;
    let points = in_the_way(marks, chord.staff, (middle - OWN, middle + OWN), above);
    let ys = points.into_iter().map(|(_, y)| y);
    let y = if above { ys.fold(f32::MAX, f32::min) - APART } else { ys.fold(f32::MIN, f32::max) + APART };
    let at_stem = chord.has_stem() && chord.up == above;
    (if at_stem { x + chord.stem_x() } else { middle }, y.clamp(-40.0, 44.0))
}

/// What is this near to the middle of a head belongs to its note.
const OWN: f32 = 0.7;
