//! Tremolos: strokes through one stem, and strokes between two notes that alternate.

use super::{
    super::drawing::Ink,
    beaming::Lie,
    chords::Chord,
    metrics::{BEAM, BEAM_SLOPE, BEAM_STEP, STEM_LENGTH},
    pen::Bounds,
    system::Setting,
};
use crate::music::{Part, written::Spans};

/// What beams leave of a stem.
const BEAM_ROOM: f32 = 0.5;
/// Strokes between two notes do not touch their stems (Gould 2011, "Tremolos", from memory), nor heads without.
const BESIDE_STEM: f32 = 0.75;
const BESIDE_HEAD: f32 = 0.4;
const BESIDE_SIGN: f32 = 0.15;
/// Strokes are at least this long (common practice, no source).
const SHORTEST: f32 = 0.8;

/// Room that strokes need behind a chord.
pub fn room(chord: &Chord) -> Option<Bounds> {
    let [highest, lowest] = chord.ends();
    let right = chord.right() + BESIDE_STEM + SHORTEST;
    (chord.strokes > 0).then_some([chord.right(), highest - STEM_LENGTH, right, lowest + STEM_LENGTH])
}

/// Slanted strokes through the stem, or over a note without one.
pub fn single(setting: &mut Setting, chord: &Chord, x: f32, strokes: u8, ink: Ink) {
    if chord.is_rest() {
        return;
    }
    let strokes = f32::from(strokes.clamp(1, 4));
    let [highest, lowest] = chord.ends();
    let (middle, tip) = if chord.has_stem() {
        (x + chord.stem_x(), setting.tip(chord, x))
    } else {
        (x + chord.dx + 0.5 * chord.head_width(), if chord.up { highest - 3.5 } else { lowest + 3.5 })
    };
    let head = if chord.up { highest } else { lowest };
    let beams = if chord.up { 1.0 } else { -1.0 } * BEAM_ROOM * chord.flags().min(3) as f32;
    let centre = 0.5 * (head + tip + beams);
    for nth in 0..strokes as usize {
        let y = centre + 0.75 * (nth as f32 - 0.5 * (strokes - 1.0));
        let corner = |dx: f32, dy: f32| (middle + dx, y + dy);
        let corners = vec![corner(-0.6, 0.35), corner(0.6, -0.05), corner(0.6, -0.45), corner(-0.6, -0.05)];
        setting.pen.polygon(chord.staff, ink, corners);
    }
}

/// Finds the pairs of a bar that alternate and tells them their strokes; those that no beam joins yet, by index.
pub fn pairs(part: &Part, bar: usize, chords: &mut [Chord], beamed: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut pairs = Vec::new();
    for spanner in &part.spanners {
        let Spans::Tremolo(strokes) = spanner.kind else { continue };
        if (spanner.from.bar, spanner.to.bar) != (bar as isize, bar as isize) {
            continue;
        }
        let voices = &part.bars[bar].written.voices;
        let found = [&spanner.from, &spanner.to].map(|anchor| {
            let voice = voices.iter().position(|voice| voice.name == anchor.voice)?;
            chords.iter().position(|chord| {
                let here = chord.voice == voice && chord.event.at == anchor.at;
                here && !chord.is_grace() && !chord.is_rest()
            })
        });
        let [Some(first), Some(second)] = found else { continue };
        if first < second && chords[first].has_stem() == chords[second].has_stem() {
            [first, second].into_iter().for_each(|chord| chords[chord].strokes = strokes.clamp(1, 4));
            if !beamed.iter().flatten().any(|chord| [first, second].contains(chord)) {
                pairs.push(vec![first, second]);
            }
        }
    }
    pairs
}

impl Setting<'_> {
    /// Strokes between the two notes under a beam's lie, behind the beams they have.
    pub fn strokes_between(&mut self, members: &[(&Chord, f32)], lie: Lie, staff: usize, up: bool) {
        let [(first, x), (second, end)] = members else { return };
        let (left, right, gap) = if first.has_stem() {
            (x + first.stem_x(), end + second.stem_x(), BESIDE_STEM)
        } else {
            (x + first.right(), end + second.left(), BESIDE_HEAD)
        };
        let gap = gap.min(0.2 * (right - left)).max(0.0);
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

/// How the strokes between two notes without stems lie: in the middle between their heads.
pub fn lie_between(members: &[(&Chord, f32)], up: bool) -> Lie {
    let ((first, x), (last, end)) = (members[0], members[members.len() - 1]);
    let middle = |chord: &Chord| 0.5 * (chord.ends()[0] + chord.ends()[1]);
    let (a, b) = (middle(first), middle(last));
    let slope = ((b - a) / (end - x).max(0.1)).clamp(-BEAM_SLOPE, BEAM_SLOPE);
    let thick = BEAM_STEP * f32::from(first.strokes.saturating_sub(1)) + BEAM;
    let x = 0.5 * (x + first.right() + end + last.left());
    Lie { x, y: 0.5 * (a + b) - if up { 0.5 } else { -0.5 } * thick, slope }
}
