//! Where spanners begin and end in a system, and in which ink they are drawn.
//!
//! What begins or ends outside the system is cut off at its edge.

use crate::{
    music::written::{Anchor, Spanner},
    notation::{
        drawing::Ink,
        engraving::{
            prepared::{
                chords::Chord,
                galley::ReadyBar,
                places::{INSTANT, quarters, staff_index},
            },
            signs::engraver::Engraver,
            spaced::columns::Holds,
        },
    },
};

/// Least distance between a spanner and what is under it: common practice, no source.
pub const APART: f32 = 0.35;
/// How far before its first column the music of a system begins: chosen.
pub const BEFORE_FIRST: f32 = 0.6;

/// Where an anchor's note stands, if it is shown.
pub fn anchored<'a>(engraver: &Engraver<'a>, anchor: &Anchor) -> Option<(&'a Chord<'a>, f32)> {
    let galley = engraver.plan.galley;
    let staff = staff_index(galley.part, anchor.staff);
    let bar = galley.bars.iter().position(|bar| bar.index as isize == anchor.bar)?;
    let voices = &galley.part.bars[galley.bars[bar].index].written.voices;
    let voice = voices.iter().position(|voice| voice.name == anchor.voice)?;
    let at = quarters(anchor.at);
    let here = |chord: &&Chord| chord.voice == voice && (chord.begins - at).abs() < INSTANT;
    let is_shown = |chord: &&Chord| engraver.x_of(chord.index).is_some();
    let found = || galley.chords[galley.bars[bar].chords.clone()].iter().filter(here).filter(is_shown);
    let on_staff = found().any(|chord| chord.staff == staff);
    let found = || found().filter(|chord| !on_staff || chord.staff == staff || chord.crosses());
    let nth = found().filter(|chord| chord.is_grace()).count().checked_sub(usize::from(anchor.grace))?;
    let chord = found().nth(nth).or_else(|| found().next_back())?;
    Some((chord, engraver.x_of(chord.index)?))
}

/// From the start of the part's first bar.
pub fn time(engraver: &Engraver, anchor: &Anchor) -> f32 {
    let bars = &engraver.plan.galley.bars;
    let index = |bar: &&ReadyBar| bar.index as isize == anchor.bar;
    let last = bars.last().map_or(0.0, |bar| quarters(bar.start) + bar.length);
    match bars.iter().find(index) {
        Some(bar) => quarters(bar.start) + quarters(anchor.at),
        None if bars.first().is_some_and(|bar| anchor.bar < bar.index as isize) => f32::MIN,
        None => last + 1.0,
    }
}

/// The times shown: first and end.
pub fn shown(engraver: &Engraver) -> (f32, f32) {
    let columns = engraver.plan.columns;
    let first = columns.iter().find(|column| column.is_notes()).map_or(0.0, |column| quarters(column.at));
    let last = columns.iter().rev().find(|column| column.is_notes()).map_or(0.0, |column| quarters(column.at));
    (first, last)
}

/// Where a time is: at its column or between.
pub fn x_at(engraver: &Engraver, time: f32) -> f32 {
    let notes = || engraver.plan.columns.iter().filter(|column| column.is_notes() || column.holds == Holds::Barline);
    let before = notes().rfind(|column| quarters(column.at) <= time + INSTANT);
    let after = notes().find(|column| quarters(column.at) > time + INSTANT);
    match (before, after) {
        (Some(before), Some(after)) => {
            let (a, b) = (quarters(before.at), quarters(after.at));
            before.x + (after.x - before.x) * ((time - a) / (b - a).max(INSTANT)).clamp(0.0, 1.0)
        }
        (Some(column), None) | (None, Some(column)) => column.x,
        (None, None) => 0.0,
    }
}

/// Whether something from one time to another is partly shown.
pub fn is_shown(engraver: &Engraver, spanner: &Spanner) -> bool {
    let (first, last) = shown(engraver);
    time(engraver, &spanner.from) <= last + INSTANT && time(engraver, &spanner.to) >= first - INSTANT
}

/// Whether it goes on in the next system: its end is neither shown nor at the end of what is shown.
pub fn goes_on(engraver: &Engraver, spanner: &Spanner) -> bool {
    let columns = engraver.plan.columns;
    let end = columns.last().map_or(0.0, |column| quarters(column.at));
    time(engraver, &spanner.to) > shown(engraver).1.max(end) + INSTANT
}

/// The left edge of the music, after clef and signatures.
pub fn begin(engraver: &Engraver) -> f32 {
    engraver.plan.columns.first().map_or(0.0, |column| column.x - column.reach()[0]) - BEFORE_FIRST
}

/// Full where both ends are played now, else as the fainter one.
pub fn ink_between(engraver: &Engraver, spanner: &Spanner, staff: usize) -> Ink {
    match end_inks(engraver, spanner, staff) {
        [Ink::Full, Ink::Full] => Ink::Full,
        [Ink::Resting, Ink::Resting] => Ink::Resting,
        _ => Ink::Faint,
    }
}

/// The inks of what stands at both ends; an end that is cut off is as the other one.
pub fn end_inks(engraver: &Engraver, spanner: &Spanner, staff: usize) -> [Ink; 2] {
    let ink = |anchor: &Anchor| match anchored(engraver, anchor) {
        Some((chord, _)) => Some(engraver.ink(chord)),
        None => {
            let bars = &engraver.plan.galley.bars;
            let bar = bars.iter().find(|bar| bar.index as isize == anchor.bar)?;
            Some((engraver.plan.inks)(bar.start + anchor.at, staff, true))
        }
    };
    let (from, to) = (ink(&spanner.from), ink(&spanner.to));
    [from.or(to).unwrap_or(Ink::Faint), to.or(from).unwrap_or(Ink::Faint)]
}
