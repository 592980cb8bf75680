//! What stands above what in a system: the rows that a snippet needs, from the roof to the beats.
//!
//! Refuses to know x. The rows are those of the whole snippet, so that nothing jumps when the step
//! changes.

use crate::music::{Hand, Note, Passage, passage::Articulation};

/// Heights in px at scale 1. Text is 24 px high at least.
const CROWN: f32 = 26.0;
const FINGERS: f32 = 26.0;
const SIGN: f32 = 16.0;
const HEAD: f32 = 22.0;
const BETWEEN: f32 = 30.0;
const DYNAMICS: f32 = 26.0;
const RULER: f32 = 26.0;
/// How much wider than the least the space between the lanes becomes where there is room.
const BETWEEN_AT_MOST: f32 = 80.0;

/// The rows that a snippet needs.
#[derive(Clone, Debug)]
pub struct Rows {
    /// Top lane first; one or two.
    pub lanes: Vec<Hand>,
    fingers: [bool; 2],
    signs: [bool; 2],
    dynamics: bool,
}

/// The middle of each row of one system, in px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heights {
    pub top: f32,
    pub crown: f32,
    /// Upper and lower lane; the same for a snippet with one lane, whose signs stand above.
    pub lanes: [f32; 2],
    pub fingers: [f32; 2],
    pub signs: [f32; 2],
    pub dynamics: f32,
    pub ruler: f32,
    pub bottom: f32,
}

/// The sign at a note that says how to attack it; of several the weightiest.
pub fn attack(note: &Note) -> Option<Articulation> {
    use Articulation::{Accent, Staccato, StrongAccent, Tenuto};
    [StrongAccent, Accent, Tenuto, Staccato].into_iter().find(|sign| note.articulations.contains(sign))
}

impl Rows {
    /// The rows of a snippet's passage.
    pub fn of(passage: &Passage) -> Self {
        let notes = || passage.onsets().iter().flat_map(|onset| &onset.notes);
        let hands = [Hand::Right, Hand::Line, Hand::Left].into_iter();
        let lanes: Vec<Hand> = hands.filter(|hand| notes().any(|note| note.hand == *hand)).collect();
        let any = |holds: fn(&Note) -> bool| {
            [false, true].map(|lower| notes().any(|note| lower == is_lower(&lanes, note.hand) && holds(note)))
        };
        Rows {
            fingers: any(|note| note.fingering.is_some()),
            signs: any(|note| attack(note).is_some()),
            dynamics: passage.onsets().iter().any(|onset| onset.dynamic.is_some()),
            lanes,
        }
    }

    /// 0 for the upper lane, 1 for the lower.
    pub fn lane(&self, hand: Hand) -> usize {
        usize::from(is_lower(&self.lanes, hand))
    }

    /// Least height of a system, in px at scale 1.
    pub fn least(&self) -> f32 {
        self.heights(0.0, 0.0, 1.0).bottom
    }

    /// The rows at this scale in the middle of `top..bottom`; what height is left goes between the
    /// lanes first. Where `top..bottom` is too low, they begin at `top`.
    pub fn heights(&self, top: f32, bottom: f32, scale: f32) -> Heights {
        let shown = |is: bool, height: f32| if is { height } else { 0.0 };
        let [fingers, signs] = [self.fingers, self.signs];
        let above = CROWN + shown(fingers[0], FINGERS) + shown(signs[0], SIGN) + HEAD;
        let below = shown(signs[1], SIGN) + shown(fingers[1], FINGERS) + shown(self.dynamics, DYNAMICS) + RULER;
        let two = self.lanes.len() > 1;
        let least = above + below + shown(two, BETWEEN + HEAD);
        let left = ((bottom - top) / scale - least).max(0.0);
        let wider = shown(two, left.min(BETWEEN_AT_MOST - BETWEEN));
        let mut stack = Stack { at: top + 0.5 * scale * (left - wider), scale };
        let top = stack.at;
        let crown = stack.row(CROWN);
        let upper_fingers = stack.row(shown(fingers[0], FINGERS));
        let upper_signs = stack.row(shown(signs[0], SIGN));
        let upper = stack.row(HEAD);
        stack.row(shown(two, BETWEEN + wider));
        let lower = if two { stack.row(HEAD) } else { upper };
        let lower_signs = stack.row(shown(signs[1], SIGN));
        let lower_fingers = stack.row(shown(fingers[1], FINGERS));
        let dynamics = stack.row(shown(self.dynamics, DYNAMICS));
        let ruler = stack.row(RULER);
        Heights {
            top,
            crown,
            lanes: [upper, lower],
            fingers: [upper_fingers, lower_fingers],
            signs: [upper_signs, lower_signs],
            dynamics,
            ruler,
            bottom: stack.at,
        }
    }
}

fn is_lower(lanes: &[Hand], hand: Hand) -> bool {
    lanes.iter().position(|lane| *lane == hand).is_some_and(|index| index > 0)
}

/// Rows laid one below the other.
struct Stack {
    at: f32,
    scale: f32,
}

impl Stack {
    /// The middle of the next row.
    fn row(&mut self, height: f32) -> f32 {
        let height = self.scale * height;
        self.at += height;
        self.at - 0.5 * height
    }
}
