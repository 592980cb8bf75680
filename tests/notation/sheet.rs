//! A drawing as an SVG file, to be looked at: ink on paper, and cream on the dark stage.

use std::fmt::Write;
use tailfirst::notation::{Drawing, Glyph, Ink, Shape, drawing::Form};

/// The colours of a theme, as the page has them.
#[derive(Clone, Copy)]
pub struct Theme {
    pub paper: &'static str,
    ink: &'static str,
    faint: &'static str,
    quiet: &'static str,
    accent: &'static str,
}

pub const LIGHT: Theme =
    Theme { paper: "#faf6ec", ink: "#1a1a1a", faint: "#8a8578", quiet: "#4a4740", accent: "#1f4470" };
pub const DARK: Theme =
    Theme { paper: "#0e1420", ink: "#f3ead6", faint: "#8b8a86", quiet: "#cfc6b2", accent: "#a9c8f0" };

impl Theme {
    fn of(self, shape: &Shape) -> &'static str {
        match (shape.ink, &shape.form) {
            (Ink::Full | Ink::Resting, _) => self.ink,
            (Ink::Faint, Form::Text { .. }) => self.quiet,
            (Ink::Faint, _) => self.faint,
            (Ink::Accent, _) => self.accent,
        }
    }
}

/// The drawing as the text of an SVG file.
pub fn svg(drawing: &Drawing, theme: Theme) -> String {
    let Drawing { width, height, shapes } = drawing;
    let mut svg = format!(r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}">"#);
    let _ = write!(svg, r#"<rect width="100%" height="100%" fill="{}"/>"#, theme.paper);
    shapes.iter().for_each(|shape| svg.push_str(&element(shape, theme)));
    svg + "</svg>"
}

/// Filled, or of a resting hand a thin outline, so wide in its own units.
fn filled(shape: &Shape, theme: Theme, outline: f32) -> String {
    let colour = theme.of(shape);
    match shape.ink {
        Ink::Resting => format!(r#"fill="{}" stroke="{colour}" stroke-width="{outline}""#, theme.paper),
        _ => format!(r#"fill="{colour}""#),
    }
}

fn element(shape: &Shape, theme: Theme) -> String {
    let colour = theme.of(shape);
    match &shape.form {
        Form::Line { from, to, width } => format!(
            r#"<line x1="{}" y1="{}" x2="{}" y2="{}" stroke="{colour}" stroke-width="{width}" stroke-linecap="round"/>"#,
            from.0, from.1, to.0, to.1
        ),
        Form::Glyph { at, glyph, space } => {
            let scale = space / Glyph::UNITS;
            let (x, y, outline) = (at.0, at.1, glyph.outline());
            let style = filled(shape, theme, 0.05 * space / scale);
            format!(r#"<path transform="translate({x} {y}) scale({scale})" d="{outline}" {style}/>"#)
        }
        Form::Curve { ends: [from, to], outer, inner } => {
            let at = |(x, y): (f32, f32)| format!("{x} {y}");
            let there = format!("M{} C{} {} {}", at(*from), at(outer[0]), at(outer[1]), at(*to));
            let back = format!("C{} {} {}Z", at(inner[1]), at(inner[0]), at(*from));
            format!(r#"<path d="{there} {back}" {}/>"#, filled(shape, theme, 0.8))
        }
        Form::Ellipse { centre, radii, hollow } => {
            let fill = if *hollow { theme.paper } else { colour };
            format!(
                r#"<ellipse cx="{}" cy="{}" rx="{}" ry="{}" fill="{fill}" stroke="{colour}" stroke-width="2.5"/>"#,
                centre.0, centre.1, radii.0, radii.1
            )
        }
        Form::Polygon { points } => {
            let points: Vec<String> = points.iter().map(|(x, y)| format!("{x},{y}")).collect();
            format!(r#"<polygon points="{}" {}/>"#, points.join(" "), filled(shape, theme, 0.8))
        }
        Form::Text { at, size, italic, text } => {
            let style = if *italic { "italic 700" } else { "600" };
            let family = if *italic { "Georgia, serif" } else { "system-ui, sans-serif" };
            format!(
                r#"<text x="{}" y="{}" style="font: {style} {size}px {family}" fill="{colour}" text-anchor="middle">{text}</text>"#,
                at.0,
                at.1 + 0.36 * size
            )
        }
    }
}
