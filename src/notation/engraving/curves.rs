//! The shape of ties and slurs: an arc from one point to another that goes round what is in its way.

use crate::notation::{
    drawing::{Form, Ink, Point},
    engraving::{
        metrics::{CURVE_MIDDLE, HAIR},
        pen::{Mark, Pen, covered, text_width},
    },
};

/// An arc, thickest in the middle.
#[derive(Clone, Copy, Debug)]
pub struct Arc {
    pub from: Point,
    /// To the right of `from`.
    pub to: Point,
    /// How far the middle stands off the line between the ends.
    pub height: f32,
    pub above: bool,
}

/// How high an arc is by its length, where nothing is in its way.
#[derive(Clone, Copy, Debug)]
pub struct ArcHeight {
    pub base: f32,
    /// What each space of its length adds.
    pub per_space: f32,
    pub least: f32,
    pub most: f32,
}

impl ArcHeight {
    pub fn at(self, length: f32) -> f32 {
        (self.base + self.per_space * length).clamp(self.least, self.most)
    }
}

/// Where the control points stand, as a part of the run: common practice, no source.
const SHOULDER: f32 = 0.3;
/// How much of its control points' height a cubic reaches.
const REACHED: f32 = 0.75;
/// Least distance from a curve to what it spans: common practice, no source.
const CLEAR: f32 = 0.25;
/// What lies within this part of the run from an end moves that end rather than the middle: chosen.
const END: f32 = 0.2;
/// Room over and under a curve: chosen.
const ROOM: f32 = 0.1;
/// From the middle of a text to its edges, as part of its size: half its height and a little more.
const TEXT_EDGE: f32 = 0.4;
/// Into how many pieces it is cut to take its room.
const PIECES: usize = 12;

/// What a cubic with these shoulders makes of a part of its run: how far it is off there, 1 in the middle. Its x is
/// 0.9 t + 0.3 t² - 0.2 t³ of the run, its height 4 t (1 - t).
fn bulge(part: f32) -> f32 {
    let mut t = part;
    for _ in 0..3 {
        let x = t * (0.9 + t * (0.3 - 0.2 * t));
        t -= (x - part) / (0.9 + t * (0.6 - 0.6 * t));
    }
    4.0 * t * (1.0 - t)
}

/// A point that an arc has to avoid: as a part of the run, how far the arc bulges there, and the y.
struct Obstacle {
    part: f32,
    bulge: f32,
    y: f32,
}

impl Arc {
    fn toward(&self) -> f32 {
        if self.above { -1.0 } else { 1.0 }
    }

    fn run(&self) -> f32 {
        (self.to.0 - self.from.0).max(HAIR)
    }

    /// The point at a part of the run.
    pub fn at(&self, part: f32) -> Point {
        let y = self.from.1 + part * (self.to.1 - self.from.1) + self.toward() * self.height * bulge(part);
        (self.from.0 + part * (self.to.0 - self.from.0), y)
    }

    /// The arc with the smallest change that clears all these points: near an end that end moves away, elsewhere the
    /// arc rises up to `most`, and stands further off beyond.
    pub fn cleared(mut self, points: &[Point], most: f32) -> Arc {
        let toward = self.toward();
        let obstacle = |(x, y): &Point| {
            let part = (x - self.from.0) / self.run();
            (0.0..=1.0).contains(&part).then(|| {
                let bulge = bulge(part);
                Obstacle { part, bulge, y: y + toward * (CLEAR + CURVE_MIDDLE * bulge) }
            })
        };
        let obstacles: Vec<Obstacle> = points.iter().filter_map(obstacle).collect();
        for _ in 0..obstacles.len() {
            let lacks = obstacles.iter().map(|obstacle| (self.lacks(obstacle), obstacle));
            let Some((lack, worst)) = lacks.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|(lack, _)| *lack > HAIR) else {
                break;
            };
            self.give_way(worst, lack, most);
        }
        self
    }

    /// How much too near it is to an obstacle.
    fn lacks(&self, Obstacle { part, bulge, y }: &Obstacle) -> f32 {
        let line = self.from.1 + part * (self.to.1 - self.from.1);
        self.toward() * (y - line) - self.height * bulge
    }

    fn give_way(&mut self, obstacle: &Obstacle, lack: f32, most: f32) {
        let toward = self.toward();
        if obstacle.part < END {
            self.from.1 += toward * lack / (1.0 - obstacle.part);
        } else if obstacle.part > 1.0 - END {
            self.to.1 += toward * lack / obstacle.part;
        } else {
            let rise = (lack / obstacle.bulge).min((most - self.height).max(0.0));
            let left = lack - rise * obstacle.bulge;
            self.height += rise;
            self.from.1 += toward * left;
            self.to.1 += toward * left;
        }
    }

    /// Draws it, so thick in its middle, and takes its room.
    pub fn draw(&self, pen: &mut Pen, staff: usize, ink: Ink, thickness: f32) {
        let (toward, run) = (self.toward(), self.run());
        let at = |part: f32, height: f32| {
            (self.from.0 + part * run, self.from.1 + part * (self.to.1 - self.from.1) + toward * height)
        };
        let (outer, inner) = (self.height / REACHED, (self.height - thickness) / REACHED);
        let shoulders = |height: f32| [at(SHOULDER, height), at(1.0 - SHOULDER, height)];
        let form = Form::Curve { ends: [self.from, self.to], outer: shoulders(outer), inner: shoulders(inner) };
        pen.mark(staff, ink, form);
        let mut before = self.from;
        for piece in 1..=PIECES {
            let next = self.at(piece as f32 / PIECES as f32);
            pen.take(staff, [before.0, before.1.min(next.1) - ROOM, next.0, before.1.max(next.1) + ROOM]);
            before = next;
        }
    }
}

/// The points that a curve over (`above`) or under marks of a staff between two places has to avoid.
pub fn in_the_way(marks: &[Mark], staff: usize, (left, right): (f32, f32), above: bool) -> Vec<Point> {
    let mut points = Vec::new();
    let is_near = |mark: &&Mark| {
        let [from, to] = reach(&mark.form);
        mark.staff == staff && left < to && from < right
    };
    for mark in marks.iter().filter(is_near) {
        edge(&mark.form, above, &mut points);
    }
    points.retain(|(x, _)| left < *x && *x < right);
    points
}

/// From where to where a form can reach.
fn reach(form: &Form) -> [f32; 2] {
    match form {
        Form::Glyph { at, glyph, space } => {
            let [left, _, right, _] = glyph.extent();
            [at.0 + space * left, at.0 + space * right]
        }
        Form::Line { from, to, .. } => [from.0.min(to.0), from.0.max(to.0) + HAIR],
        Form::Polygon { points } => {
            points.iter().fold([f32::MAX, f32::MIN], |[left, right], (x, _)| [left.min(*x), right.max(*x)])
        }
        _ => [f32::MIN, f32::MAX],
    }
}

/// Points along the upper or lower edge of a form.
fn edge(form: &Form, above: bool, points: &mut Vec<Point>) {
    match form {
        Form::Glyph { at, glyph, space } => {
            let [left, top, right, bottom] = covered(*glyph, *at, *space);
            let y = if above { top } else { bottom };
            points.extend([(left, y), (0.5 * (left + right), y), (right, y)]);
        }
        Form::Line { from, to, .. } => along(*from, *to, points),
        Form::Polygon { points: corners } => {
            let next = corners.iter().skip(1).chain(corners.first());
            corners.iter().zip(next).for_each(|(from, to)| along(*from, *to, points));
        }
        Form::Text { at: (x, y), size, text, .. } => {
            let half = 0.5 * text_width(text, *size);
            let y = y + if above { -TEXT_EDGE } else { TEXT_EDGE } * size;
            along((x - half, y), (x + half, y), points);
        }
        Form::Curve { ends, outer, .. } => {
            let middle = |a: Point, b: Point| (0.5 * (a.0 + b.0), (1.0 - REACHED) * a.1 + REACHED * b.1);
            points.extend([middle(ends[0], outer[0]), middle(ends[1], outer[1])]);
        }
        Form::Ellipse { .. } => {}
    }
}

/// Points no further apart than a space.
fn along(from: Point, to: Point, points: &mut Vec<Point>) {
    let pieces = (to.0 - from.0).abs().ceil().clamp(1.0, 100.0);
    points.extend((0..=pieces as usize).map(|nth| {
        let part = nth as f32 / pieces;
        (from.0 + part * (to.0 - from.0), from.1 + part * (to.1 - from.1))
    }));
}
