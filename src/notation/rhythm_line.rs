//! The rhythm line: a lane for each hand, the present span large and in full ink, the goal under a
//! roof.
//!
//! Times run to the right; what begins together stands together. A hand that rests in this step is
//! hollow. Refuses to know pitches.

use super::{
    drawing::{Drawing, Ink, Point},
    rows::{Heights, Rows, attack},
    spacing::{Spaced, Spacing, System},
};
use crate::{
    method::{Snippet, Step},
    music::{Hand, Onset, Quarters, passage::Articulation},
    pulse::beats::Grid,
};

/// Radii of a notehead that is played now, and of one around it, in px at scale 1.
const HEAD: Point = (14.0, 10.5);
const HEAD_AROUND: Point = (9.5, 7.0);
/// Text is at least 24 px: about 22 arcminutes at 60 cm for a digit (ISO 9241-3, quoted by
/// NUREG-0700: 20 to 22 are preferred). Bar numbers do not grow with the rest.
const TEXT: f32 = 25.0;
const BAR_NUMBER: f32 = 24.0;
/// Longest bar number that is written out, in characters.
const LONGEST_NUMBER: usize = 4;
/// Widest that a character of text is, as part of its size: common practice, no source.
const CHARACTER: f32 = 0.62;
/// Half the width of the roof, in px at scale 1.
const EAVES: f32 = 24.0;

/// Where an onset stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Index in the snippet.
    pub onset: usize,
    pub x: f32,
    /// The system in which it stands reaches from `top` to `bottom`.
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
    /// Lays out `step` of `snippet` on `width` × `height` px. The span is drawn as large as it can be,
    /// with a few onsets around it; on several systems where one is too short for it; and squeezed
    /// rather than cut.
    pub fn new(snippet: &Snippet, step: Step, width: f32, height: f32) -> RhythmLine {
        let passage = snippet.passage();
        let rows = Rows::of(passage);
        let reach = |onset: usize, signs: bool| reach(snippet, step, onset, signs);
        let spacing = Spacing { passage, span: step.span, beat: snippet.tempo().beat.quarters(), reach: &reach };
        let spaced = spacing.lay_out(width, height, rows.least());
        let mut line = RhythmLine { drawing: Drawing::new(width, height), places: Vec::new() };
        let each = height / spaced.systems.len() as f32;
        for (index, system) in spaced.systems.iter().enumerate() {
            let heights = rows.heights(each * index as f32, each * (index + 1) as f32, spaced.scale);
            Row { snippet, step, rows: &rows, spaced: &spaced, system, heights }.draw(&mut line);
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
            let outside = (y - place.bottom).max(place.top - y).max(0.0);
            (outside, (place.x - x).abs())
        };
        let nearer = |a: &&Place, b: &&Place| {
            let (a, b) = (off(a), off(b));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        };
        self.places.iter().min_by(nearer).map(|place| place.onset)
    }
}

/// How far what is drawn at an onset reaches to either side, in px at scale 1.
fn reach(snippet: &Snippet, step: Step, index: usize, signs: bool) -> f32 {
    let onset = &snippet.passage().onsets()[index];
    let roof = if signs && (index == snippet.goal() || index == step.span.last()) { EAVES } else { 0.0 };
    if !step.span.contains(index) {
        return roof.max(HEAD_AROUND.0);
    }
    let hands = [Hand::Left, Hand::Right, Hand::Line].into_iter().filter(|hand| step.hands.include(*hand));
    let fingers = hands.map(|hand| half_width(&fingering(onset, hand), TEXT)).fold(0.0, f32::max);
    let dynamic = onset.dynamic.as_deref().map_or(0.0, |mark| half_width(mark, TEXT));
    if signs { roof.max(fingers).max(dynamic).max(HEAD.0) } else { HEAD.0 }
}

/// Half of what a text takes at most.
fn half_width(text: &str, size: f32) -> f32 {
    0.5 * CHARACTER * size * text.chars().count() as f32
}

/// What one hand's fingers are at an onset, lowest note first as they are listed.
fn fingering(onset: &Onset, hand: Hand) -> String {
    let notes = onset.notes.iter().filter(|note| note.hand == hand);
    notes.filter_map(|note| note.fingering.as_deref()).collect::<Vec<_>>().join(" ")
}

/// One system being drawn.
struct Row<'a> {
    snippet: &'a Snippet,
    step: Step,
    rows: &'a Rows,
    spaced: &'a Spaced,
    system: &'a System,
    heights: Heights,
}

impl Row<'_> {
    fn draw(&self, line: &mut RhythmLine) {
        self.lanes(&mut line.drawing);
        self.bars(&mut line.drawing);
        self.beats(&mut line.drawing);
        for (index, x) in self.system.onsets().zip(&self.system.xs) {
            self.onset(&mut line.drawing, index, *x);
            line.places.push(Place { onset: index, x: *x, top: self.heights.top, bottom: self.heights.bottom });
        }
    }

    fn onsets(&self) -> &[Onset] {
        self.snippet.passage().onsets()
    }

    /// A length at scale 1 as it is drawn.
    fn px(&self, length: f32) -> f32 {
        self.spaced.scale * length
    }

    fn lanes(&self, drawing: &mut Drawing) {
        let margin = self.px(12.0);
        for y in &self.heights.lanes[..self.rows.lanes.len().min(2)] {
            drawing.line(Ink::Faint, (margin, *y), (drawing.width - margin, *y), 1.5);
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

    /// Bar lines stand before what begins the bar; their numbers stand under them.
    fn bars(&self, drawing: &mut Drawing) {
        let [upper, lower] = self.heights.lanes;
        let size = BAR_NUMBER * self.spaced.scale.min(1.0);
        let mut free = 0.0;
        for bar in self.snippet.passage().bars() {
            let Some(x) = self.x_at(bar.start) else { continue };
            let x = x - self.px(self.spaced.squeeze * (HEAD.0 + 9.0));
            drawing.line(Ink::Faint, (x, upper - self.px(18.0)), (x, lower + self.px(18.0)), self.px(2.0));
            let number: String = bar.number.chars().take(LONGEST_NUMBER).collect();
            let half_width = half_width(&number, size);
            let middle = x.max(half_width);
            if middle - half_width >= free {
                drawing.label(Ink::Faint, (middle, self.heights.ruler), size, number);
                free = middle + half_width + self.px(8.0);
            }
        }
    }

    /// A short stroke under each beat, none where they would run together.
    fn beats(&self, drawing: &mut Drawing) {
        let range = self.system.onsets();
        let (first, last) = (self.onsets()[range.start].at, self.onsets()[range.end - 1].at);
        let grid = Grid::new(self.snippet.passage(), self.snippet.tempo().beat);
        let beats = grid.beats(grid.bar_origin(first), first, last, grid.bar_end(last));
        let y = self.heights.ruler;
        let mut free = f32::MIN;
        for x in beats.into_iter().filter_map(|beat| self.x_at(beat.at)) {
            if x >= free {
                drawing.line(Ink::Faint, (x, y - self.px(5.0)), (x, y + self.px(5.0)), self.px(2.0));
                free = x + self.px(10.0);
            }
        }
    }

    fn onset(&self, drawing: &mut Drawing, index: usize, x: f32) {
        let onset = &self.onsets()[index];
        let now = self.step.span.contains(index);
        self.stem(drawing, onset, x, now);
        for hand in [Hand::Right, Hand::Left, Hand::Line] {
            if onset.plays(hand) {
                self.head(drawing, hand, x, now);
            }
        }
        if now && self.spaced.signs {
            self.signs(drawing, onset, x);
        }
        let (first, last) = (self.step.span.first(), self.step.span.last());
        if index == self.snippet.goal() {
            self.roof(drawing, x, 5.0);
        } else if index == last {
            self.roof(drawing, x, 2.0);
        }
        if index == first && first != last {
            self.entry(drawing, x);
        }
    }

    /// What joins the hands that begin together.
    fn stem(&self, drawing: &mut Drawing, onset: &Onset, x: f32, now: bool) {
        let both = [Hand::Left, Hand::Right].into_iter().all(|hand| onset.plays(hand) && (self.plays(hand) || !now));
        let [upper, lower] = self.heights.lanes;
        if onset.plays(Hand::Left) && onset.plays(Hand::Right) {
            let (ink, width) = if now && both { (Ink::Full, 3.0) } else { (Ink::Faint, 1.5) };
            drawing.line(ink, (x, upper), (x, lower), self.px(width * self.spaced.squeeze));
        }
    }

    /// Whether a hand plays in this step.
    fn plays(&self, hand: Hand) -> bool {
        self.step.hands.include(hand)
    }

    fn head(&self, drawing: &mut Drawing, hand: Hand, x: f32, now: bool) {
        let (ink, radii) = if now { (Ink::Full, HEAD) } else { (Ink::Faint, HEAD_AROUND) };
        let radii = (self.px(radii.0 * self.spaced.squeeze), self.px(radii.1 * self.spaced.squeeze));
        let y = self.heights.lanes[self.rows.lane(hand)];
        drawing.ellipse(ink, (x, y), radii, now && !self.plays(hand));
    }

    /// What is written to the notes that are played, each hand's on its own side.
    fn signs(&self, drawing: &mut Drawing, onset: &Onset, x: f32) {
        for hand in [Hand::Right, Hand::Left, Hand::Line].into_iter().filter(|hand| self.plays(*hand)) {
            let lane = self.rows.lane(hand);
            let fingers = fingering(onset, hand);
            if !fingers.is_empty() {
                drawing.label(Ink::Full, (x, self.heights.fingers[lane]), self.px(TEXT), fingers);
            }
            let notes = onset.notes.iter().filter(|note| note.hand == hand);
            if let Some(sign) = notes.filter_map(attack).next() {
                self.attack(drawing, sign, (x, self.heights.signs[lane]));
            }
        }
        if let Some(dynamic) = &onset.dynamic {
            drawing.italic(Ink::Full, (x, self.heights.dynamics), self.px(TEXT), dynamic.clone());
        }
    }

    fn attack(&self, drawing: &mut Drawing, sign: Articulation, (x, y): Point) {
        let at = |dx: f32, dy: f32| (x + self.px(dx), y + self.px(dy));
        let mut stroke = |from, to| drawing.line(Ink::Full, from, to, self.px(2.5));
        match sign {
            Articulation::Accent => {
                stroke(at(-9.0, -4.5), at(9.0, 0.0));
                stroke(at(-9.0, 4.5), at(9.0, 0.0));
            }
            Articulation::StrongAccent => {
                stroke(at(-5.0, 6.0), at(0.0, -6.0));
                stroke(at(0.0, -6.0), at(5.0, 6.0));
            }
            Articulation::Tenuto => stroke(at(-9.0, 0.0), at(9.0, 0.0)),
            _ => drawing.ellipse(Ink::Full, (x, y), (self.px(3.0), self.px(3.0)), false),
        }
    }

    /// Where the count-in hands over to the player.
    fn entry(&self, drawing: &mut Drawing, x: f32) {
        let y = self.heights.crown;
        let at = |dx: f32, dy: f32| (x + self.px(dx), y + self.px(dy));
        drawing.polygon(Ink::Accent, vec![at(-8.0, -9.0), at(8.0, 0.0), at(-8.0, 9.0)]);
    }

    /// The roof over the goal; a thin one over what a narrowed task arrives at.
    fn roof(&self, drawing: &mut Drawing, x: f32, width: f32) {
        let y = self.heights.crown;
        let at = |dx: f32, dy: f32| (x + self.px(dx), y + self.px(dy));
        let points = [at(-EAVES, 10.0), at(-EAVES, 4.0), at(0.0, -10.0), at(EAVES, 4.0), at(EAVES, 10.0)];
        for ends in points.windows(2) {
            drawing.line(Ink::Accent, ends[0], ends[1], self.px(width));
        }
    }
}
