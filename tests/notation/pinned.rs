//! What is drawn, pinned: every mark of a sheet as a line of text, so that a slur that changes its side or a dynamic mark
//! that moves can be read in a difference. `WRITE=pinned cargo test --test notation` writes the texts anew.

use std::{fmt::Write, path::Path};
use tailfirst::notation::{Shape, drawing::Form, engraving::Sheet};

/// Fails where the sheet is not what is pinned under the name.
pub fn pin(name: &str, sheet: &Sheet) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/notation/pinned/{name}.txt"));
    let drawn = marks(sheet);
    if std::env::var_os("WRITE").is_some_and(|what| what == "pinned") {
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        return std::fs::write(&path, &drawn).expect("written");
    }
    let pinned = std::fs::read_to_string(&path).unwrap_or_default();
    let difference = difference(&pinned, &drawn);
    assert!(difference.is_empty(), "{name} is drawn otherwise than pinned:\n{difference}");
}

/// The lines that only one of two texts has, those of the first with a minus.
fn difference(pinned: &str, drawn: &str) -> String {
    let only = |sign: char, one: &str, other: &str| {
        let mut left: Vec<&str> = other.lines().collect();
        let lacks = |line: &&str| left.iter().position(|of| of == line).map(|index| left.swap_remove(index)).is_none();
        one.lines().filter(lacks).map(|line| format!("{sign} {line}\n")).collect::<String>()
    };
    only('-', pinned, drawn) + &only('+', drawn, pinned)
}

/// The marks from left to right, in staff spaces from the sheet's corner.
fn marks(sheet: &Sheet) -> String {
    let mut lines: Vec<(f32, String)> = sheet.drawing.shapes.iter().map(|shape| mark(shape, sheet.space)).collect();
    lines.sort_by(|a, b| (rounded(a.0), &a.1).partial_cmp(&(rounded(b.0), &b.1)).expect("numbers"));
    lines.into_iter().fold(String::new(), |text, (_, line)| text + &line + "\n")
}

/// To a twentieth of a staff space.
fn rounded(spaces: f32) -> f32 {
    (20.0 * spaces).round() / 20.0 + 0.0
}

/// A mark's place from left to right, and its line.
fn mark(shape: &Shape, space: f32) -> (f32, String) {
    let at = |(x, y): (f32, f32)| format!("{:.2},{:.2}", rounded(x / space), rounded(y / space));
    let all = |points: &[(f32, f32)]| points.iter().map(|point| at(*point)).collect::<Vec<_>>().join(" ");
    let size = |length: f32| format!("{:.2}", rounded(length / space));
    let (x, form) = match &shape.form {
        Form::Line { from, to, width } => (from.0, format!("line {} thick {}", all(&[*from, *to]), size(*width))),
        Form::Ellipse { centre, radii, .. } => (centre.0, format!("ellipse {} {}", at(*centre), size(radii.0))),
        Form::Polygon { points } => (points[0].0, format!("polygon {}", all(points))),
        Form::Glyph { at: place, glyph, space } => (place.0, format!("{glyph:?} {} size {}", at(*place), size(*space))),
        Form::Curve { ends, outer, .. } => (ends[0].0, format!("curve {} by {}", all(ends), all(outer))),
        Form::Text { at: place, size: of, italic, text } => {
            let kind = if *italic { "italic" } else { "text" };
            (place.0, format!("{kind} “{text}” {} size {}", at(*place), size(*of)))
        }
    };
    let mut line = format!("{:?} ", shape.ink).to_lowercase();
    let _ = write!(line, "{form}");
    (x / space, line)
}

#[test]
fn a_mark_that_moves_and_one_that_is_lost_are_told() {
    let told = difference("full HeadBlack 1.00,2.00\nfull line a\n", "full HeadBlack 1.05,2.00\nfull line a\n");
    assert_eq!(told, "- full HeadBlack 1.00,2.00\n+ full HeadBlack 1.05,2.00\n");
    assert_eq!(difference("a\na\n", "a\n"), "- a\n");
}
