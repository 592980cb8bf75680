//! Tremolos between two notes: which notes alternate, and the room and the slant of the strokes between them.

use crate::{
    music::{Part, written::Spans},
    notation::engraving::{
        metrics::{BEAM, BEAM_SLOPE, BEAM_STEP, STEM_LENGTH},
        pen::Bounds,
        prepared::{
            beaming::{Lie, SHORTEST_RUN},
            chords::Chord,
        },
    },
};

/// Strokes between two notes do not touch their stems (Gould 2011, "Tremolos", from memory), nor heads without.
pub const BESIDE_STEM: f32 = 0.75;

/// Strokes are at least this long (common practice, no source).
pub const SHORTEST: f32 = 0.8;

/// Room that strokes need behind a chord.
pub fn room(chord: &Chord) -> Option<Bounds> {
    let [highest, lowest] = chord.ends();
    let right = chord.right() + BESIDE_STEM + SHORTEST;
    (chord.strokes > 0).then_some([chord.right(), highest - STEM_LENGTH, right, lowest + STEM_LENGTH])
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

/// How the strokes between two notes without stems lie: in the middle between their heads.
pub fn lie_between(members: &[(&Chord, f32)], up: bool) -> Lie {
    let ((first, x), (last, end)) = (members[0], members[members.len() - 1]);
    let middle = |chord: &Chord| 0.5 * (chord.ends()[0] + chord.ends()[1]);
    let (a, b) = (middle(first), middle(last));
    let slope = ((b - a) / (end - x).max(SHORTEST_RUN)).clamp(-BEAM_SLOPE, BEAM_SLOPE);
    let thick = BEAM_STEP * f32::from(first.strokes.saturating_sub(1)) + BEAM;
    let x = 0.5 * (x + first.right() + end + last.left());
    Lie { x, y: 0.5 * (a + b) - if up { 0.5 } else { -0.5 } * thick, slope }
}
