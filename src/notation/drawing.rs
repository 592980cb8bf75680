//! What a drawing is made of: a handful of shapes in px, so that whatever draws music and whatever
//! shows it need to know nothing of each other.

/// How strongly a shape is inked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// What is to be played.
    Full,
    /// What surrounds it: legible, not insistent.
    Faint,
    /// Signs about the playing: the goal, the entry.
    Accent,
}

/// A point: x to the right, y downward, in px.
pub type Point = (f32, f32);

/// The forms a shape can have.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    Line {
        from: Point,
        to: Point,
        width: f32,
    },
    Ellipse {
        centre: Point,
        radii: Point,
        hollow: bool,
    },
    Polygon {
        points: Vec<Point>,
    },
    /// Centred on its point.
    Text {
        at: Point,
        size: f32,
        italic: bool,
        text: String,
    },
}

/// A form in an ink.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    pub form: Form,
    pub ink: Ink,
}

/// Shapes on a sheet of `width` × `height` px.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    pub width: f32,
    pub height: f32,
    pub shapes: Vec<Shape>,
}

impl Drawing {
    /// An empty sheet.
    pub fn new(width: f32, height: f32) -> Self {
        Drawing { width, height, shapes: Vec::new() }
    }

    pub fn line(&mut self, ink: Ink, from: Point, to: Point, width: f32) {
        self.shapes.push(Shape { form: Form::Line { from, to, width }, ink });
    }

    pub fn ellipse(&mut self, ink: Ink, centre: Point, radii: Point, hollow: bool) {
        self.shapes.push(Shape { form: Form::Ellipse { centre, radii, hollow }, ink });
    }

    pub fn polygon(&mut self, ink: Ink, points: Vec<Point>) {
        self.shapes.push(Shape { form: Form::Polygon { points }, ink });
    }

    /// Upright text centred on a point.
    pub fn label(&mut self, ink: Ink, at: Point, size: f32, text: impl Into<String>) {
        let form = Form::Text { at, size, italic: false, text: text.into() };
        self.shapes.push(Shape { form, ink });
    }

    /// Slanted text centred on a point, as dynamic marks are written.
    pub fn italic(&mut self, ink: Ink, at: Point, size: f32, text: impl Into<String>) {
        let form = Form::Text { at, size, italic: true, text: text.into() };
        self.shapes.push(Shape { form, ink });
    }
}
