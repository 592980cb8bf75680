//! What the shapes of a sheet cover, and which are which.

use super::written::onsets;
use tailfirst::{
    music::Part,
    notation::{
        Drawing, Glyph, Ink, Shape,
        drawing::Form,
        engraving::{Focus, Layout, Room, Sheet},
    },
};

/// A rectangle: left, top, right, bottom.
pub type Bounds = [f32; 4];

/// What a shape covers, except for curves, which may cross others.
pub fn bounds(shape: &Shape) -> Bounds {
    let of = |points: &[(f32, f32)], more: f32| {
        points.iter().fold([f32::MAX, f32::MAX, f32::MIN, f32::MIN], |[left, top, right, bottom], (x, y)| {
            [left.min(x - more), top.min(y - more), right.max(x + more), bottom.max(y + more)]
        })
    };
    match &shape.form {
        Form::Line { from, to, width } => of(&[*from, *to], 0.5 * width),
        Form::Polygon { points } => of(points, 0.0),
        Form::Ellipse { centre: (x, y), radii, .. } => [x - radii.0, y - radii.1, x + radii.0, y + radii.1],
        Form::Glyph { at: (x, y), glyph, space } => {
            let [left, top, right, bottom] = glyph.extent();
            [x + space * left, y + space * top, x + space * right, y + space * bottom]
        }
        Form::Curve { ends, outer, .. } => {
            let middle = |a: (f32, f32), b: (f32, f32)| (0.25 * a.0 + 0.75 * b.0, 0.25 * a.1 + 0.75 * b.1);
            of(&[ends[0], ends[1], middle(ends[0], outer[0]), middle(ends[1], outer[1])], 0.0)
        }
        Form::Text { at: (x, y), size, text, .. } => {
            let half = 0.31 * size * text.chars().count() as f32;
            [x - half, y - 0.38 * size, x + half, y + 0.38 * size]
        }
    }
}

pub fn meet(a: &Bounds, b: &Bounds) -> bool {
    let more = 0.02;
    a[0] + more < b[2] && b[0] + more < a[2] && a[1] + more < b[3] && b[1] + more < a[3]
}

pub fn glyphs(sheet: &Sheet, wanted: impl Fn(Glyph) -> bool) -> Vec<Bounds> {
    let is_wanted = |shape: &&Shape| matches!(shape.form, Form::Glyph { glyph, .. } if wanted(glyph));
    sheet.drawing.shapes.iter().filter(is_wanted).map(bounds).collect()
}

pub fn is_head(glyph: Glyph) -> bool {
    matches!(glyph, Glyph::HeadBlack | Glyph::HeadHalf | Glyph::HeadWhole | Glyph::HeadBreve)
}

pub fn is_accidental(glyph: Glyph) -> bool {
    matches!(glyph, Glyph::Sharp | Glyph::Flat | Glyph::Natural | Glyph::DoubleSharp | Glyph::DoubleFlat)
}

pub fn is_rest(glyph: Glyph) -> bool {
    (Glyph::RestBreve..=Glyph::Rest32nd).contains(&glyph)
}

/// Beams and stems of what is in ink: quadrilaterals and upright lines of a stem's width.
pub fn beams(sheet: &Sheet) -> Vec<[(f32, f32); 4]> {
    let corners = |shape: &Shape| match &shape.form {
        Form::Polygon { points } if points.len() == 4 && shape.ink == Ink::Full => {
            Some([points[0], points[1], points[2], points[3]])
        }
        _ => None,
    };
    sheet.drawing.shapes.iter().filter_map(corners).collect()
}

pub fn stems(sheet: &Sheet) -> Vec<Bounds> {
    let is_stem = |shape: &&Shape| {
        let upright = matches!(shape.form, Form::Line { from, to, width } if from.0 == to.0 && (width / sheet.space - 0.12).abs() < 0.01);
        upright && shape.ink == Ink::Full
    };
    sheet.drawing.shapes.iter().filter(is_stem).map(bounds).collect()
}

/// Points along both edges of a curve.
pub fn curve_points(form: &Form) -> Vec<(f32, f32)> {
    let Form::Curve { ends: [from, to], outer, inner } = form else { return Vec::new() };
    let cubic = |[a, b]: &[(f32, f32); 2], t: f32| {
        let (u, mix) = (1.0 - t, |p: [f32; 4], t: f32, u: f32| {
            u * u * u * p[0] + 3.0 * u * u * t * p[1] + 3.0 * u * t * t * p[2] + t * t * t * p[3]
        });
        (mix([from.0, a.0, b.0, to.0], t, u), mix([from.1, a.1, b.1, to.1], t, u))
    };
    (0..=40).flat_map(|step| [cubic(outer, step as f32 / 40.0), cubic(inner, step as f32 / 40.0)]).collect()
}

pub fn holds([left, top, right, bottom]: &Bounds, (x, y): (f32, f32)) -> bool {
    (left..right).contains(&&x) && (top..bottom).contains(&&y)
}

/// Whether a point is in a beam, by more than so much.
pub fn is_in_beam([a, b, c, d]: &[(f32, f32); 4], (x, y): (f32, f32), by: f32) -> bool {
    let at = |from: &(f32, f32), to: &(f32, f32)| from.1 + (x - from.0) / (to.0 - from.0) * (to.1 - from.1);
    let (one, other) = (at(a, b), at(d, c));
    (a.0..b.0).contains(&x) && (one.min(other) + by..one.max(other) - by).contains(&y)
}

/// A step on a sheet that is made as small as needed to be in view as a whole.
pub fn practice_sheet(part: &Part, focus: &Focus, width: f32, height: f32) -> Sheet {
    let room = Room { width, height, least: 2.0, text: Room::TEXT_ON_A_TABLET };
    let step = Layout::new(part, room).draw(part, focus);
    let (width, height) = (step.width, step.height);
    let empty = Sheet { drawing: Drawing::new(width, height), places: vec![], bars: vec![], space: step.space };
    step.systems.into_iter().fold(empty, |mut all, system| {
        all.drawing.shapes.extend(system.drawing.shapes);
        all.places.extend(system.places);
        all.bars.extend(system.bars);
        all
    })
}

/// The whole part in ink.
pub fn everything(part: &Part, width: f32, height: f32) -> Sheet {
    let onsets = onsets(part);
    let last = onsets.len().saturating_sub(1);
    let focus = Focus { onsets: &onsets, span: (0, last), goal: last, aim: last, plays: &|_| true };
    practice_sheet(part, &focus, width, height)
}
