//! The rhythm line: a lane for each hand, the present span large and in full ink, the goal under a
//! roof.
//!
//! Times run to the right; what begins together stands together. A hand that rests in this step is
//! hollow. Refuses to know pitches beyond their names.

use super::{
    drawing::{Anchor, Drawing, Ink, Point},
    spacing::{MARGIN, System, systems},
};
use crate::{
    method::{Snippet, Step},
    music::{Hand, Note, Onset, Quarters, passage::Articulation},
};

/// Half the distance of the two lanes, in px.
const LANE: f32 = 56.0;
/// Least height of a system, in px.
pub const SYSTEM: f32 = 274.0;
/// Radii of a notehead that is played now, and of one around it.
const HEAD: Point = (14.0, 10.5);
const HEAD_AROUND: Point = (10.0, 7.5);
/// Text is at least 24 px: about 22 arcminutes at 60 cm for a digit (ISO 9241-3, quoted by
/// NUREG-0700: 20 to 22 are preferred).
const TEXT: f32 = 26.0;
const TEXT_AROUND: f32 = 24.0;

/// Where an onset stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Index in the snippet.
    pub onset: usize,
    pub x: f32,
    pub top: f32,
    pub bottom: f32,
}

/// The rhythm line of a snippet with the present step in it.
#[derive(Clone, Debug, PartialEq)]
pub struct RhythmLine {
    pub drawing: Drawing,
    /// Left to right, system by system.
    pub places: Vec<Place>,
}

impl RhythmLine {
    /// Lays out `step` of `snippet` on `width` × `height` px.
    pub fn new(snippet: &Snippet, step: Step, width: f32, height: f32) -> RhythmLine {
        let onsets = snippet.passage().onsets();
        let most = (height / SYSTEM).floor().max(1.0) as usize;
        let beat = snippet.tempo().beat.quarters();
        let systems = systems(onsets, step.span, beat, width, most);
        let mut line = RhythmLine { drawing: Drawing::new(width, height), places: Vec::new() };
        let each = height / systems.len() as f32;
        for (row, system) in systems.iter().enumerate() {
            let middle = each * (row as f32 + 0.5);
            Row { snippet, step, system, middle, width }.draw(&mut line);
        }
        line
    }

    /// Where the onset stands, if it is shown.
    pub fn place(&self, onset: usize) -> Option<Place> {
        self.places.iter().copied().find(|place| place.onset == onset)
    }

    /// The onset that a tap at `x`, `y` means: the nearest in the system that was tapped.
    pub fn onset_at(&self, x: f32, y: f32) -> Option<usize> {
        let off = |place: &&Place| {
            let below = (y - place.bottom).max(place.top - y).max(0.0);
            1_000.0 * below + (place.x - x).abs()
        };
        self.places.iter().min_by(|a, b| off(a).total_cmp(&off(b))).map(|place| place.onset)
    }
}

/// One system being drawn.
struct Row<'a> {
    snippet: &'a Snippet,
    step: Step,
    system: &'a System,
    middle: f32,
    width: f32,
}

impl Row<'_> {
    fn draw(&self, line: &mut RhythmLine) {
        self.lanes(&mut line.drawing);
        self.bars_and_beats(&mut line.drawing);
        for (index, x) in self.system.onsets().zip(&self.system.xs) {
            self.onset(&mut line.drawing, index, *x);
            let (top, bottom) = (self.middle - 2.0 * LANE, self.middle + 2.0 * LANE);
            line.places.push(Place { onset: index, x: *x, top, bottom });
        }
    }

    fn onsets(&self) -> &[Onset] {
        self.snippet.passage().onsets()
    }

    /// The height of a hand's lane.
    fn lane(&self, hand: Hand) -> f32 {
        match hand {
            Hand::Right => self.middle - LANE,
            Hand::Left => self.middle + LANE,
            Hand::Line => self.middle,
        }
    }

    /// The lanes that the snippet has.
    fn hands(&self) -> impl Iterator<Item = Hand> {
        let plays = |hand: &Hand| self.onsets().iter().any(|onset| onset.plays(*hand));
        [Hand::Right, Hand::Left, Hand::Line].into_iter().filter(plays)
    }

    fn lanes(&self, drawing: &mut Drawing) {
        for hand in self.hands() {
            let y = self.lane(hand);
            drawing.line(Ink::Faint, (0.5 * MARGIN, y), (self.width - 0.5 * MARGIN, y), 1.5);
        }
    }

    /// Where a moment between two onsets of this system lies; `None` outside.
    fn x_at(&self, at: Quarters) -> Option<f32> {
        let onsets = &self.onsets()[self.system.onsets()];
        let after = onsets.partition_point(|onset| onset.at <= at);
        let (before, next) = (onsets.get(after.checked_sub(1)?)?, onsets.get(after));
        let x = self.system.xs[after - 1];
        let Some(next) = next else { return (before.at == at).then_some(x) };
        let part = (at - before.at) / (next.at - before.at);
        Some(x + (self.system.xs[after] - x) * *part.numer() as f32 / *part.denom() as f32)
    }

    fn bars_and_beats(&self, drawing: &mut Drawing) {
        let (top, bottom) = (self.middle - LANE - 30.0, self.middle + LANE + 30.0);
        let beat = self.snippet.tempo().beat.quarters();
        for bar in self.snippet.passage().bars() {
            if let Some(x) = self.x_at(bar.start) {
                // The line stands before what begins the bar.
                let x = x - HEAD.0 - 8.0;
                drawing.line(Ink::Faint, (x, top), (x, bottom), 2.0);
                drawing.text(Ink::Faint, (x + 5.0, top - 4.0), TEXT_AROUND, Anchor::Start, false, bar.number.clone());
            }
            let end = bar.start + bar.length;
            let mut at = bar.start;
            while at < end {
                if let Some(x) = self.x_at(at) {
                    drawing.line(Ink::Faint, (x, self.middle - 7.0), (x, self.middle + 7.0), 2.0);
                }
                at += beat;
            }
        }
    }

    fn onset(&self, drawing: &mut Drawing, index: usize, x: f32) {
        let onset = &self.onsets()[index];
        let now = self.step.span.contains(index);
        let ink = if now { Ink::Full } else { Ink::Faint };
        if onset.plays(Hand::Left) && onset.plays(Hand::Right) {
            drawing.line(ink, (x, self.lane(Hand::Right)), (x, self.lane(Hand::Left)), if now { 3.0 } else { 1.5 });
        }
        for hand in [Hand::Right, Hand::Left, Hand::Line] {
            let notes: Vec<&Note> = onset.notes.iter().filter(|note| note.hand == hand).collect();
            if !notes.is_empty() {
                self.heads(drawing, hand, &notes, x, now);
            }
        }
        if now {
            self.signs(drawing, index, onset, x);
        }
        if index == self.snippet.goal() {
            self.roof(drawing, x);
        }
    }

    /// The notehead of one hand, and what is written to it.
    fn heads(&self, drawing: &mut Drawing, hand: Hand, notes: &[&Note], x: f32, now: bool) {
        let (ink, radii) = if now { (Ink::Full, HEAD) } else { (Ink::Faint, HEAD_AROUND) };
        let y = self.lane(hand);
        let played = self.step.hands.include(hand);
        drawing.ellipse(ink, (x, y), radii, now && !played);
        if !now || !played {
            return;
        }
        // The right hand's signs stand above its lane, the left hand's below.
        let outward = if hand == Hand::Left { 1.0 } else { -1.0 };
        let fingers: Vec<&str> = notes.iter().filter_map(|note| note.fingering.as_deref()).collect();
        if !fingers.is_empty() {
            drawing.label(Ink::Full, (x, y + outward * 32.0), TEXT, fingers.join(" "));
        }
        let accent = |note: &&Note| {
            note.articulations.iter().any(|sign| matches!(sign, Articulation::Accent | Articulation::StrongAccent))
        };
        if notes.iter().any(accent) {
            let y = y - outward * 24.0;
            drawing.line(Ink::Full, (x - 10.0, y - 6.0), (x + 10.0, y), 2.5);
            drawing.line(Ink::Full, (x - 10.0, y + 6.0), (x + 10.0, y), 2.5);
        }
    }

    /// What is written to an onset as a whole.
    fn signs(&self, drawing: &mut Drawing, index: usize, onset: &Onset, x: f32) {
        let foot = self.middle + LANE + 62.0;
        if let Some(dynamic) = &onset.dynamic {
            drawing.text(Ink::Full, (x, foot), TEXT, Anchor::Middle, true, dynamic.clone());
        }
        if index == self.step.span.first() && self.step.span.count() > 1 {
            let y = self.middle - LANE - 62.0;
            drawing.polygon(Ink::Accent, vec![(x - 9.0, y - 10.0), (x + 9.0, y), (x - 9.0, y + 10.0)]);
        }
    }

    /// The roof over the goal.
    fn roof(&self, drawing: &mut Drawing, x: f32) {
        let eaves = self.middle - LANE - 54.0;
        let ridge = eaves - 22.0;
        drawing.line(Ink::Accent, (x - 26.0, eaves), (x, ridge), 5.0);
        drawing.line(Ink::Accent, (x, ridge), (x + 26.0, eaves), 5.0);
    }
}
