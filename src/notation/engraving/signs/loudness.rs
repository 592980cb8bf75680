//! What says how loud, before it is drawn: marks, hairpins and words, and how far each reaches.

use crate::notation::{
    drawing::Ink,
    engraving::{
        metrics::{HAIRPIN, TEXT_HEIGHT},
        pen::text_width,
    },
    glyph::Glyph,
};

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
                let (half, [before, behind]) = (0.5 * mark_width(text, scale), overhang(text, scale));
                (x - half - before, x + half + behind)
            }
            Loud::Hairpin(hairpin) => (hairpin.left - 0.5 * HAIRPIN, hairpin.right + 0.5 * HAIRPIN),
            Loud::Manner { left, text, size } => (*left, left + text_width(text, *size)),
        }
    }

    /// Its place in time: that of the notes it stands at.
    pub fn begin(&self) -> f32 {
        match self {
            Loud::Mark { x, .. } => *x - 0.5 * Glyph::HeadBlack.width(),
            Loud::Hairpin(Hairpin { left, .. }) | Loud::Manner { left, .. } => *left,
        }
    }

    /// How far it reaches above the line's middle and below it: some letters further than others.
    pub fn reach(&self, scale: f32) -> [f32; 2] {
        let letters = match self {
            Loud::Mark { text, .. } => text,
            Loud::Hairpin(_) => "",
            Loud::Manner { size, .. } => return [(0.5 * TEXT_HEIGHT * size).max(HALF_LETTER * scale); 2],
        };
        let glyphs = || letters.chars().filter_map(letter).map(Glyph::extent);
        let rise = glyphs().map(|[_, top, ..]| -top - BASELINE).fold(HALF_LETTER, f32::max);
        let fall = glyphs().map(|[.., bottom]| bottom + BASELINE).fold(HALF_LETTER, f32::max);
        [scale * rise, scale * fall]
    }

    /// Moves it to the right until it begins behind a place.
    pub fn begin_behind(&mut self, free: f32, scale: f32) {
        let shift = (free - self.extent(scale).0).max(0.0);
        match self {
            Loud::Mark { x, .. } => *x += shift,
            Loud::Manner { left, .. } => *left += shift,
            Loud::Hairpin(hairpin) => hairpin.begin_behind(free + 0.5 * HAIRPIN),
        }
    }
}

/// Half of what a letter takes in height at scale 1: chosen.
pub const HALF_LETTER: f32 = 0.9;
/// How far the letters' baseline lies below the middle, at scale 1: half the height of a small letter.
pub const BASELINE: f32 = 0.5;
/// The scale of letters, as part of the size of other text: both are equally high.
const LETTER: f32 = 0.6;
/// The size of a mark in words at scale 1: chosen.
pub const WORDS: f32 = 1.5;
/// How far a letter reaches over what is before it at most, and over what follows it: an f further than others. Chosen.
const BACKWARD: f32 = 0.1;
const FORWARD: f32 = 0.12;
const FORWARD_OF_F: f32 = 0.4;

/// How loud it is concerns both hands, also the one that does not play on the staff where it is written.
pub fn loud(ink: Ink) -> Ink {
    if ink == Ink::Resting { Ink::Full } else { ink }
}

pub fn letter(character: char) -> Option<Glyph> {
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
pub fn letter_scale(text: f32) -> f32 {
    (LETTER * text).max(1.0)
}

pub fn is_letters(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|character| letter(character).is_some())
}

pub fn advance(glyph: Glyph, scale: f32) -> f32 {
    let [_, _, right, _] = glyph.extent();
    scale * (right - bearing(glyph) - overlap(glyph))
}

/// How far a letter's origin lies before the place where its mark begins: one that leans further overhangs what is
/// before it.
pub fn bearing(glyph: Glyph) -> f32 {
    glyph.extent()[0].max(-BACKWARD)
}

/// How far a letter reaches over what follows: an f overhangs it.
fn overlap(glyph: Glyph) -> f32 {
    if glyph == Glyph::DynF { FORWARD_OF_F } else { FORWARD }
}

/// How far the letters of a mark lean out before its width and behind it.
fn overhang(text: &str, scale: f32) -> [f32; 2] {
    if !is_letters(text) {
        return [0.0; 2];
    }
    let mut letters = text.chars().filter_map(letter);
    let first = letters.next();
    let last = letters.next_back().or(first);
    let before = first.map_or(0.0, |glyph| bearing(glyph) - glyph.extent()[0]);
    [scale * before, scale * last.map_or(0.0, overlap)]
}

pub fn mark_width(text: &str, scale: f32) -> f32 {
    if is_letters(text) {
        text.chars().filter_map(letter).map(|glyph| advance(glyph, scale)).sum::<f32>().max(scale)
    } else {
        text_width(&shortened(text), WORDS * scale)
    }
}

pub fn shortened(text: &str) -> String {
    text.chars().take(16).collect()
}

/// A hairpin from left to right; its opening at either end, 1 at its widest.
pub struct Hairpin {
    pub left: f32,
    pub right: f32,
    pub openings: [f32; 2],
}

/// Shortest hairpin that reads as one: common practice, no source.
pub const SHORTEST: f32 = 1.0;

impl Hairpin {
    /// Lets it begin behind a place, and end later where it would become too short.
    pub fn begin_behind(&mut self, free: f32) {
        self.left = self.left.max(free);
        self.right = self.right.max(self.left + SHORTEST);
    }
}
