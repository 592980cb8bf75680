//! Slurs: from note to note, around what they span.

use crate::{
    music::written::{Spanner, Spans},
    notation::{
        drawing::{Ink, Point},
        engraving::{
            curves::{Arc, ArcHeight, in_the_way},
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

/// How high a slur is where nothing is in its way, and at most: what is higher makes it stand further off. Common
/// practice, no source.
const HEIGHT: ArcHeight = ArcHeight { base: 0.5, per_space: 0.09, least: 0.7, most: 2.4 };
const MOST_HEIGHT: ArcHeight = ArcHeight { base: 0.8, per_space: 0.3, least: 0.8, most: 4.0 };
/// A shorter one is not drawn: it would not be seen as a slur (chosen).
const SHORTEST: f32 = 0.8;
/// How much is shown at least of a slur that comes from another system or goes on in one, so that it is seen as a slur,
/// and how much it rises there: chosen.
const CONTINUED: f32 = 2.5;
const CONTINUED_RISE: f32 = 0.5;
/// From the staff to the end of a slur none of whose notes is shown: chosen.
const OFF_STAFF: f32 = 1.5;
/// What is this near to the middle of a head belongs to its note: half a head's width and a little.
const OWN: f32 = 0.7;
/// How high a slur rises or falls near its end: chosen.
const RESERVED: f32 = 0.8;
/// No slur ends further outside its staff: chosen.
const FURTHEST: f32 = 40.0;
/// The slur of a grace note: from the middles of both heads to its ends, up or down, how far before the left edge of
/// its note it ends, its shortest run, and its thickness. Common practice, no source.
const OFF_GRACE: f32 = 0.6;
const OFF_NOTE: f32 = 0.5;
const BEFORE_NOTE: f32 = 0.15;
const SHORTEST_OF_GRACE: f32 = 0.5;
const GRACE_MIDDLE: f32 = 0.8 * CURVE_MIDDLE;

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
    // What stands on the outer one of both staves.
    let staff = if above { from.0.staff.min(to.0.staff) } else { from.0.staff.max(to.0.staff) };
    let points = in_the_way(others, staff, (a.0, b.0), above);
    let points: Vec<Point> = points.into_iter().map(|(x, y)| (x, y + tops[staff])).collect();
    let ink = ink_between(engraver, spanner, from.0.staff);
    draw(engraver, (0, ink), Arc { from: a, to: b, height: 0.0, above }, &points);
}

/// Draws a slur between the ends of an arc, around some points.
fn draw(engraver: &mut Engraver, (staff, ink): (usize, Ink), ends: Arc, points: &[Point]) {
    let length = ends.to.0 - ends.from.0;
    if length >= SHORTEST {
        let arc = Arc { height: HEIGHT.at(length), ..ends }.cleared(points, MOST_HEIGHT.at(length));
        arc.draw(&mut engraver.pen, staff, ink, CURVE_MIDDLE);
    }
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
        None => (otherwise, if above { -OFF_STAFF } else { STAFF + OFF_STAFF }),
    };
    let (mut a, mut b) = (end(from, begin(engraver)), end(to, engraver.plan.width));
    if from.is_none() {
        a = (a.0.min(b.0 - CONTINUED), b.1 + CONTINUED_RISE * toward);
    }
    if to.is_none() {
        b = (b.0.max(a.0 + CONTINUED), a.1 + CONTINUED_RISE * toward);
    }
    let points = in_the_way(&engraver.pen.marks[..others], chord.staff, (a.0, b.0), above);
    let ink = ink_between(engraver, spanner, chord.staff);
    draw(engraver, (chord.staff, ink), Arc { from: a, to: b, height: 0.0, above }, &points);
}

/// From a single grace note to its note: a small arc at their heads, away from the stems of grace notes (Gould 2011,
/// "Grace notes", from memory).
fn grace_slur(engraver: &mut Engraver, (grace, grace_x): (&Chord, f32), (note, x): (&Chord, f32)) {
    let above = !grace.up;
    let toward = if above { -1.0 } else { 1.0 };
    let side = |chord: &Chord| if above { chord.ends()[0] } else { chord.ends()[1] };
    let from = (grace_x + grace.dx + 0.5 * grace.head_width(), side(grace) + toward * OFF_GRACE);
    let to = (x + note.dx - BEFORE_NOTE, side(note) + toward * OFF_NOTE);
    if to.0 > from.0 + SHORTEST_OF_GRACE {
        let arc = Arc { from, to, height: TIE_HEIGHT.at(to.0 - from.0), above };
        let ink = engraver.ink(note);
        arc.draw(&mut engraver.pen, grace.staff, ink, GRACE_MIDDLE);
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
    (if at_stem { x + chord.stem_x() } else { middle }, y.clamp(-FURTHEST, STAFF + FURTHEST))
}
