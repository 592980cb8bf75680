//! Words over and under the staves: how to play, how fast, and what a place is called.
//!
//! How fast stands over the system, how to play between the staves of a keyboard, on the line of dynamics (Gould 2011,
//! "Tempo" and "Keyboard", from memory).

use crate::{
    music::{
        Quarters,
        written::{Says, StaffText},
    },
    notation::{
        drawing::Ink,
        engraving::{
            metrics::{BRACKET, TEXT_HEIGHT},
            pen::text_width,
            prepared::places::{INSTANT, quarters, staff_index},
            signs::{
                engraver::Engraver,
                loudness::{Loud, loud},
                spanners::{shown, x_at},
                text_notes::{draw_note, note_width},
            },
        },
    },
};

/// Words are smaller than digits: three quarters of 22 arcminutes are still the 16 that ISO 9241-3 asks for
/// (from memory). The least is chosen.
const SIZE: f32 = 0.75;
const LEAST: f32 = 1.2;
/// Between words that stand side by side: common practice, no source.
const BETWEEN: f32 = 0.6;
/// Upright words are wider than digits by this factor: common practice, no source.
const UPRIGHT: f32 = 1.15;
/// Between a rehearsal mark and its frame: common practice, no source.
const FRAME: f32 = 0.35;
/// From the middle of words down to the foot of a note among them, as part of their size: that of their capitals.
const NOTE_FOOT: f32 = 0.4;

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
            if (first - INSTANT..=last + INSTANT).contains(&quarters(at)) {
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
                draw_note(engraver, staff, *ink, (*left, y + NOTE_FOOT * size), size, (*beat, *dots));
                let text = equals(rate);
                let middle = left + note_width(*beat, *dots, size) + 0.5 * upright_width(&text, size);
                engraver.pen.text(staff, *ink, (middle, y), size, false, text);
            }
        }
    }
}

fn upright_width(text: &str, size: f32) -> f32 {
    UPRIGHT * text_width(text, size)
}

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
