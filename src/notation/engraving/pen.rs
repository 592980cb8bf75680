//! What has been drawn of a system so far, in staff spaces, and how far up and down it reaches.
//!
//! Each mark belongs to a staff: y is counted downward from that staff's top line, so that staves can be moved apart
//! when all is drawn.

use crate::notation::{
    drawing::{Form, Ink, Point},
    engraving::metrics::{CHARACTER, STAFF, TEXT_HEIGHT},
    glyph::Glyph,
};

/// A rectangle: left, top, right, bottom.
pub type Bounds = [f32; 4];

/// Whether two rectangles share more than an edge.
pub fn meet(a: &Bounds, b: &Bounds) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

#[derive(Clone, Debug)]
pub struct Mark {
    pub staff: usize,
    pub ink: Ink,
    pub form: Form,
}

/// Width of a column of the skyline: chosen.
const GRAIN: f32 = 0.25;

/// How far what belongs to a staff reaches, column by column.
#[derive(Clone, Debug)]
pub struct Skyline {
    /// Smallest y: upward.
    pub top: Vec<f32>,
    pub bottom: Vec<f32>,
}

impl Skyline {
    fn new(width: f32) -> Self {
        let columns = (width.max(0.0) / GRAIN) as usize + 2;
        Skyline { top: vec![0.0; columns], bottom: vec![STAFF; columns] }
    }

    fn columns(&self, left: f32, right: f32) -> std::ops::Range<usize> {
        let last = self.top.len() - 1;
        let of = |x: f32| ((x.max(0.0) / GRAIN) as usize).min(last);
        of(left)..of(right.max(left)) + 1
    }

    fn take(&mut self, [left, top, right, bottom]: Bounds) {
        let columns = self.columns(left, right);
        self.top[columns.clone()].iter_mut().filter(|edge| top < **edge).for_each(|edge| *edge = top);
        self.bottom[columns].iter_mut().filter(|edge| bottom > **edge).for_each(|edge| *edge = bottom);
    }

    /// The smallest y taken between two places.
    pub fn above(&self, left: f32, right: f32) -> f32 {
        self.top[self.columns(left, right)].iter().copied().fold(f32::MAX, f32::min)
    }

    /// The largest y taken between two places.
    pub fn below(&self, left: f32, right: f32) -> f32 {
        self.bottom[self.columns(left, right)].iter().copied().fold(f32::MIN, f32::max)
    }
}

#[derive(Clone, Debug)]
pub struct Pen {
    pub marks: Vec<Mark>,
    pub skylines: Vec<Skyline>,
}

impl Pen {
    pub fn new(staves: usize, width: f32) -> Self {
        Pen { marks: Vec::new(), skylines: vec![Skyline::new(width); staves] }
    }

    /// Keeps what comes later off a rectangle.
    pub fn take(&mut self, staff: usize, taken: Bounds) {
        self.skylines[staff].take(taken);
    }

    pub fn mark(&mut self, staff: usize, ink: Ink, form: Form) {
        self.marks.push(Mark { staff, ink, form });
    }

    pub fn line(&mut self, staff: usize, ink: Ink, from: Point, to: Point, width: f32) {
        self.mark(staff, ink, Form::Line { from, to, width });
    }

    pub fn polygon(&mut self, staff: usize, ink: Ink, points: Vec<Point>) {
        self.mark(staff, ink, Form::Polygon { points });
    }

    /// A glyph, and what it covers taken.
    pub fn glyph(&mut self, staff: usize, ink: Ink, glyph: Glyph, at: Point, scale: f32) {
        self.mark(staff, ink, Form::Glyph { at, glyph, space: scale });
        self.take(staff, covered(glyph, at, scale));
    }

    /// A text centred on a point, and what it covers taken.
    pub fn text(&mut self, staff: usize, ink: Ink, at: Point, size: f32, italic: bool, text: String) {
        let (half, height) = (0.5 * text_width(&text, size), 0.5 * TEXT_HEIGHT * size);
        self.take(staff, [at.0 - half, at.1 - height, at.0 + half, at.1 + height]);
        self.mark(staff, ink, Form::Text { at, size, italic, text });
    }
}

/// What a glyph covers.
pub fn covered(glyph: Glyph, (x, y): Point, scale: f32) -> Bounds {
    let [left, top, right, bottom] = glyph.extent();
    [x + scale * left, y + scale * top, x + scale * right, y + scale * bottom]
}

/// The widest that a text can be.
pub fn text_width(text: &str, size: f32) -> f32 {
    CHARACTER * size * text.chars().count() as f32
}
