//! Which accidentals are printed, and where they stand before their notes.
//!
//! An accidental holds for its line or space of its staff until the bar ends.

use crate::{
    music::{
        Pitch,
        pitch::Letter,
        score::ScoreBar,
        written::{Diatonic, Head},
    },
    notation::{
        engraving::{
            metrics::HAIR,
            pen::{Bounds, meet},
            prepared::chords::{Chord, ReadyAccidental},
        },
        glyph::Glyph,
    },
    sort,
};

/// The order in which sharps enter a key signature; flats enter from its end.
pub const SHARPS: [Letter; 7] = [Letter::F, Letter::C, Letter::G, Letter::D, Letter::A, Letter::E, Letter::B];

/// What a key signature does to a letter.
pub fn in_key(fifths: i8, letter: Letter) -> i8 {
    let place = SHARPS.iter().position(|sharp| *sharp == letter).unwrap_or(0) as i8;
    i8::from(fifths > place) - i8::from(-fifths > 6 - place)
}

pub fn glyph(alter: i8) -> Glyph {
    match alter {
        ..=-2 => Glyph::DoubleFlat,
        -1 => Glyph::Flat,
        0 => Glyph::Natural,
        1 => Glyph::Sharp,
        2.. => Glyph::DoubleSharp,
    }
}

/// What holds in a bar: staff, place, alteration.
type Held = Vec<(usize, Diatonic, i8)>;

/// Gives the heads of a bar their accidentals.
pub fn set(chords: &mut [Chord], bar: &ScoreBar, columns: usize) {
    let mut held = Held::new();
    for column in 0..columns {
        let members: Vec<usize> = (0..chords.len()).filter(|index| chords[*index].column == column).collect();
        // Voices that share a head share its accidental.
        let mut here: Vec<(usize, Diatonic, Glyph)> = Vec::new();
        for index in &members {
            let is_grace = chords[*index].is_grace();
            for head in &mut chords[*index].heads {
                let sign = printed(head.head, head.staff, bar.fifths, &mut held);
                let mark = |sign: &ReadyAccidental| (head.staff, head.head.place, sign.glyph);
                head.accidental = sign.filter(|sign| is_grace || !here.contains(&mark(sign)));
                here.extend(head.accidental.as_ref().filter(|_| !is_grace).map(mark));
            }
        }
        let (graces, notes): (Vec<usize>, Vec<usize>) = members.iter().partition(|index| chords[**index].is_grace());
        place(chords, &notes);
        place_graces(chords, &graces, &notes);
    }
}

/// Least distance between grace notes and to what they stand before: common practice, no source.
const GRACE_APART: f32 = 0.35;

/// Grace notes stand before their column and its accidentals, each behind its own accidentals.
fn place_graces(chords: &mut [Chord], graces: &[usize], notes: &[usize]) {
    let lefts = notes.iter().map(|index| chords[*index].left());
    let first = lefts.fold(0.0, f32::min) - GRACE_APART;
    let mut free: Vec<(usize, f32)> = Vec::new();
    for index in graces.iter().rev() {
        let voice = chords[*index].voice;
        let right = free.iter().find(|(of, _)| *of == voice).map_or(first, |(_, left)| *left);
        chords[*index].dx = right - (chords[*index].right_of_flag() - chords[*index].dx);
        place(chords, &[*index]);
        free.retain(|(of, _)| *of != voice);
        free.push((voice, chords[*index].left() - GRACE_APART));
    }
}

/// A note that is tied to the bar before keeps what it had there and does not hold for those after it
/// (Gould 2011, "Accidentals", from memory).
fn printed(head: &Head, staff: usize, fifths: i8, held: &mut Held) -> Option<ReadyAccidental> {
    let own = head.accidental.map(|sign| (sign.alter, sign.bracketed));
    let needed = head.pitch.filter(|_| !head.tied_from).and_then(|pitch| new_to_bar(pitch, staff, fifths, held));
    let (alter, bracketed) = own.or(needed.map(|alter| (alter, false)))?;
    Some(ReadyAccidental { glyph: glyph(alter), bracketed, dx: 0.0 })
}

fn new_to_bar(pitch: Pitch, staff: usize, fifths: i8, held: &mut Held) -> Option<i8> {
    let place = Diatonic::from(pitch);
    match held.iter_mut().find(|(on, at, _)| (*on, *at) == (staff, place)) {
        Some((_, _, alter)) if *alter == pitch.alter => None,
        Some((_, _, alter)) => {
            *alter = pitch.alter;
            Some(pitch.alter)
        }
        None => {
            held.push((staff, place, pitch.alter));
            (in_key(fifths, pitch.letter) != pitch.alter).then_some(pitch.alter)
        }
    }
}

/// What an accidental covers with its left edge at 0.
pub fn extent(accidental: &ReadyAccidental, y: f32, scale: f32) -> Bounds {
    let [left, top, right, bottom] = accidental.glyph.extent();
    let brackets = if accidental.bracketed { 2.0 * BRACKET_WIDTH } else { 0.0 };
    [scale * left, y + scale * top, scale * (right + brackets), y + scale * bottom]
}

/// Room for a bracket beside an accidental: common practice, no source.
pub const BRACKET_WIDTH: f32 = 0.5;
/// Least distance to the next accidental and to a head (Gould 2011: a quarter of a space, from memory).
const APART: f32 = 0.25;
const BEFORE_HEAD: f32 = 0.25;

/// Staff by staff from the outside inward, highest, lowest, second highest, …: each as near to the heads as those
/// before it allow (Gould 2011, "Accidentals on chords"; Ross 1970; both from memory).
fn place(chords: &mut [Chord], members: &[usize]) {
    let mut waiting: Vec<(usize, usize)> = Vec::new();
    let mut taken: Vec<(usize, Bounds)> = Vec::new();
    for index in members {
        let chord = &chords[*index];
        taken.extend(chord.heads.iter().map(|head| (head.staff, grown(chord.head_box(head), BEFORE_HEAD))));
        let signed = chord.heads.iter().enumerate().filter(|(_, head)| head.accidental.is_some());
        waiting.extend(signed.map(|(head, _)| (*index, head)));
    }
    let place = |(chord, head): &(usize, usize)| {
        let head = &chords[*chord].heads[*head];
        (head.staff, head.y)
    };
    sort::by(&mut waiting, |a, b| place(a).partial_cmp(&place(b)).unwrap_or(std::cmp::Ordering::Equal));
    let staff = |(chord, head): &(usize, usize)| chords[*chord].heads[*head].staff;
    let staves: Vec<Vec<(usize, usize)>> = waiting.chunk_by(|a, b| staff(a) == staff(b)).map(outside_in).collect();
    staves.into_iter().flatten().for_each(|next| place_one(chords, next, &mut taken));
}

/// First, last, second, last but one, …
fn outside_in<T: Copy>(items: &[T]) -> Vec<T> {
    let count = items.len();
    (0..count).map(|nth| if nth % 2 == 0 { items[nth / 2] } else { items[count - 1 - nth / 2] }).collect()
}

fn grown([left, top, right, bottom]: Bounds, by: f32) -> Bounds {
    [left - by, top, right + by, bottom]
}

fn place_one(chords: &mut [Chord], (chord, head): (usize, usize), taken: &mut Vec<(usize, Bounds)>) {
    let scale = chords[chord].scale;
    let begin = chords[chord].dx;
    let head = &mut chords[chord].heads[head];
    let Some(accidental) = &mut head.accidental else { return };
    let [_, top, width, bottom] = extent(accidental, head.y, scale);
    let mut left = begin + head.dx.min(0.0) - BEFORE_HEAD - width;
    let cover = |left: f32| [left, top, left + width, bottom];
    while let Some((_, other)) = taken.iter().find(|(staff, other)| *staff == head.staff && meet(other, &cover(left))) {
        left = other[0] - width - HAIR;
    }
    accidental.dx = left;
    taken.push((head.staff, grown(cover(left), APART)));
}
