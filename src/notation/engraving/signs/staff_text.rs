//! Words over and under the staves: how to play, how fast, and what a place is called.
//!
//! How fast stands over the system, how to play between the staves of a keyboard, on the line of dynamics (Gould 2011,
//! "Tempo" and "Keyboard", from memory).

use crate::{
    music::{
        BeatUnit, NoteValue, Quarters,
        written::{Says, StaffText, Value},
    },
    notation::{
        drawing::{Drawing, Form, Ink, Shape},
        engraving::{
            metrics::{BRACKET, STEM, TEXT_HEIGHT},
            pen::text_width,
            prepared::places::{quarters, staff_index},
            signs::{
                engraver::Engraver,
                loudness::{Loud, loud},
                spanners::{shown, x_at},
            },
        },
        glyph::Glyph,
    },
};

/// Words are smaller than digits: three quarters of 22 arcminutes are still the 16 that ISO 9241-3 asks for
/// (from memory).
const SIZE: f32 = 0.75;
const LEAST: f32 = 1.2;
/// Between words that stand side by side.
const BETWEEN: f32 = 0.6;

fn size(engraver: &Engraver) -> f32 {
    (SIZE * engraver.plan.text).max(LEAST)
}

/// The words that are shown, each with its staff, its place and its ink.
fn all<'a>(engraver: &Engraver<'a>) -> Vec<(&'a StaffText, usize, Quarters, Ink)> {
    let plan = engraver.plan;
    let (first, last) = shown(engraver);
    let mut all = Vec::new();
    for bar in &plan.galley.bars {
        for words in &plan.galley.part.bars[bar.index].written.texts {
            let at = bar.start + words.at;
            if (first - 1e-3..=last + 1e-3).contains(&quarters(at)) {
                let staff = staff_index(plan.galley.part, words.staff);
                all.push((words, staff, at, loud((plan.inks)(at, staff, false))));
            }
        }
    }
    all
}

/// Whether words stand over their staff.
fn is_above(engraver: &Engraver, words: &StaffText, staff: usize) -> bool {
    let manner = matches!(words.says, Says::Manner(_));
    // Between the staves.
    let usual = !manner || staff > 0 && staff + 1 == engraver.plan.galley.staves();
    words.above.unwrap_or(usual)
}

/// The words that stand on the line of a staff's dynamics.
pub fn on_line<'a>(engraver: &Engraver<'a>, staff: usize) -> Vec<(Loud<'a>, Ink)> {
    let size = size(engraver);
    let of_line = |(words, on, at, ink): (&'a StaffText, usize, Quarters, Ink)| match &words.says {
        Says::Manner(text) if on == staff && !is_above(engraver, words, on) => {
            let left = x_at(engraver, quarters(at)).min(engraver.plan.width - text_width(text, size)).max(0.0);
            Some((Loud::Manner { left, text, size }, ink))
        }
        _ => None,
    };
    all(engraver).into_iter().filter_map(of_line).collect()
}

/// A word or mark that is to be placed over or under a staff.
struct Placed<'a> {
    says: &'a Says,
    left: f32,
    width: f32,
    ink: Ink,
}

/// Everything except what stands on a line of dynamics; texts at one place stand side by side.
pub fn staff_text(engraver: &mut Engraver) {
    let size = size(engraver);
    let mut rows: Vec<((Quarters, usize, bool), Vec<Placed>)> = Vec::new();
    for (words, staff, at, ink) in all(engraver) {
        let above = is_above(engraver, words, staff);
        let manner = matches!(words.says, Says::Manner(_));
        if manner && !above {
            continue;
        }
        let row = (at, if manner || !above { staff } else { 0 }, above);
        let placed = Placed { says: &words.says, left: 0.0, width: width(&words.says, size), ink };
        match rows.iter_mut().find(|(of, _)| *of == row) {
            Some((_, members)) => members.push(placed),
            None => rows.push((row, vec![placed])),
        }
    }
    for ((at, staff, above), mut members) in rows {
        let mut right = x_at(engraver, quarters(at));
        for placed in &mut members {
            placed.left = right;
            right += placed.width + BETWEEN;
        }
        // What would leave the sheet is moved to the left.
        let over = (right - BETWEEN - engraver.plan.width).max(0.0);
        members.iter_mut().for_each(|placed| placed.left = (placed.left - over).max(0.0));
        row(engraver, staff, above, size, &members);
    }
}

fn row(engraver: &mut Engraver, staff: usize, above: bool, size: f32, members: &[Placed]) {
    let (Some(first), Some(last)) = (members.first(), members.last()) else { return };
    let is_boxed = members.iter().any(|placed| matches!(placed.says, Says::Rehearsal(_)));
    let height = TEXT_HEIGHT * size + if is_boxed { 2.0 * FRAME } else { 0.0 };
    // A note rises over the letters beside it.
    let has_note = members.iter().any(|placed| matches!(placed.says, Says::Metronome { .. }));
    let (rise, fall) = (if has_note { size.max(0.5 * height) } else { 0.5 * height }, 0.5 * height);
    let middle = engraver.beyond(staff, above, (first.left, last.left + last.width), rise + fall);
    let y = middle + 0.5 * (rise - fall);
    for Placed { says, left, width, ink } in members {
        let middle = left + 0.5 * width;
        match says {
            Says::Manner(text) => engraver.pen.text(staff, *ink, (middle, y), size, true, text.clone()),
            Says::Tempo(text) => engraver.pen.text(staff, *ink, (middle, y), size, false, text.clone()),
            Says::Rehearsal(text) => {
                engraver.pen.text(staff, *ink, (middle, y), size, false, text.clone());
                frame(engraver, staff, *ink, [*left, y - 0.5 * height, left + width, y + 0.5 * height]);
            }
            Says::Metronome { beat, dots, rate } => {
                draw_note(engraver, staff, *ink, (*left, y + 0.4 * size), size, (*beat, *dots));
                let text = equals(rate);
                let middle = left + note_width(*beat, *dots, size) + 0.5 * upright_width(&text, size);
                engraver.pen.text(staff, *ink, (middle, y), size, false, text);
            }
        }
    }
}

/// Upright words are wider than digits: common practice, no source.
fn upright_width(text: &str, size: f32) -> f32 {
    1.15 * text_width(text, size)
}

/// Between a rehearsal mark and its frame.
const FRAME: f32 = 0.35;

fn frame(engraver: &mut Engraver, staff: usize, ink: Ink, [left, top, right, bottom]: [f32; 4]) {
    let corners = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)];
    for ends in corners.windows(2) {
        engraver.pen.line(staff, ink, ends[0], ends[1], BRACKET);
    }
    engraver.pen.take(staff, [left, top, right, bottom]);
}

fn equals(rate: &str) -> String {
    format!("= {rate}")
}

fn width(says: &Says, size: f32) -> f32 {
    match says {
        Says::Manner(text) => text_width(text, size),
        Says::Tempo(text) => upright_width(text, size),
        Says::Rehearsal(text) => upright_width(text, size) + 2.0 * FRAME,
        Says::Metronome { beat, dots, rate } => note_width(*beat, *dots, size) + upright_width(&equals(rate), size),
    }
}

/// The scale of a note in a text.
const NOTE: f32 = 0.4;

fn note_width(beat: Value, dots: u8, size: f32) -> f32 {
    let flag = if beat.flags() > 0 { 0.9 } else { 0.0 };
    NOTE * size * (1.9 + flag + 0.6 * f32::from(dots.min(3)))
}

/// Draws a note with its foot at a place.
fn draw_note(engraver: &mut Engraver, staff: usize, ink: Ink, foot: (f32, f32), size: f32, (beat, dots): (Value, u8)) {
    for form in note_forms(foot, size, (beat, dots)) {
        match form {
            Form::Glyph { at, glyph, space } => engraver.pen.glyph(staff, ink, glyph, at, space),
            Form::Line { from, to, .. } => {
                engraver.pen.take(staff, [to.0, to.1, from.0, from.1]);
                engraver.pen.mark(staff, ink, form);
            }
            _ => engraver.pen.mark(staff, ink, form),
        }
    }
}

/// The note that a tempo counts, as a drawing whose text is `size` px large.
pub fn beat_sign(beat: BeatUnit, size: f32) -> Drawing {
    let value = match beat.value {
        NoteValue::Whole => Value::Whole,
        NoteValue::Half => Value::Half,
        NoteValue::Quarter => Value::Quarter,
        NoteValue::Eighth => Value::Eighth,
        NoteValue::Sixteenth => Value::N16th,
    };
    let height = 4.0 * NOTE * size;
    let mut drawing = Drawing::new(note_width(value, beat.dots, size), height);
    let forms = note_forms((0.0, height - 0.1 * NOTE * size), size, (value, beat.dots));
    drawing.shapes.extend(forms.into_iter().map(|form| Shape { form, ink: Ink::Full }));
    drawing
}

/// Head, stem, flags and dots of a note with its foot at a place.
fn note_forms((x, foot): (f32, f32), size: f32, (beat, dots): (Value, u8)) -> Vec<Form> {
    let scale = NOTE * size;
    let head = match beat {
        Value::Breve => Glyph::HeadBreve,
        Value::Whole => Glyph::HeadWhole,
        Value::Half => Glyph::HeadHalf,
        _ => Glyph::HeadBlack,
    };
    let y = foot - 0.5 * scale;
    let mut forms = vec![Form::Glyph { at: (x, y), glyph: head, space: scale }];
    let (stem, tip) = (x + scale * (head.width() - 0.5 * STEM), y - 3.0 * scale);
    if beat <= Value::Half {
        forms.push(Form::Line { from: (stem, y - 0.16 * scale), to: (stem, tip), width: scale.max(0.7) * STEM });
    }
    for flag in 0..beat.flags() {
        let at = (stem, tip + 0.75 * scale * flag as f32);
        forms.push(Form::Glyph { at, glyph: Glyph::FlagUp, space: scale });
    }
    let flag = if beat.flags() > 0 { 0.9 } else { 0.0 };
    for dot in 0..dots.min(3) {
        let right = x + scale * (head.width() + 0.3 + flag + 0.6 * f32::from(dot));
        forms.push(Form::Glyph { at: (right, y), glyph: Glyph::Staccato, space: scale });
    }
    forms
}
