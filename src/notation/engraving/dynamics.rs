//! How loud: dynamic marks and hairpins, on one line under a staff with the words that stand there.

use super::{
    super::drawing::{Ink, Point},
    across::{self, Joined},
    chords::{quarters, staff_index},
    glyph::Glyph,
    hairpins::{self, Hairpin},
    metrics::{HAIRPIN, STAFF, TEXT_HEIGHT},
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
                let (half, [before, behind]) = (0.5 * mark_width(text, scale), overhang(text, scale));
                (x - half - before, x + half + behind)
            }
            Loud::Hairpin(hairpin) => (hairpin.left - 0.5 * HAIRPIN, hairpin.right + 0.5 * HAIRPIN),
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

    /// How far it reaches above the line's middle and below it: some letters further than others.
    fn reach(&self, scale: f32) -> [f32; 2] {
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
    fn begin_behind(&mut self, free: f32, scale: f32) {
        let shift = (free - self.extent(scale).0).max(0.0);
        match self {
            Loud::Mark { x, .. } => *x += shift,
            Loud::Manner { left, .. } => *left += shift,
            Loud::Hairpin(hairpin) => hairpin.begin_behind(free + 0.5 * HAIRPIN),
        }
    }
}

/// All that says how loud, on one line under each staff and one over it: the middle of the hairpins is that of the
/// letters. Under, but where the file says over, or where something that joins the staves stands in its place.
pub fn dynamics(setting: &mut Setting) {
    let scale = letter_scale(setting.order.text);
    let joined = across::joined(setting);
    for staff in 0..setting.order.galley.staves() {
        let mut all = marks(setting, staff);
        all.extend(words::on_line(setting, staff).into_iter().map(|(loud, ink)| (loud, ink, false)));
        for (loud, _, above) in &mut all {
            *above = free_side(loud.extent(scale), (staff, *above), &joined);
        }
        for above in [true, false] {
            let of_side = all.extract_if(.., |(.., side)| *side == above);
            let mut line: Vec<(Loud, Ink)> = of_side.map(|(loud, ink, _)| (loud, ink)).collect();
            set_apart(&mut line, scale);
            hairpins::add(setting, (staff, above), (scale, &joined), &mut line);
            set_apart(&mut line, scale);
            draw(setting, (staff, above), &line, scale);
        }
    }
}

/// On which side of its staff something stands that reaches from `left` to `right` and should stand `above` or not: on
/// the other side where notes are joined across the staves there.
pub fn free_side((left, right): (f32, f32), (staff, above): (usize, bool), joined: &[Joined]) -> bool {
    let gap = if above { staff.checked_sub(1) } else { Some(staff) };
    let meets = |join: &&Joined| Some(join.upper) == gap && join.left < right + APART && left - APART < join.right;
    above != joined.iter().any(|join| meets(&join))
}

/// Half of what a letter takes in height at scale 1.
const HALF_LETTER: f32 = 0.9;
/// How far the letters' baseline lies below the middle, at scale 1.
const BASELINE: f32 = 0.5;

/// From the staff to the middle of a line at least.
const NEAREST: f32 = 1.2;

/// The dynamic marks of a staff that are shown, and whether the file puts them over it.
fn marks<'a>(setting: &Setting<'a>, staff: usize) -> Vec<(Loud<'a>, Ink, bool)> {
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
                let ink = loud((setting.order.inks)(at, staff, false));
                marks.push((Loud::Mark { x, text: &mark.mark }, ink, mark.above.unwrap_or(false)));
            }
        }
    }
    marks
}

/// Least distance between what stands side by side on a line.
const BESIDE: f32 = 0.25;

/// What would stand at one place stands behind one another.
fn set_apart(line: &mut [(Loud, Ink)], scale: f32) {
    order::by(line, |(a, _), (b, _)| a.begin().total_cmp(&b.begin()));
    let mut free = f32::MIN;
    for (loud, _) in line {
        loud.begin_behind(free, scale);
        free = loud.extent(scale).1 + BESIDE;
    }
}

/// The middle of a line beyond all that is there.
fn height(setting: &Setting, (staff, above): (usize, bool), line: &[(Loud, Ink)], scale: f32) -> f32 {
    let skyline = &setting.pen.skylines[staff];
    let needs = line.iter().map(|(loud, _)| {
        let ((left, right), [rise, fall]) = (loud.extent(scale), loud.reach(scale));
        if above { skyline.above(left, right) - APART - fall } else { skyline.below(left, right) + APART + rise }
    });
    if above { needs.fold(-NEAREST, f32::min) } else { needs.fold(STAFF + NEAREST, f32::max) }
}

fn draw(setting: &mut Setting, (staff, above): (usize, bool), line: &[(Loud, Ink)], scale: f32) {
    let y = height(setting, (staff, above), line, scale);
    for (loud, ink) in line {
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
                    // What finds no room behind a mark stands beyond it.
                    let off = HALF_LETTER * scale + 0.5 * size;
                    let beyond = setting.beyond(staff, above, (at.0 - half, at.0 + half), *size);
                    at.1 = if above { beyond.min(y - off) } else { beyond.max(y + off) };
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
    let [_, _, right, _] = glyph.extent();
    scale * (right - bearing(glyph) - overlap(glyph))
}

/// How far a letter's origin lies before the place where its mark begins: one that leans further overhangs what is
/// before it.
fn bearing(glyph: Glyph) -> f32 {
    glyph.extent()[0].max(-0.1)
}

/// How far a letter reaches over what follows: an f overhangs it.
fn overlap(glyph: Glyph) -> f32 {
    if glyph == Glyph::DynF { 0.4 } else { 0.12 }
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
        setting.pen.glyph(staff, ink, glyph, (left - scale * bearing(glyph), y + BASELINE * scale), scale);
        left += advance(glyph, scale);
    }
}
