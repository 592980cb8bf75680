//! Where the ends of a tie stand beside their heads, and the room they need.

use crate::notation::{
    engraving::{
        curves::ArcHeight,
        pen::Bounds,
        prepared::{
            accidentals,
            articulations::above_head,
            chords::{Chord, DOT_STEP, ReadyHead},
        },
    },
    glyph::Glyph,
};

/// A tie is flat: about a space high where it is long (Ross 1970, from memory).
pub const TIE_HEIGHT: ArcHeight = ArcHeight { base: 0.28, per_space: 0.07, least: 0.35, most: 1.0 };

/// From a head to its tie: common practice, no source.
const BESIDE: f32 = 0.1;
/// How far the ties of a single head reach over it: common practice, no source.
const INSET: f32 = 0.25;
/// From the middle of a head to the ends of its tie, up or down: of a single head, and of one in a chord. Common
/// practice, no source.
const OFF_HEAD: f32 = 0.6;
const OFF_HEAD_IN_CHORD: f32 = 0.3;
/// Room for a tie: beyond its head, and over and under it. Common practice, no source.
const SEEN: f32 = 1.2;
const ROOM: f32 = 1.0;
/// A dot that is nearer than this to a tie's ends, or an accidental to its head, is in its way, up or down: common
/// practice, no source.
const NEAR_DOT: f32 = 0.45;
const NEAR_SIGN: f32 = 0.8;

/// Away from the stem; in a chord the upper half upward.
pub fn tie_above(chord: &Chord, nth: usize, count: usize) -> bool {
    match (chord.company, count) {
        (Some(upper), _) => upper,
        (None, 1) => above_head(chord),
        (None, _) => 2 * nth >= count,
    }
}

/// How far the ties of a chord stand off its heads to go round a flag that hangs down to them.
pub fn flag(chord: &Chord, above: bool) -> f32 {
    let hangs = above && chord.up && chord.has_stem() && chord.beam.is_none() && chord.flags() > 0;
    if hangs { chord.scale * Glyph::FlagUp.width() } else { 0.0 }
}

/// Room for the tie that leaves a head, long enough to be seen, and for the one that reaches it (common
/// practice, no source).
pub fn room(chord: &Chord, head: &ReadyHead) -> impl Iterator<Item = Bounds> {
    let right = chord.right() + flag(chord, true);
    let left = chord.dx + head.dx;
    let leaves = head.head.tied_on.then_some([right - INSET, right + SEEN]);
    let reaches = head.head.tied_from.then_some([left - BESIDE, left + INSET]);
    let y = head.y;
    leaves.into_iter().chain(reaches).map(move |[left, right]| [left, y - ROOM, right, y + ROOM])
}

/// Where a tie may leave a head: behind all heads of its chord, and behind a dot or flag that is in its way.
pub fn behind(chord: &Chord, head: &ReadyHead, x: f32, above: bool) -> f32 {
    let is_near = |dot: f32| (dot - tie_y(chord, head, above)).abs() < NEAR_DOT;
    let is_dotted = chord.event.dots > 0 && chord.heads.iter().filter_map(|head| head.dot).any(is_near);
    match is_dotted {
        true => x + chord.dots + DOT_STEP * f32::from(chord.event.dots.min(4)) + BESIDE,
        false => x + chord.right() + flag(chord, above) + BESIDE - inset(chord, chord.up && above),
    }
}

/// Where a tie may reach a head: before all heads of its chord, and before an accidental that is in its way.
pub fn before(chord: &Chord, head: &ReadyHead, x: f32, above: bool) -> f32 {
    let heads = chord.heads.iter().map(|head| chord.dx + head.dx);
    let signs = chord.heads.iter().filter_map(|other| {
        let accidental = other.accidental.as_ref()?;
        let [_, top, _, bottom] = accidentals::extent(accidental, other.y, chord.scale);
        let is_near = other.staff == head.staff && top - NEAR_SIGN < head.y && head.y < bottom + NEAR_SIGN;
        is_near.then_some(accidental.dx)
    });
    x + heads.chain(signs).fold(f32::MAX, f32::min) - BESIDE + inset(chord, !chord.up && !above)
}

/// The y of a tie's ends: beside a single head and over it, the inner ones of a chord between the heads.
pub fn tie_y(chord: &Chord, head: &ReadyHead, above: bool) -> f32 {
    let off = if chord.heads.len() == 1 { OFF_HEAD } else { OFF_HEAD_IN_CHORD };
    if above { head.y - off } else { head.y + off }
}

/// How far the ties of a single head reach over it, if no stem is in their way.
pub fn inset(chord: &Chord, at_stem: bool) -> f32 {
    if chord.heads.len() > 1 || at_stem && chord.has_stem() { 0.0 } else { INSET }
}
