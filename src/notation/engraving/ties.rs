//! Ties: flat arcs between heads of one pitch.

use super::{
    accidentals,
    chords::{Chord, DOT_STEP, ReadyHead},
    curves::Arc,
    glyph::Glyph,
    metrics::CURVE_MIDDLE,
    outside::above_head,
    pen::Bounds,
    spans::begin,
    system::Setting,
};

/// From a head to its tie.
const BESIDE: f32 = 0.1;

/// A tie is flat: about a space high where it is long (Ross 1970, from memory).
pub fn tie_height(length: f32) -> f32 {
    (0.28 + 0.07 * length).clamp(0.35, 1.0)
}

pub fn ties(setting: &mut Setting) {
    for (chord, x) in setting.chords() {
        let count = chord.heads.len();
        for (nth, head) in chord.heads.iter().enumerate() {
            let above = tie_above(chord, nth, count);
            if head.head.tied_on {
                let right = behind(chord, head, x, above);
                let to = follower(setting, chord, head, above).unwrap_or(edge_after(setting, right));
                draw_tie(setting, chord, head, (right, to), above);
            }
            if head.head.tied_from && !has_source(setting, chord, head) {
                let left = before(chord, head, x, above);
                // Behind the signatures.
                let from = begin(setting).clamp(left - 1.6, left - 0.8);
                draw_tie(setting, chord, head, (from, left), above);
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

/// How far the ties of a chord stand off its heads to go round a flag that hangs down to them.
fn flag(chord: &Chord, above: bool) -> f32 {
    let hangs = above && chord.up && chord.has_stem() && chord.beam.is_none() && chord.flags() > 0;
    if hangs { chord.scale * Glyph::FlagUp.width() } else { 0.0 }
}

/// Room for the tie that leaves a head, long enough to be seen, and for the one that reaches it (common
/// practice, no source).
pub fn room(chord: &Chord, head: &ReadyHead) -> impl Iterator<Item = Bounds> {
    let right = chord.right() + flag(chord, true);
    let left = chord.dx + head.dx;
    let leaves = head.head.tied_on.then_some([right - 0.25, right + 1.2]);
    let reaches = head.head.tied_from.then_some([left - 0.1, left + 0.25]);
    let y = head.y;
    leaves.into_iter().chain(reaches).map(move |[left, right]| [left, y - 1.0, right, y + 1.0])
}

/// Where a tie may leave a head: behind all heads of its chord, and behind a dot or flag that is in its way.
fn behind(chord: &Chord, head: &ReadyHead, x: f32, above: bool) -> f32 {
    let is_near = |dot: f32| (dot - tie_y(chord, head, above)).abs() < 0.45;
    let is_dotted = chord.event.dots > 0 && chord.heads.iter().filter_map(|head| head.dot).any(is_near);
    match is_dotted {
        true => x + chord.dots + DOT_STEP * f32::from(chord.event.dots.min(4)) + BESIDE,
        false => x + chord.right() + flag(chord, above) + BESIDE - inset(chord, chord.up && above),
    }
}

/// Where a tie may reach a head: before all heads of its chord, and before an accidental that is in its way.
fn before(chord: &Chord, head: &ReadyHead, x: f32, above: bool) -> f32 {
    let heads = chord.heads.iter().map(|head| chord.dx + head.dx);
    let signs = chord.heads.iter().filter_map(|other| {
        let accidental = other.accidental.as_ref()?;
        let [_, top, _, bottom] = accidentals::extent(accidental, other.y, chord.scale);
        (other.staff == head.staff && top - 0.8 < head.y && head.y < bottom + 0.8).then_some(accidental.dx)
    });
    x + heads.chain(signs).fold(f32::MAX, f32::min) - BESIDE + inset(chord, !chord.up && !above)
}

/// The y of a tie's ends: beside a single head and over it, the inner ones of a chord between the heads.
fn tie_y(chord: &Chord, head: &ReadyHead, above: bool) -> f32 {
    head.y + if above { -1.0 } else { 1.0 } * if chord.heads.len() == 1 { 0.6 } else { 0.3 }
}

/// How far the ties of a single head reach over it, if no stem is in their way.
fn inset(chord: &Chord, at_stem: bool) -> f32 {
    if chord.heads.len() > 1 || at_stem && chord.has_stem() { 0.0 } else { 0.25 }
}

/// Where the tied note stands: the left edge of its head.
fn follower(setting: &Setting, chord: &Chord, head: &ReadyHead, above: bool) -> Option<f32> {
    let end = chord.at + chord.event.lasts;
    setting.chords().find_map(|(next, x)| {
        let same = |other: &&ReadyHead| {
            other.head.tied_from && other.staff == head.staff && other.head.place == head.head.place
        };
        if next.at != end {
            return None;
        }
        next.heads.iter().find(same).map(|other| before(next, other, x, above))
    })
}

fn has_source(setting: &Setting, chord: &Chord, head: &ReadyHead) -> bool {
    setting.chords().any(|(before, _)| {
        let same =
            |other: &ReadyHead| other.head.tied_on && other.staff == head.staff && other.head.place == head.head.place;
        before.at + before.event.lasts == chord.at && before.at < chord.at && before.heads.iter().any(same)
    })
}

fn edge_after(setting: &Setting, right: f32) -> f32 {
    setting.order.width.min(right + 2.2).max(right + 0.8)
}

fn draw_tie(setting: &mut Setting, chord: &Chord, head: &ReadyHead, (from, to): (f32, f32), above: bool) {
    let (y, to) = (tie_y(chord, head, above), to.max(from + 0.5));
    let ink = setting.ink(chord);
    let arc = Arc { from: (from, y), to: (to, y), height: tie_height(to - from), above };
    arc.draw(&mut setting.pen, head.staff, ink, CURVE_MIDDLE);
}
