//! What a drawing is made of: a handful of shapes in px, so that what draws music and what shows it are independent of
//! each other.

use crate::notation::glyph::Glyph;

/// How strongly a shape is inked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// What is to be played.
    Full,
    /// What surrounds it: legible, not insistent.
    Faint,
    /// Signs about the playing: the goal, the entry.
    Accent,
    /// What another hand plays meanwhile: small and faint.
    Resting,
}

/// A point: x to the right, y downward, in px.
pub type Point = (f32, f32);

/// The forms a shape can have.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A straight line with square ends.
    Line {
        /// Where it begins.
        from: Point,
        /// Where it ends.
        to: Point,
        /// In px.
        width: f32,
    },
    /// An ellipse with upright axes.
    Ellipse {
        /// Its middle.
        centre: Point,
        /// Half its width and half its height.
        radii: Point,
        /// Whether only its outline is drawn.
        hollow: bool,
    },
    /// A filled polygon.
    Polygon {
        /// Its corners, in order.
        points: Vec<Point>,
    },
    /// A shape of music with its origin at `at`, a staff space being `space` px: the outline is drawn
    /// `space / Glyph::UNITS` times as large.
    Glyph {
        /// Its origin.
        at: Point,
        /// Which outline.
        glyph: Glyph,
        /// Px of a staff space.
        space: f32,
    },
    /// The area between two cubic curves with the same ends, each with its two control points from the first end to the
    /// second.
    Curve {
        /// Where both curves begin and end.
        ends: [Point; 2],
        /// Control points of the curve that lies further from the notes.
        outer: [Point; 2],
        /// Control points of the other curve.
        inner: [Point; 2],
    },
    /// Centred on its point.
    Text {
        /// Its middle.
        at: Point,
        /// Height of the font, in px.
        size: f32,
        /// Whether it is slanted.
        italic: bool,
        /// One line.
        text: String,
    },
}

impl Form {
    /// The form `scale` times as large around the origin, then moved.
    pub fn placed(&self, scale: f32, (dx, dy): Point) -> Form {
        let at = |(x, y): Point| (scale * x + dx, scale * y + dy);
        let both = |points: &[Point; 2]| points.map(at);
        match self {
            Form::Line { from, to, width } => Form::Line { from: at(*from), to: at(*to), width: scale * width },
            Form::Ellipse { centre, radii, hollow } => {
                Form::Ellipse { centre: at(*centre), radii: (scale * radii.0, scale * radii.1), hollow: *hollow }
            }
            Form::Polygon { points } => Form::Polygon { points: points.iter().copied().map(at).collect() },
            Form::Glyph { at: origin, glyph, space } => {
                Form::Glyph { at: at(*origin), glyph: *glyph, space: scale * space }
            }
            Form::Curve { ends, outer, inner } => {
                Form::Curve { ends: both(ends), outer: both(outer), inner: both(inner) }
            }
            Form::Text { at: middle, size, italic, text } => {
                Form::Text { at: at(*middle), size: scale * size, italic: *italic, text: text.clone() }
            }
        }
    }
}

/// A form in an ink.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// What is drawn.
    pub form: Form,
    /// How strongly.
    pub ink: Ink,
}

/// Shapes on a sheet of `width` × `height` px.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// In px.
    pub width: f32,
    /// In px.
    pub height: f32,
    /// In the order in which they are drawn.
    pub shapes: Vec<Shape>,
}

impl Drawing {
    /// An empty sheet.
    pub fn new(width: f32, height: f32) -> Self {
        Drawing { width, height, shapes: Vec::new() }
    }
}
