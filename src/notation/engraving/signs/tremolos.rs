//! Tremolos drawn: strokes through one stem, and strokes between two notes that alternate.

use crate::notation::{
    drawing::Ink,
    engraving::{
        metrics::{BEAM, BEAM_STEP, STEM_LENGTH},
        prepared::{
            beaming::Lie,
            chords::Chord,
            tremolos::{BESIDE_STEM, SHORTEST},
        },
        signs::engraver::Engraver,
    },
};

/// How much of a stem each flag or beam takes from the strokes through it: common practice, no source.
const BEAM_ROOM: f32 = 0.5;

/// A stroke through a stem: half its width, its rise from the left end to the right, and its thickness. Common practice,
/// no source.
const STROKE_HALF: f32 = 0.6;
const STROKE_RISE: f32 = 0.4;
const STROKE: f32 = 0.4;
/// How far the middle of a row of strokes stands over the middle of what is free of the stem.
const STROKE_LIFT: f32 = 0.05;

/// Between strokes and the heads of notes without stems, and the accidentals of the second: common practice, no source.
const BESIDE_HEAD: f32 = 0.4;
const BESIDE_SIGN: f32 = 0.15;
/// Strokes leave at most this part of the room between their notes free on either side: common practice, no source.
const MOST_FREE: f32 = 0.2;

/// Slanted strokes through the stem, or over a note without one.
pub fn single(engraver: &mut Engraver, chord: &Chord, x: f32, strokes: u8, ink: Ink) {
    if chord.is_rest() {
        return;
    }
    let strokes = f32::from(strokes.clamp(1, 4));
    let [highest, lowest] = chord.ends();
    let (middle, tip) = if chord.has_stem() {
        (x + chord.stem_x(), engraver.tip(chord, x))
    } else {
        (x + chord.dx + 0.5 * chord.head_width(), if chord.up { highest - STEM_LENGTH } else { lowest + STEM_LENGTH })
    };
    let head = if chord.up { highest } else { lowest };
    let beams = if chord.up { 1.0 } else { -1.0 } * BEAM_ROOM * chord.flags().min(3) as f32;
    let centre = 0.5 * (head + tip + beams);
    for nth in 0..strokes as usize {
        let y = centre + BEAM_STEP * (nth as f32 - 0.5 * (strokes - 1.0));
        let (left, right) = (middle - STROKE_HALF, middle + STROKE_HALF);
        let (low, high) = (y - STROKE_LIFT + 0.5 * STROKE_RISE, y - STROKE_LIFT - 0.5 * STROKE_RISE);
        let half = 0.5 * STROKE;
        let corners = vec![(left, low + half), (right, high + half), (right, high - half), (left, low - half)];
        engraver.pen.polygon(chord.staff, ink, corners);
    }
}

impl Engraver<'_> {
    /// Strokes between the two notes under a beam's lie, behind the beams they have.
    pub fn strokes_between(&mut self, members: &[(&Chord, f32)], lie: Lie, staff: usize, up: bool) {
        let [(first, x), (second, end)] = members else { return };
        let (left, right, gap) = if first.has_stem() {
            (x + first.stem_x(), end + second.stem_x(), BESIDE_STEM)
        } else {
            (x + first.right(), end + second.left(), BESIDE_HEAD)
        };
        let gap = gap.min(MOST_FREE * (right - left)).max(0.0);
        // And not the accidentals of the second.
        let signs = second.heads.iter().filter_map(|head| head.accidental).map(|sign| end + sign.dx - BESIDE_SIGN);
        let left = left + gap;
        let right = signs.fold(right - gap, f32::min).max(left + SHORTEST);
        let toward = if up { 1.0 } else { -1.0 };
        let ink = self.ink(first);
        for stroke in first.flags()..first.flags() + usize::from(first.strokes) {
            let near = toward * BEAM_STEP * stroke as f32;
            let at = |x: f32, off: f32| (x, lie.at(x) + off);
            let far = near + toward * BEAM;
            let corners = vec![at(left, near), at(right, near), at(right, far), at(left, far)];
            let ys = || corners.iter().map(|(_, y)| *y);
            let taken = [left, ys().fold(f32::MAX, f32::min), right, ys().fold(f32::MIN, f32::max)];
            self.pen.take(staff, taken);
            self.pen.polygon(staff, ink, corners);
        }
    }
}
