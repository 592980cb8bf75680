//! Clefs, key and time signatures, bar lines, drawn at the begin of a system and where they change.

use crate::{
    music::{
        Meter, Quarters,
        written::{Clef, MeterSign},
    },
    notation::{
        drawing::{Form, Ink, Point},
        engraving::{
            metrics::{BETWEEN_BARLINES, MIDDLE_LINE, STAFF, STEM},
            pen::{Pen, covered},
            prepared::{clefs::clef_at, galley::Galley},
            spaced::signatures::{
                BETWEEN, FIGURE_GAP, Figure, KEY_STEP, PLUS, PLUS_STROKE, Prefix, REPEAT_DOT, SignatureChange, Stroke,
                change, clef_glyph, clef_y, key, key_width, meter_width, row_width, rows, stroke_width, strokes,
            },
        },
        glyph::Glyph,
    },
};

/// The 8 over or under a clef that moves by an octave: its size as part of a digit's, half its width, and from the
/// clef to its middle. Common practice, no source.
const OCTAVE_SIZE: f32 = 0.55;
const OCTAVE_HALF: f32 = 0.35;
const OCTAVE_OFF: f32 = 0.7;
/// The stroke through a cut C: where it stands, as part of the sign's width, and how far it reaches from the middle
/// line. Common practice, no source.
const CUT: f32 = 0.55;
const CUT_REACH: f32 = 1.5;
/// The middles of the two rows of a time signature: each fills half a staff.
const ROWS: [f32; 2] = [0.25 * STAFF, 0.75 * STAFF];
/// A bar line of a staff with one line reaches so far over and under it: common practice, no source.
const ONE_LINE_REACH: f32 = 1.0;
/// A dash of a bar line and from one to the next: the dash is SMuFL's `dashedBarlineDashLength`, the gap chosen.
const DASH: f32 = 0.5;
const DASH_STEP: f32 = 1.0;
/// The dots of a repeat, in the spaces on either side of the middle line.
const REPEAT_DOTS: [f32; 2] = [MIDDLE_LINE - 0.5, MIDDLE_LINE + 0.5];

/// Draws a clef with its left edge at x.
pub fn draw_clef(pen: &mut Pen, staff: usize, ink: Ink, clef: Clef, x: f32, scale: f32) {
    let glyph = clef_glyph(clef);
    pen.glyph(staff, ink, glyph, (x, clef_y(clef)), scale);
    let [left, top, right, bottom] = covered(glyph, (x, clef_y(clef)), scale);
    let y = match clef.octaves {
        0 => return,
        1.. => top - OCTAVE_OFF,
        _ => bottom + OCTAVE_OFF,
    };
    pen.glyph(staff, ink, Glyph::Digit8, (0.5 * (left + right) - OCTAVE_HALF, y), OCTAVE_SIZE);
}

fn draw_key(pen: &mut Pen, staff: usize, ink: Ink, signs: impl Iterator<Item = (Glyph, f32)>, x: f32) {
    for (nth, (glyph, y)) in signs.enumerate() {
        pen.glyph(staff, ink, glyph, (x + KEY_STEP * nth as f32, y), 1.0);
    }
}

fn draw_meter(pen: &mut Pen, staff: usize, ink: Ink, (meter, sign): (Meter, MeterSign), x: f32) {
    match sign {
        MeterSign::Hidden => {}
        MeterSign::Common => pen.glyph(staff, ink, Glyph::Common, (x, MIDDLE_LINE), 1.0),
        MeterSign::Cut => {
            pen.glyph(staff, ink, Glyph::Common, (x, MIDDLE_LINE), 1.0);
            let middle = x + CUT * Glyph::Common.width();
            pen.line(staff, ink, (middle, MIDDLE_LINE - CUT_REACH), (middle, MIDDLE_LINE + CUT_REACH), STEM);
        }
        MeterSign::Figures => {
            let width = meter_width(meter, sign);
            for (row, y) in rows(meter).iter().zip(ROWS) {
                let mut x = x + 0.5 * (width - row_width(row));
                for figure in row {
                    draw_figure(*figure, pen, staff, ink, (x, y));
                    x += figure.width() + FIGURE_GAP;
                }
            }
        }
    }
}

/// Draws the signatures that change with a bar.
pub fn draw_change(pen: &mut Pen, galley: &Galley, bar: usize, x: f32) {
    let SignatureChange { key: changed, meter } = change(galley, bar);
    for staff in 0..galley.staves() {
        let clef = clef_at(galley.part, galley.bars[bar].index, staff, Quarters::ZERO);
        let (now, before) = changed.unwrap_or((0, 0));
        let signs = key(now, before, clef);
        draw_key(pen, staff, Ink::Faint, signs.clone(), x);
        if let Some(meter) = meter {
            let width = key_width(signs);
            draw_meter(pen, staff, Ink::Faint, meter, x + width + if width > 0.0 { BETWEEN } else { 0.0 });
        }
    }
}

/// Draws a bar line through all staves, whose tops are given, as marks of the first.
pub fn draw_barline(pen: &mut Pen, galley: &Galley, (bar, opening): (usize, bool), x: f32, tops: &[f32]) {
    let bottom = tops.last().copied().unwrap_or(0.0) + STAFF;
    let cut = if galley.part.lines == 1 { MIDDLE_LINE - ONE_LINE_REACH } else { 0.0 };
    let (top, bottom) = (cut, bottom - cut);
    let mut left = x;
    for stroke in strokes(galley, bar, opening) {
        let width = stroke_width(&stroke);
        let middle = left + 0.5 * width;
        match stroke {
            Stroke::Thick => {
                let right = left + width;
                pen.polygon(0, Ink::Faint, vec![(left, top), (right, top), (right, bottom), (left, bottom)]);
            }
            Stroke::Thin => pen.line(0, Ink::Faint, (middle, top), (middle, bottom), width),
            Stroke::Dashed => {
                let dashes = ((bottom - top) / DASH_STEP) as usize;
                for dash in 0..dashes {
                    let y = top + DASH_STEP * dash as f32 + 0.5 * (DASH_STEP - DASH);
                    pen.line(0, Ink::Faint, (middle, y), (middle, y + DASH), width);
                }
            }
            Stroke::Dots => {
                for y in tops.iter().flat_map(|top| REPEAT_DOTS.map(|y| top + y)) {
                    let centre = (middle, y);
                    pen.mark(0, Ink::Faint, Form::Ellipse { centre, radii: (REPEAT_DOT, REPEAT_DOT), hollow: false });
                }
            }
        }
        left += width + BETWEEN_BARLINES;
    }
}

/// Draws what stands at the begin of a system.
pub fn draw_prefix(pen: &mut Pen, prefix: &Prefix) {
    for (staff, clef) in prefix.clefs.iter().enumerate() {
        draw_clef(pen, staff, Ink::Faint, *clef, prefix.clef_x, 1.0);
        draw_key(pen, staff, Ink::Faint, key(prefix.fifths, 0, *clef), prefix.key_x);
        draw_meter(pen, staff, Ink::Faint, prefix.meter, prefix.meter_x);
    }
}

/// Draws the figure with its left edge at x around the middle of its row.
fn draw_figure(figure: Figure, pen: &mut Pen, staff: usize, ink: Ink, (x, y): Point) {
    match figure {
        Figure::Digit(glyph) => pen.glyph(staff, ink, glyph, (x, y), 1.0),
        Figure::Plus => {
            let (middle, half) = (x + 0.5 * PLUS, 0.5 * (PLUS - PLUS_STROKE));
            pen.line(staff, ink, (middle - half, y), (middle + half, y), PLUS_STROKE);
            pen.line(staff, ink, (middle, y - half), (middle, y + half), PLUS_STROKE);
        }
    }
}
