//! Clefs, key and time signatures, bar lines: what they hold and how wide they are.

use crate::{
    music::{
        Meter, Quarters,
        pitch::Letter,
        written::{Barline, Clef, ClefSign, Diatonic, MeterSign},
    },
    notation::{
        engraving::{
            metrics::{BETWEEN_BARLINES, MIDDLE_LINE, STAFF, THICK, THIN},
            pen::{Bounds, covered},
            prepared::{accidentals::SHARPS, clefs::clef_at, galley::Galley, places::height},
        },
        glyph::Glyph,
    },
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
pub fn clef_y(clef: Clef) -> f32 {
    if clef.sign == ClefSign::Percussion { MIDDLE_LINE } else { STAFF - (f32::from(clef.line.clamp(1, 5)) - 1.0) }
}

/// What a clef in a bar covers, its right edge at `right`.
pub fn clef_box(clef: Clef, right: f32) -> Bounds {
    let glyph = clef_glyph(clef);
    let left = right - CHANGED_CLEF * glyph.width();
    covered(glyph, (left, clef_y(clef)), CHANGED_CLEF)
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
    height(step as f32)
}

/// From one accidental of a key signature to the next: common practice, no source.
pub const KEY_STEP: f32 = 1.0;

pub fn key_width(mut signs: impl ExactSizeIterator<Item = (Glyph, f32)>) -> f32 {
    let count = signs.len();
    signs.next().map_or(0.0, |(glyph, _)| KEY_STEP * (count - 1) as f32 + glyph.width())
}

/// What stands in a row of a time signature.
#[derive(Clone, Copy)]
pub enum Figure {
    Digit(Glyph),
    /// Between the groups of an additive meter.
    Plus,
}

/// Width of a plus sign and thickness of its strokes: as wide as a digit is between its sides, strokes as thick as a
/// digit's (common practice, no source).
pub const PLUS: f32 = 1.1;
pub const PLUS_STROKE: f32 = 0.3;
/// Between two figures of a row: common practice, no source.
pub const FIGURE_GAP: f32 = 0.1;

impl Figure {
    pub fn width(self) -> f32 {
        match self {
            Figure::Digit(glyph) => glyph.width(),
            Figure::Plus => PLUS,
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
pub fn rows(meter: Meter) -> [Vec<Figure>; 2] {
    let mut upper = Vec::new();
    for (nth, beats) in meter.groups().iter().enumerate() {
        upper.extend((nth > 0).then_some(Figure::Plus));
        upper.extend(digits(*beats));
    }
    [upper, digits(meter.unit()).collect()]
}

pub fn row_width(row: &[Figure]) -> f32 {
    row.iter().map(|figure| figure.width() + FIGURE_GAP).sum::<f32>() - FIGURE_GAP
}

pub fn meter_width(meter: Meter, sign: MeterSign) -> f32 {
    match sign {
        MeterSign::Hidden => 0.0,
        MeterSign::Common | MeterSign::Cut => Glyph::Common.width(),
        MeterSign::Figures => rows(meter).iter().map(|row| row_width(row)).fold(0.0, f32::max),
    }
}

/// What changes where a bar begins.
pub struct SignatureChange {
    pub key: Option<(i8, i8)>,
    pub meter: Option<(Meter, MeterSign)>,
}

pub fn change(galley: &Galley, bar: usize) -> SignatureChange {
    let index = galley.bars[bar].index;
    let (now, before) = (&galley.part.bars[index], &galley.part.bars[index.saturating_sub(1)]);
    SignatureChange {
        key: (now.fifths != before.fifths).then_some((now.fifths, before.fifths)),
        meter: (now.meter != before.meter).then_some((now.meter, now.written.meter_sign)),
    }
}

/// Between clef, key and time signature: common practice, no source.
pub const BETWEEN: f32 = 0.6;

/// Width of the signatures that change with a bar; 0 for none.
pub fn change_width(galley: &Galley, bar: usize) -> f32 {
    let SignatureChange { key: changed, meter } = change(galley, bar);
    let clef = |staff| clef_at(galley.part, galley.bars[bar].index, staff, Quarters::ZERO);
    let widths =
        (0..galley.staves()).map(|staff| changed.map_or(0.0, |(now, before)| key_width(key(now, before, clef(staff)))));
    let key = widths.fold(0.0, f32::max);
    let meter = meter.map_or(0.0, |(meter, sign)| meter_width(meter, sign));
    key + meter + if key > 0.0 && meter > 0.0 { BETWEEN } else { 0.0 }
}

/// What stands at the begin of a system, each place counted from the system's left edge.
pub struct Prefix {
    /// Of each staff, the uppermost first.
    pub clefs: Vec<Clef>,
    pub clef_x: f32,
    pub fifths: i8,
    pub key_x: f32,
    pub meter: (Meter, MeterSign),
    pub meter_x: f32,
    /// Where it ends.
    pub end: f32,
}

/// From the system's left edge to its clefs; a brace and the line that joins the staves stand before those of several:
/// common practice, no source.
const BEFORE_CLEFS: f32 = 0.6;
const BEFORE_JOINED_CLEFS: f32 = 1.6;

impl Prefix {
    /// Clefs, key and, if wanted, time signature of a system whose first column is `at` in `bar`.
    pub fn new(galley: &Galley, bar: usize, at: Quarters, meter: bool) -> Prefix {
        let index = galley.bars[bar].index;
        let score_bar = &galley.part.bars[index];
        let clefs: Vec<Clef> = (0..galley.staves()).map(|staff| clef_at(galley.part, index, staff, at)).collect();
        let clef_x = if clefs.len() > 1 { BEFORE_JOINED_CLEFS } else { BEFORE_CLEFS };
        let widest_clef = clefs.iter().map(|clef| clef_glyph(*clef).width()).fold(0.0, f32::max);
        let key_x = clef_x + widest_clef + BETWEEN;
        let key = clefs.iter().map(|clef| key_width(key(score_bar.fifths, 0, *clef))).fold(0.0, f32::max);
        let meter_x = if key > 0.0 { key_x + key + BETWEEN } else { key_x };
        let sign = if meter { score_bar.written.meter_sign } else { MeterSign::Hidden };
        let width = meter_width(score_bar.meter, sign);
        let end = if width > 0.0 { meter_x + width + BETWEEN } else { meter_x };
        Prefix { clefs, clef_x, fifths: score_bar.fifths, key_x, meter: (score_bar.meter, sign), meter_x, end }
    }
}

/// A line of a bar line, or the dots of a repeat.
pub enum Stroke {
    Thin,
    Thick,
    Dashed,
    Dots,
}

/// The strokes at a bar's end (or at the begin of a system), left to right.
pub fn strokes(galley: &Galley, bar: usize, opening: bool) -> Vec<Stroke> {
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

pub fn stroke_width(stroke: &Stroke) -> f32 {
    match stroke {
        Stroke::Thin | Stroke::Dashed => THIN,
        Stroke::Thick => THICK,
        Stroke::Dots => 2.0 * REPEAT_DOT,
    }
}

/// Radius of a dot of a repeat (SMuFL's `repeatDot` is 0.4 of a space wide, from memory).
pub const REPEAT_DOT: f32 = 0.2;

pub fn barline_width(galley: &Galley, bar: usize, opening: bool) -> f32 {
    let strokes = strokes(galley, bar, opening);
    let between = BETWEEN_BARLINES * strokes.len().saturating_sub(1) as f32;
    strokes.iter().map(stroke_width).sum::<f32>() + between
}
