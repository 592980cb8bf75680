//! Notes among words: what a tempo counts.

use crate::{
    music::{BeatUnit, NoteValue, written::Value},
    notation::{
        drawing::{Drawing, Form, Ink, Shape},
        engraving::{
            metrics::{BEAM_STEP, STEM, STEM_FOOT},
            signs::engraver::Engraver,
        },
        glyph::Glyph,
    },
};

/// The scale of a note, as part of the size of the words: chosen. All other lengths here are its own staff spaces.
const NOTE: f32 = 0.4;
/// How high a note is with a little room, and where its foot stands in that: drawn by eye, as all that follows.
const HEIGHT: f32 = 4.0;
const FOOT: f32 = 0.1;
/// From the middle of the head to the tip of the stem: shorter than in a staff.
const STEM_LENGTH: f32 = 3.0;
/// Stems are never thinner than at this scale.
const THINNEST: f32 = 0.7;
/// The width of a head with the room behind it, and of flags.
const HEAD: f32 = 1.9;
const FLAGS: f32 = 0.9;
/// From head or flags to the first dot, and from dot to dot.
const BEFORE_DOTS: f32 = 0.3;
const DOT_STEP: f32 = 0.6;
const MOST_DOTS: u8 = 3;

/// The width of a note among words of a size, with the room behind it.
pub fn note_width(beat: Value, dots: u8, size: f32) -> f32 {
    NOTE * size * (HEAD + flags_width(beat) + DOT_STEP * f32::from(dots.min(MOST_DOTS)))
}

fn flags_width(beat: Value) -> f32 {
    if beat.flags() > 0 { FLAGS } else { 0.0 }
}

/// Draws a note with its foot at a place.
pub fn draw_note(
    engraver: &mut Engraver,
    staff: usize,
    ink: Ink,
    foot: (f32, f32),
    size: f32,
    (beat, dots): (Value, u8),
) {
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
    let height = HEIGHT * NOTE * size;
    let mut drawing = Drawing::new(note_width(value, beat.dots, size), height);
    let forms = note_forms((0.0, height - FOOT * NOTE * size), size, (value, beat.dots));
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
    let (stem, tip) = (x + scale * (head.width() - 0.5 * STEM), y - STEM_LENGTH * scale);
    if beat <= Value::Half {
        let (from, to) = ((stem, y - STEM_FOOT * scale), (stem, tip));
        forms.push(Form::Line { from, to, width: scale.max(THINNEST) * STEM });
    }
    for flag in 0..beat.flags() {
        let at = (stem, tip + BEAM_STEP * scale * flag as f32);
        forms.push(Form::Glyph { at, glyph: Glyph::FlagUp, space: scale });
    }
    for dot in 0..dots.min(MOST_DOTS) {
        let left = x + scale * (head.width() + BEFORE_DOTS + flags_width(beat) + DOT_STEP * f32::from(dot));
        forms.push(Form::Glyph { at: (left, y), glyph: Glyph::Staccato, space: scale });
    }
    forms
}
