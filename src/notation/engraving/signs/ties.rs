//! Ties: flat arcs between heads of one pitch.

use crate::notation::engraving::{
    curves::Arc,
    metrics::CURVE_MIDDLE,
    prepared::chords::{Chord, ReadyHead},
    signs::{engraver::Engraver, spanners::begin},
    spaced::ties::{TIE_HEIGHT, before, behind, tie_above, tie_y},
};

/// How long a tie is drawn at least: common practice, no source.
const SHORTEST: f32 = 0.5;
/// How long it is drawn in each of two systems between which it goes on: at least, and at most in the later and in the
/// earlier one. Chosen.
const SHORTEST_CUT: f32 = 0.8;
const LONGEST_COMING: f32 = 1.6;
const LONGEST_GOING: f32 = 2.2;

pub fn ties(engraver: &mut Engraver) {
    for (chord, x) in engraver.chords() {
        let count = chord.heads.len();
        for (nth, head) in chord.heads.iter().enumerate() {
            let above = tie_above(chord, nth, count);
            if head.head.tied_on {
                let right = behind(chord, head, x, above);
                let to = follower(engraver, chord, head, above).unwrap_or(edge_after(engraver, right));
                draw_tie(engraver, chord, head, (right, to), above);
            }
            if head.head.tied_from && !has_source(engraver, chord, head) {
                let left = before(chord, head, x, above);
                // Behind the signatures.
                let from = begin(engraver).clamp(left - LONGEST_COMING, left - SHORTEST_CUT);
                draw_tie(engraver, chord, head, (from, left), above);
            }
        }
    }
}

/// Where the tied note stands: the left edge of its head.
fn follower(engraver: &Engraver, chord: &Chord, head: &ReadyHead, above: bool) -> Option<f32> {
    let end = chord.at + chord.event.lasts;
    engraver.chords().find_map(|(next, x)| {
        let same = |other: &&ReadyHead| {
            other.head.tied_from && other.staff == head.staff && other.head.place == head.head.place
        };
        if next.at != end {
            return None;
        }
        next.heads.iter().find(same).map(|other| before(next, other, x, above))
    })
}

fn has_source(engraver: &Engraver, chord: &Chord, head: &ReadyHead) -> bool {
    engraver.chords().any(|(before, _)| {
        let same =
            |other: &ReadyHead| other.head.tied_on && other.staff == head.staff && other.head.place == head.head.place;
        before.at + before.event.lasts == chord.at && before.at < chord.at && before.heads.iter().any(same)
    })
}

fn edge_after(engraver: &Engraver, right: f32) -> f32 {
    engraver.plan.width.min(right + LONGEST_GOING).max(right + SHORTEST_CUT)
}

fn draw_tie(engraver: &mut Engraver, chord: &Chord, head: &ReadyHead, (from, to): (f32, f32), above: bool) {
    let (y, to) = (tie_y(chord, head, above), to.max(from + SHORTEST));
    let ink = engraver.ink(chord);
    let arc = Arc { from: (from, y), to: (to, y), height: TIE_HEIGHT.at(to - from), above };
    arc.draw(&mut engraver.pen, head.staff, ink, CURVE_MIDDLE);
}
