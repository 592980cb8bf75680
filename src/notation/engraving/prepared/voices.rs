//! How voices give way to each other where they share a staff: heads beside heads, rests off the middle, dots
//! past all of them.

use crate::{
    music::written::Stem,
    notation::{
        engraving::{
            metrics::MIDDLE_LINE,
            pen::covered,
            prepared::{
                chords::{Chord, ReadyHead, TOUCHES_HEAD},
                places::{INSTANT, is_on_line},
            },
        },
        glyph::Glyph,
    },
};
use std::{cmp::Ordering, collections::HashMap};

/// Which chords share their staff with another voice while they last, and which voice is the upper: the one whose stems
/// the file points up, whatever the order of the voices.
pub fn keep_company(chords: &mut [Chord]) {
    let sides = Sides::of(chords);
    for index in 0..chords.len() {
        let chord = &chords[index];
        let meets = |other: &&Chord| {
            let (end, other_end) = (chord.begins + chord.lasts, other.begins + other.lasts);
            let same_time = other.begins < end - INSTANT && chord.begins < other_end - INSTANT;
            other.voice != chord.voice
                && other.staff == chord.staff
                && same_time
                && !(chord.is_rest() && other.is_rest())
        };
        let other = chords.iter().find(meets).map(|other| sides.is_upper(chord, other));
        chords[index].company = other;
    }
}

/// How many stems each voice has on each staff that the file points up, less those that it points down.
struct Sides(HashMap<(usize, usize), i32>);

impl Sides {
    fn of(chords: &[Chord]) -> Sides {
        let mut sides = HashMap::new();
        for chord in chords.iter().filter(|chord| !chord.is_grace()) {
            *sides.entry((chord.voice, chord.staff)).or_default() += stem(chord);
        }
        Sides(sides)
    }

    /// Which way the chord's own stem points where the file says so, else most of its voice; rests have their voice's.
    fn side(&self, chord: &Chord) -> i32 {
        let of_voice = self.0.get(&(chord.voice, chord.staff)).copied().unwrap_or(0);
        if stem(chord) != 0 { stem(chord) } else { of_voice.signum() }
    }

    fn is_upper(&self, chord: &Chord, other: &Chord) -> bool {
        match self.side(chord).cmp(&self.side(other)) {
            Ordering::Equal => chord.voice < other.voice,
            sides => sides == Ordering::Greater,
        }
    }
}

/// 1 where the file points the stem up, -1 where it points it down.
fn stem(chord: &Chord) -> i32 {
    match chord.event.stem {
        Stem::Up => 1,
        Stem::Down => -1,
        Stem::Free | Stem::Hidden => 0,
    }
}

/// Settles who gives way in a column: voices that would cover each other, then dots.
pub fn share_column(chords: &mut [Chord], column: usize) {
    let members: Vec<usize> = (0..chords.len()).filter(|index| chords[*index].column == column).collect();
    for (nth, lower) in members.iter().enumerate() {
        for upper in &members[..nth] {
            let turned = chords[*upper].company == Some(false) && chords[*lower].company == Some(true);
            let (first, second) = if turned { (*lower, *upper) } else { (*upper, *lower) };
            give_way(chords, first, second);
        }
    }
    for index in &members {
        place_dots(chords, *index, &members);
    }
}

/// Between the heads of two voices that stand side by side: common practice, no source.
const BESIDE_HEADS: f32 = 0.1;
/// From a head or rest to its first dot: common practice, no source.
const BEFORE_DOTS: f32 = 0.35;

/// Moves the later of two chords aside where their heads would touch. Two voices may share a head.
fn give_way(chords: &mut [Chord], first: usize, second: usize) {
    let (a, b) = (&chords[first], &chords[second]);
    if a.is_grace() || b.is_grace() || a.is_rest() || b.is_rest() {
        return;
    }
    let near = |x: &ReadyHead, y: &ReadyHead| x.staff == y.staff && (x.y - y.y).abs() < TOUCHES_HEAD;
    let share = |x: &ReadyHead, y: &ReadyHead| {
        x.y == y.y && x.dx == y.dx && a.head_glyph() == b.head_glyph() && a.event.dots == b.event.dots && a.up != b.up
    };
    let clash = a.heads.iter().any(|x| b.heads.iter().any(|y| near(x, y) && !share(x, y)));
    if clash {
        let reach =
            |chord: &Chord| (chord.right() - chord.dx, chord.heads.iter().map(|head| head.dx).fold(0.0, f32::min));
        let dx = a.dx + reach(a).0 - reach(b).1 + BESIDE_HEADS;
        chords[second].dx = chords[second].dx.max(dx);
    }
}

/// Dots stand in spaces, right of all heads of the column that they would touch.
fn place_dots(chords: &mut [Chord], index: usize, members: &[usize]) {
    if chords[index].event.dots == 0 {
        return;
    }
    let chord = &chords[index];
    let down = chord.company == Some(false);
    let ys = dots(chord, down);
    let covered = |other: &&usize| chords[**other].staff == chord.staff && !chords[**other].is_grace();
    let right = members.iter().filter(covered).map(|other| chords[*other].right()).fold(chord.right(), f32::max);
    let rest = chord.dx + chord.rest_glyph().width();
    let chord = &mut chords[index];
    chord.dots = if chord.is_rest() { rest } else { right } + BEFORE_DOTS * chord.scale;
    chord.heads.iter_mut().zip(ys).for_each(|(head, y)| head.dot = y);
}

/// The y of each head's dots. A head in a space has them there, one on a line in the space over it, or under it in a
/// lower voice; where that one is taken in the other, and where both are it goes without (Gould 2011, "Dots", from
/// memory).
fn dots(chord: &Chord, down: bool) -> Vec<Option<f32>> {
    let on_line = |head: &ReadyHead| is_on_line(head.y);
    let mut ys: Vec<Option<f32>> = chord.heads.iter().map(|head| (!on_line(head)).then_some(head.y)).collect();
    let mut taken: Vec<(usize, f32)> =
        chord.heads.iter().filter(|head| !on_line(head)).map(|head| (head.staff, head.y)).collect();
    for (head, y) in chord.heads.iter().zip(&mut ys).rev().filter(|(head, _)| on_line(head)) {
        let sides = if down { [0.5, -0.5] } else { [-0.5, 0.5] };
        *y = sides.map(|side| head.y + side).into_iter().find(|y| !taken.contains(&(head.staff, *y)));
        taken.extend(y.map(|y| (head.staff, y)));
    }
    ys
}

/// How far off the middle line a rest in company stands (common practice, no source).
const REST_ASIDE: f32 = 2.0;
/// From a rest to the middle of another voice's head at least: common practice, no source.
const REST_CLEAR: f32 = 0.75;
/// A note is in the way of a rest if it begins less than this before or after it, in quarters: chosen.
const NEAR_REST: f32 = 0.6;

/// A rest stands where the file places it, else in the middle, in company two spaces off; further where the other
/// voice is in its way.
pub fn place_rests(chords: &mut [Chord]) {
    for index in 0..chords.len() {
        let rest = &chords[index];
        if !rest.is_rest() {
            continue;
        }
        let given = !rest.rest.is_nan();
        let toward = rest.company.map_or(0.0, |upper| if upper { -1.0 } else { 1.0 });
        // A whole rest hangs from the line above.
        let hangs = if rest.rest_glyph() == Glyph::RestWhole && !given { 1.0 } else { 0.0 };
        let mut y = if given { rest.rest } else { MIDDLE_LINE + REST_ASIDE * toward - hangs };
        let in_way = |y: f32| {
            let [_, top, _, bottom] = covered(rest.rest_glyph(), (0.0, y), 1.0);
            let meets = |other: &&Chord| {
                let same_time = other.begins < rest.begins + rest.lasts - INSTANT
                    && rest.begins < other.begins + other.lasts - INSTANT;
                let [highest, lowest] = other.ends();
                // A bar's rest stands in the middle of its bar, whatever is there.
                let near = rest.is_bar_rest() || (other.begins - rest.begins).abs() < NEAR_REST;
                same_time
                    && near
                    && other.staff == rest.staff
                    && !other.is_rest()
                    && highest - REST_CLEAR < bottom
                    && lowest + REST_CLEAR > top
            };
            chords.iter().any(|other| meets(&other))
        };
        for _ in 0..8 {
            if toward != 0.0 && in_way(y) {
                y += toward;
            }
        }
        chords[index].rest = y;
    }
}
