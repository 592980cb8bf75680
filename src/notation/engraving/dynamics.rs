//! How loud: dynamic marks and hairpins, on one line under a staff with the words that stand there.

use super::{
    super::drawing::{Ink, Point},
    chords::{quarters, staff_index},
    glyph::Glyph,
    hairpins::{self, Hairpin},
    metrics::{STAFF, TEXT_HEIGHT},
    pen::text_width,
    spans::{APART, x_at},
    system::Setting,
    words,
};
use crate::{music::Quarters, order};

/// What stands on the line of dynamics.
pub enum Loud<'a> {
    Mark {
        x: f32,
        text: &'a str,
    },
    Hairpin(Hairpin),
    /// How to play.
    Manner {
        left: f32,
        text: &'a str,
        size: f32,
    },
}

impl Loud<'_> {
    /// From where to where it reaches.
    pub fn extent(&self, scale: f32) -> (f32, f32) {
        match self {
            Loud::Mark { x, text } => {
                let half = 0.5 * mark_width(text, scale);
                (x - half, x + half)
            }
            Loud::Hairpin(hairpin) => (hairpin.left, hairpin.right),
            Loud::Manner { left, text, size } => (*left, left + text_width(text, *size)),
        }
    }

    /// Its place in time: that of the notes it stands at.
    fn begin(&self) -> f32 {
        match self {
            Loud::Mark { x, .. } => *x - 0.5 * Glyph::HeadBlack.width(),
            Loud::Hairpin(Hairpin { left, .. }) | Loud::Manner { left, .. } => *left,
        }
    }

    /// How far it reaches above the line's middle: an f further than the other letters.
    fn rise(&self, scale: f32) -> f32 {
        let letters = match self {
            Loud::Mark { text, .. } => text,
            Loud::Hairpin(_) => "",
            Loud::Manner { size, .. } => return (0.5 * TEXT_HEIGHT * size).max(HALF_LETTER * scale),
        };
        let rises = letters.chars().filter_map(letter).map(|glyph| -glyph.extent()[1] - BASELINE);
        scale * rises.fold(HALF_LETTER, f32::max)
    }
}

/// All that says how loud, on one line under each staff: the middle of the hairpins is that of the letters.
pub fn dynamics(setting: &mut Setting) {
    let scale = letter_scale(setting.order.text);
    for staff in 0..setting.order.galley.staves() {
        let mut all = marks(setting, staff);
        all.extend(words::on_line(setting, staff));
        order::by(&mut all, |(a, _), (b, _)| a.begin().total_cmp(&b.begin()));
        set_apart(&mut all, scale);
        hairpins::add(setting, staff, scale, &mut all);
        let line = &setting.pen.skylines[staff];
        let needs = all.iter().map(|(loud, _)| {
            let (left, right) = loud.extent(scale);
            line.below(left - LEAN * scale, right + LEAN * scale) + APART + loud.rise(scale)
        });
        let y = needs.fold(STAFF + 1.2, f32::max);
        draw(setting, staff, &all, y, scale);
    }
}

/// Half of what a letter takes in height at scale 1.
const HALF_LETTER: f32 = 0.9;
/// How far the letters' baseline lies below the middle, and how far an outer letter may lean beyond its mark, at scale 1.
const BASELINE: f32 = 0.5;
const LEAN: f32 = 0.4;

/// The dynamic marks of a staff that are shown.
fn marks<'a>(setting: &Setting<'a>, staff: usize) -> Vec<(Loud<'a>, Ink)> {
    let galley = setting.order.galley;
    let mut marks = Vec::new();
    for column in setting.order.columns.iter().filter(|column| column.is_notes()) {
        let ready = &galley.bars[column.bar];
        let of_bar = &galley.part.bars[ready.index].dynamics;
        let next = if of_bar.is_empty() { None } else { next_column(setting, column.at) };
        for mark in of_bar {
            let at = ready.start + mark.at;
            let here = column.at <= at && next.map_or(at == column.at, |next| at < next);
            if here && staff_index(galley.part, mark.staff) == staff {
                let x = x_at(setting, quarters(at)) + 0.5 * Glyph::HeadBlack.width();
                marks.push((Loud::Mark { x, text: &mark.mark }, loud((setting.order.inks)(at, staff, false))));
            }
        }
    }
    marks
}

/// What would stand at one place stands behind one another.
fn set_apart(all: &mut [(Loud, Ink)], scale: f32) {
    let mut free = f32::MIN;
    for (loud, _) in all {
        let (left, right) = loud.extent(scale);
        let shift = (free - left).max(0.0);
        match loud {
            Loud::Mark { x, .. } => *x += shift,
            Loud::Manner { left, .. } => *left += shift,
            Loud::Hairpin(_) => {}
        }
        free = right + shift + 0.3;
    }
}

fn draw(setting: &mut Setting, staff: usize, all: &[(Loud, Ink)], y: f32, scale: f32) {
    for (loud, ink) in all {
        let (left, right) = loud.extent(scale);
        match loud {
            Loud::Mark { x, text } => draw_mark(setting, staff, *ink, (*x, y), text, scale),
            Loud::Hairpin(hairpin) => {
                hairpin.draw(setting, staff, *ink, (y, scale.min(1.3)));
                let half = HALF_LETTER * scale;
                setting.pen.take(staff, [left, y - half, right, y + half]);
            }
            Loud::Manner { text, size, .. } => {
                let (half, most) = (0.5 * (right - left), setting.order.width - 0.5 * (right - left));
                let mut at = ((left + half).min(most).max(half), y);
                if left + half > most {
                    // What finds no room behind a mark stands under it.
                    let under = y + HALF_LETTER * scale + 0.5 * size;
                    at.1 = setting.beyond(staff, false, (at.0 - half, at.0 + half), *size).max(under);
                }
                setting.pen.text(staff, *ink, at, *size, true, text.to_string());
            }
        }
    }
}

/// How loud it is concerns both hands, also the one that does not play on the staff where it is written.
pub fn loud(ink: Ink) -> Ink {
    if ink == Ink::Resting { Ink::Full } else { ink }
}

fn next_column(setting: &Setting, at: Quarters) -> Option<Quarters> {
    setting.order.columns.iter().filter(|column| column.is_notes() && column.at > at).map(|column| column.at).next()
}

fn letter(character: char) -> Option<Glyph> {
    match character {
        'p' => Some(Glyph::DynP),
        'f' => Some(Glyph::DynF),
        'm' => Some(Glyph::DynM),
        's' => Some(Glyph::DynS),
        'z' => Some(Glyph::DynZ),
        'r' => Some(Glyph::DynR),
        _ => None,
    }
}

/// Letters of dynamics are as high as other text: a small letter about a space at their own size.
fn letter_scale(text: f32) -> f32 {
    (0.6 * text).max(1.0)
}

fn is_letters(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|character| letter(character).is_some())
}

fn advance(glyph: Glyph, scale: f32) -> f32 {
    let [left, _, right, _] = glyph.extent();
    // The f overhangs what follows.
    let overlap = if glyph == Glyph::DynF { 0.4 } else { 0.12 };
    scale * (right - left.max(-0.1) - overlap)
}

fn mark_width(text: &str, scale: f32) -> f32 {
    if is_letters(text) {
        text.chars().filter_map(letter).map(|glyph| advance(glyph, scale)).sum::<f32>().max(scale)
    } else {
        text_width(&shortened(text), 1.5 * scale)
    }
}

fn shortened(text: &str) -> String {
    text.chars().take(16).collect()
}

/// A mark centred on a point: in its own letters, or as text.
fn draw_mark(setting: &mut Setting, staff: usize, ink: Ink, (x, y): Point, text: &str, scale: f32) {
    if !is_letters(text) {
        return setting.pen.text(staff, ink, (x, y), 1.5 * scale, true, shortened(text));
    }
    let mut left = x - 0.5 * mark_width(text, scale);
    for glyph in text.chars().filter_map(letter) {
        let bearing = glyph.extent()[0].max(-0.1);
        setting.pen.glyph(staff, ink, glyph, (left - scale * bearing, y + BASELINE * scale), scale);
        left += advance(glyph, scale);
    }
}
