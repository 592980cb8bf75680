//! Clefs, key and time signatures, bar lines: what stands at the begin of a system and where it changes.

use super::{
    super::drawing::{Form, Ink, Point},
    accidentals::SHARPS,
    galley::{Galley, clef_at},
    glyph::Glyph,
    metrics::{BETWEEN_BARLINES, STAFF, STEM, THICK, THIN},
    pen::{Bounds, Pen, covered},
};
use crate::music::{
    Meter, Quarters,
    pitch::Letter,
    written::{Barline, Clef, ClefSign, Diatonic, MeterSign},
};

/// A clef in a bar is smaller than one at the begin (Gould 2011: three quarters, from memory).
pub const CHANGED_CLEF: f32 = 0.75;

pub fn clef_glyph(clef: Clef) -> Glyph {
    match clef.sign {
        ClefSign::G => Glyph::GClef,
        ClefSign::F => Glyph::FClef,
        ClefSign::C => Glyph::CClef,
        ClefSign::Percussion => Glyph::PercussionClef,
    }
}

/// The line on which a clef stands.
fn clef_y(clef: Clef) -> f32 {
    if clef.sign == ClefSign::Percussion { 2.0 } else { 4.0 - (f32::from(clef.line.clamp(1, 5)) - 1.0) }
}

/// What a clef in a bar covers, its right edge at `right`.
pub fn clef_box(clef: Clef, right: f32) -> Bounds {
    let glyph = clef_glyph(clef);
    let left = right - CHANGED_CLEF * glyph.width();
    covered(glyph, (left, clef_y(clef)), CHANGED_CLEF)
}

/// Draws a clef with its left edge at x.
pub fn draw_clef(pen: &mut Pen, staff: usize, ink: Ink, clef: Clef, x: f32, scale: f32) {
    let glyph = clef_glyph(clef);
    pen.glyph(staff, ink, glyph, (x, clef_y(clef)), scale);
    let [left, top, right, bottom] = covered(glyph, (x, clef_y(clef)), scale);
    let y = match clef.octaves {
        0 => return,
        1.. => top - 0.7,
        _ => bottom + 0.7,
    };
    pen.glyph(staff, ink, Glyph::Digit8, (0.5 * (left + right) - 0.35, y), 0.55);
}

/// The accidentals of a key signature in a clef: glyph and place, one space apart each. What is cancelled
/// comes first, in naturals, where nothing else stands instead.
pub fn key(fifths: i8, before: i8, clef: Clef) -> impl ExactSizeIterator<Item = (Glyph, f32)> + Clone {
    let (fifths, before) = (fifths.clamp(-7, 7), before.clamp(-7, 7));
    let (glyph, signs) = match fifths {
        0 => (Glyph::Natural, before),
        1.. => (Glyph::Sharp, fifths),
        _ => (Glyph::Flat, fifths),
    };
    let count = if clef.sign == ClefSign::Percussion { 0 } else { usize::from(signs.unsigned_abs()) };
    (0..count).map(move |nth| (glyph, key_y(signs > 0, nth, clef)))
}

/// As in the treble clef, moved with the clef's lines; where that would leave the staff, an octave lower.
fn key_y(sharps: bool, nth: usize, clef: Clef) -> f32 {
    let letter = if sharps { SHARPS[nth] } else { SHARPS[6 - nth] };
    let treble = if sharps { [8, 5, 9, 6, 3, 7, 4] } else { [4, 7, 3, 6, 2, 5, 1] };
    let lowest = clef.lowest_line();
    let shift = i32::from(Diatonic::of(Letter::E, 4).0 - lowest.0).rem_euclid(7);
    let shift = if shift > 3 { shift - 7 } else { shift };
    debug_assert!((i32::from(lowest.0) + treble[nth] + shift - letter as i32).rem_euclid(7) == 0);
    let step = treble[nth] + shift;
    let step = if step > if shift > 0 { 8 } else { 9 } { step - 7 } else { step };
    4.0 - 0.5 * step as f32
}

/// From one accidental of a key signature to the next.
const KEY_STEP: f32 = 1.0;

pub fn key_width(mut signs: impl ExactSizeIterator<Item = (Glyph, f32)>) -> f32 {
    let count = signs.len();
    signs.next().map_or(0.0, |(glyph, _)| KEY_STEP * (count - 1) as f32 + glyph.width())
}

fn draw_key(pen: &mut Pen, staff: usize, ink: Ink, signs: impl Iterator<Item = (Glyph, f32)>, x: f32) {
    for (nth, (glyph, y)) in signs.enumerate() {
        pen.glyph(staff, ink, glyph, (x + KEY_STEP * nth as f32, y), 1.0);
    }
}

/// What stands in a row of a time signature.
#[derive(Clone, Copy)]
enum Figure {
    Digit(Glyph),
    /// Between the groups of an additive meter.
    Plus,
}

/// Width of a plus sign and thickness of its strokes: as wide as a digit is between its sides, strokes as thick as a
/// digit's (common practice, no source).
const PLUS: f32 = 1.1;
const PLUS_STROKE: f32 = 0.3;
/// Between two figures of a row.
const FIGURE_GAP: f32 = 0.1;

impl Figure {
    fn width(self) -> f32 {
        match self {
            Figure::Digit(glyph) => glyph.width(),
            Figure::Plus => PLUS,
        }
    }

    /// Draws the figure with its left edge at x around the middle of its row.
    fn draw(self, pen: &mut Pen, staff: usize, ink: Ink, (x, y): Point) {
        match self {
            Figure::Digit(glyph) => pen.glyph(staff, ink, glyph, (x, y), 1.0),
            Figure::Plus => {
                let (middle, half) = (x + 0.5 * PLUS, 0.5 * (PLUS - PLUS_STROKE));
                pen.line(staff, ink, (middle - half, y), (middle + half, y), PLUS_STROKE);
                pen.line(staff, ink, (middle, y - half), (middle, y + half), PLUS_STROKE);
            }
        }
    }
}

/// The figures of a number, left to right.
fn digits(number: u8) -> impl Iterator<Item = Figure> {
    const DIGITS: [Glyph; 10] = [
        Glyph::Digit0,
        Glyph::Digit1,
        Glyph::Digit2,
        Glyph::Digit3,
        Glyph::Digit4,
        Glyph::Digit5,
        Glyph::Digit6,
        Glyph::Digit7,
        Glyph::Digit8,
        Glyph::Digit9,
    ];
    let units = [100, 10, 1].into_iter().filter(move |unit| number >= *unit || *unit == 1);
    units.map(move |unit| Figure::Digit(DIGITS[usize::from(number / unit % 10)]))
}

/// The two rows of a time signature: its groups of beats, and its unit.
fn rows(meter: Meter) -> [Vec<Figure>; 2] {
    let mut upper = Vec::new();
    for (nth, beats) in meter.groups().iter().enumerate() {
        upper.extend((nth > 0).then_some(Figure::Plus));
        upper.extend(digits(*beats));
    }
    [upper, digits(meter.unit()).collect()]
}

fn row_width(row: &[Figure]) -> f32 {
    row.iter().map(|figure| figure.width() + FIGURE_GAP).sum::<f32>() - FIGURE_GAP
}

fn meter_width(meter: Meter, sign: MeterSign) -> f32 {
    match sign {
        MeterSign::Hidden => 0.0,
        MeterSign::Common | MeterSign::Cut => Glyph::Common.width(),
        MeterSign::Figures => rows(meter).iter().map(|row| row_width(row)).fold(0.0, f32::max),
    }
}

fn draw_meter(pen: &mut Pen, staff: usize, ink: Ink, (meter, sign): (Meter, MeterSign), x: f32) {
    match sign {
        MeterSign::Hidden => {}
        MeterSign::Common => pen.glyph(staff, ink, Glyph::Common, (x, 2.0), 1.0),
        MeterSign::Cut => {
            pen.glyph(staff, ink, Glyph::Common, (x, 2.0), 1.0);
            let middle = x + 0.55 * Glyph::Common.width();
            pen.line(staff, ink, (middle, 0.5), (middle, 3.5), STEM);
        }
        MeterSign::Figures => {
            let width = meter_width(meter, sign);
            for (row, y) in rows(meter).iter().zip([1.0, 3.0]) {
                let mut x = x + 0.5 * (width - row_width(row));
                for figure in row {
                    figure.draw(pen, staff, ink, (x, y));
                    x += figure.width() + FIGURE_GAP;
                }
            }
        }
    }
}

/// What changes where a bar begins.
struct Change {
    key: Option<(i8, i8)>,
    meter: Option<(Meter, MeterSign)>,
}

fn change(galley: &Galley, bar: usize) -> Change {
    let index = galley.bars[bar].index;
    let (now, before) = (&galley.part.bars[index], &galley.part.bars[index.saturating_sub(1)]);
    Change {
        key: (now.fifths != before.fifths).then_some((now.fifths, before.fifths)),
        meter: (now.meter != before.meter).then_some((now.meter, now.written.meter_sign)),
    }
}

const BETWEEN: f32 = 0.6;

/// Width of the signatures that change with a bar; 0 for none.
pub fn change_width(galley: &Galley, bar: usize) -> f32 {
    let Change { key: changed, meter } = change(galley, bar);
    let clef = |staff| clef_at(galley.part, galley.bars[bar].index, staff, Quarters::ZERO);
    let widths =
        (0..galley.staves()).map(|staff| changed.map_or(0.0, |(now, before)| key_width(key(now, before, clef(staff)))));
    let key = widths.fold(0.0, f32::max);
    let meter = meter.map_or(0.0, |(meter, sign)| meter_width(meter, sign));
    key + meter + if key > 0.0 && meter > 0.0 { BETWEEN } else { 0.0 }
}

/// Draws the signatures that change with a bar.
pub fn draw_change(pen: &mut Pen, galley: &Galley, bar: usize, x: f32) {
    let Change { key: changed, meter } = change(galley, bar);
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

/// What stands at the begin of a system whose first column is `at` in `bar`: clefs, key and, if wanted, time
/// signature. Returns where it ends. Drawn where there is a pen.
pub fn prefix(pen: Option<&mut Pen>, galley: &Galley, bar: usize, at: Quarters, meter: bool) -> f32 {
    let index = galley.bars[bar].index;
    let score_bar = &galley.part.bars[index];
    let staves = 0..galley.staves();
    let clefs = staves.map(|staff| clef_at(galley.part, index, staff, at));
    let signs = |clef| key(score_bar.fifths, 0, clef);
    let clef_x = if clefs.len() > 1 { 1.6 } else { 0.6 };
    let key_x = clef_x + clefs.clone().map(|clef| clef_glyph(clef).width()).fold(0.0, f32::max) + BETWEEN;
    let width = clefs.clone().map(|clef| key_width(signs(clef))).fold(0.0, f32::max);
    let meter_x = if width > 0.0 { key_x + width + BETWEEN } else { key_x };
    let sign = (score_bar.meter, if meter { score_bar.written.meter_sign } else { MeterSign::Hidden });
    let wide = meter_width(sign.0, sign.1);
    if let Some(pen) = pen {
        for (staff, clef) in clefs.enumerate() {
            draw_clef(pen, staff, Ink::Faint, clef, clef_x, 1.0);
            draw_key(pen, staff, Ink::Faint, signs(clef), key_x);
            draw_meter(pen, staff, Ink::Faint, sign, meter_x);
        }
    }
    if wide > 0.0 { meter_x + wide + BETWEEN } else { meter_x }
}

/// A line of a bar line, or the dots of a repeat.
enum Stroke {
    Thin,
    Thick,
    Dashed,
    Dots,
}

/// The strokes at a bar's end (or at the begin of a system), left to right.
fn strokes(galley: &Galley, bar: usize, opening: bool) -> Vec<Stroke> {
    use Stroke::{Dashed, Dots, Thick, Thin};
    let index = galley.bars[bar].index;
    let written = |index: usize| galley.part.bars.get(index).map(|bar| &bar.written);
    let closes = if opening { Barline::Hidden } else { written(index).map_or(Barline::Single, |bar| bar.closes) };
    let opens = if opening { index } else { index + 1 };
    let opens = written(opens).map_or(Barline::Single, |bar| bar.opens);
    match (closes, opens) {
        (Barline::Repeat, Barline::Repeat) => vec![Dots, Thin, Thick, Thin, Dots],
        (Barline::Repeat, _) => vec![Dots, Thin, Thick],
        (_, Barline::Repeat) => vec![Thick, Thin, Dots],
        (Barline::Final, _) => vec![Thin, Thick],
        (Barline::Double, _) | (Barline::Single | Barline::Hidden, Barline::Double) => vec![Thin, Thin],
        (Barline::Dashed, _) => vec![Dashed],
        (Barline::Hidden, _) => vec![],
        (Barline::Single, _) => vec![Thin],
    }
}

fn stroke_width(stroke: &Stroke) -> f32 {
    match stroke {
        Stroke::Thin | Stroke::Dashed => THIN,
        Stroke::Thick => THICK,
        Stroke::Dots => 2.0 * REPEAT_DOT,
    }
}

const REPEAT_DOT: f32 = 0.2;

pub fn barline_width(galley: &Galley, bar: usize, opening: bool) -> f32 {
    let strokes = strokes(galley, bar, opening);
    let between = BETWEEN_BARLINES * strokes.len().saturating_sub(1) as f32;
    strokes.iter().map(stroke_width).sum::<f32>() + between
}

/// Draws a bar line through all staves, whose tops are given, as marks of the first.
pub fn draw_barline(pen: &mut Pen, galley: &Galley, (bar, opening): (usize, bool), x: f32, tops: &[f32]) {
    let bottom = tops.last().copied().unwrap_or(0.0) + STAFF;
    let (top, bottom) = if galley.part.lines == 1 { (1.0, bottom - 1.0) } else { (0.0, bottom) };
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
                let dashes = ((bottom - top) / 1.0) as usize;
                for dash in 0..dashes {
                    let y = top + dash as f32 + 0.25;
                    pen.line(0, Ink::Faint, (middle, y), (middle, y + 0.5), width);
                }
            }
            Stroke::Dots => {
                for y in tops.iter().flat_map(|top| [top + 1.5, top + 2.5]) {
                    let centre = (middle, y);
                    pen.mark(0, Ink::Faint, Form::Ellipse { centre, radii: (REPEAT_DOT, REPEAT_DOT), hollow: false });
                }
            }
        }
        left += width + BETWEEN_BARLINES;
    }
}
