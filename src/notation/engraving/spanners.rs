//! What stands from one place to another: ties, slurs, tuplets, dynamics with their hairpins, octave signs,
//! pedal marks and the brackets of endings.
//!
//! What begins or ends outside the system is cut off at its edge. Refuses to know who plays what now.

use super::{
    super::drawing::{Form, Ink, Point},
    chords::{Chord, ReadyHead, quarters, staff_index},
    columns::Holds,
    glyph::Glyph,
    metrics::{BRACKET, CURVE_MIDDLE, HAIRPIN, STAFF, TEXT_HEIGHT},
    outside::above_head,
    pen::text_width,
    system::Setting,
};
use crate::music::{
    Quarters,
    written::{Anchor, EndingEnd, Spanner, Spans},
};

/// Least distance between what spans and what is under it.
const APART: f32 = 0.35;

/// A slender lens from one point to another that bulges by `height`, upward negative.
fn lens(from: Point, to: Point, height: f32, thickness: f32) -> Form {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let shoulder = (0.3 * dx).min(dx.abs() * 0.5);
    let at = |part: f32, height: f32| (from.0 + part * dx, from.1 + part * dy + height);
    let part = shoulder / dx.abs().max(0.01);
    // A cubic reaches three quarters of its control points' height.
    let control = height / 0.75;
    let inner = control - thickness.copysign(height) / 0.75;
    Form::Curve {
        ends: [from, to],
        outer: [at(part, control), at(1.0 - part, control)],
        inner: [at(part, inner), at(1.0 - part, inner)],
    }
}

/// A tie is flat: about a space high where it is long (Ross 1970, from memory).
fn tie_height(length: f32) -> f32 {
    (0.28 + 0.07 * length).clamp(0.35, 1.0)
}

pub fn ties(setting: &mut Setting) {
    let order = setting.order;
    for (_, chord, x) in order.chords() {
        let count = chord.heads.len();
        for (nth, head) in chord.heads.iter().enumerate() {
            let above = tie_above(chord, nth, count);
            let right = x + chord.dx + head.dx + chord.head_width() + 0.1;
            if head.head.tied_on {
                let to = follower(setting, chord, head).unwrap_or(edge_after(setting, right));
                draw_tie(setting, chord, head, (right, to), above);
            }
            if head.head.tied_from && !has_source(setting, chord, head) {
                let left = x + chord.dx + head.dx - 0.1;
                draw_tie(setting, chord, head, (left - 1.6, left), above);
            }
        }
    }
}

/// Away from the stem; in a chord the upper half upward.
fn tie_above(chord: &Chord, nth: usize, count: usize) -> bool {
    match (chord.company, count) {
        (Some(upper), _) => upper,
        (None, 1) => above_head(chord),
        (None, _) => 2 * nth >= count,
    }
}

/// Where the tied note stands: the left edge of its head.
fn follower(setting: &Setting, chord: &Chord, head: &ReadyHead) -> Option<f32> {
    let end = chord.at + chord.event.lasts;
    setting.order.chords().find_map(|(_, next, x)| {
        let same = |other: &&ReadyHead| {
            other.head.tied_from && other.staff == head.staff && other.head.place == head.head.place
        };
        if next.at != end {
            return None;
        }
        next.heads.iter().find(same).map(|other| x + next.dx + other.dx - 0.1)
    })
}

fn has_source(setting: &Setting, chord: &Chord, head: &ReadyHead) -> bool {
    setting.order.chords().any(|(_, before, _)| {
        let same =
            |other: &ReadyHead| other.head.tied_on && other.staff == head.staff && other.head.place == head.head.place;
        before.at + before.event.lasts == chord.at && before.at < chord.at && before.heads.iter().any(same)
    })
}

fn edge_after(setting: &Setting, right: f32) -> f32 {
    setting.order.width.min(right + 2.2).max(right + 0.8)
}

fn draw_tie(setting: &mut Setting, chord: &Chord, head: &ReadyHead, (from, to): (f32, f32), above: bool) {
    let toward = if above { -1.0 } else { 1.0 };
    // A single head's tie leaves beside it and over it, the inner ones of a chord between the heads.
    let y = head.y + toward * if chord.heads.len() == 1 { 0.6 } else { 0.3 };
    let inset = if chord.heads.len() == 1 { 0.25 } else { 0.0 };
    let (from, to) = (from - inset, (to + inset).max(from + 0.5));
    let height = toward * tie_height(to - from);
    let middle = 0.5 * (from + to);
    let reach = y + height;
    let quarter = 0.25 * (to - from);
    setting.pen.take(head.staff, [middle - quarter, reach.min(y), middle + quarter, reach.max(y)]);
    let ink = setting.order.ink(chord);
    setting.pen.mark(head.staff, ink, lens((from, y), (to, y), height, CURVE_MIDDLE));
}

/// Where an anchor's note stands, if it is shown.
fn anchored<'a>(setting: &Setting<'a>, anchor: &Anchor) -> Option<(&'a Chord<'a>, f32)> {
    let galley = setting.order.galley;
    let staff = staff_index(galley.part, anchor.staff);
    let here = |(_, chord, _): &(usize, &Chord, f32)| {
        let voices = &galley.part.bars[galley.bars[chord.bar].index].written.voices;
        let same_voice = voices.get(chord.voice).is_some_and(|voice| voice.name == anchor.voice);
        let in_bar = galley.bars[chord.bar].index as isize == anchor.bar;
        in_bar && same_voice && chord.at - galley.bars[chord.bar].start == anchor.at
    };
    let mut found: Vec<(&Chord, f32)> = setting.order.chords().filter(here).map(|(_, chord, x)| (chord, x)).collect();
    if found.iter().any(|(chord, _)| chord.staff == staff) {
        found.retain(|(chord, _)| chord.staff == staff || chord.crosses());
    }
    let graces = found.iter().filter(|(chord, _)| chord.is_grace()).count();
    let nth = graces.checked_sub(usize::from(anchor.grace))?;
    found.get(nth).copied().or(found.last().copied())
}

/// From the start of the part's first bar.
fn time(setting: &Setting, anchor: &Anchor) -> f32 {
    let bars = &setting.order.galley.bars;
    let index = |bar: &&super::chords::ReadyBar| bar.index as isize == anchor.bar;
    let last = bars.last().map_or(0.0, |bar| quarters(bar.start) + bar.length);
    match bars.iter().find(index) {
        Some(bar) => quarters(bar.start) + quarters(anchor.at),
        None if bars.first().is_some_and(|bar| anchor.bar < bar.index as isize) => f32::MIN,
        None => last + 1.0,
    }
}

/// The times shown: first and end.
fn shown(setting: &Setting) -> (f32, f32) {
    let columns = setting.order.columns;
    let first = columns.iter().find(|column| column.is_notes()).map_or(0.0, |column| quarters(column.at));
    let last = columns.iter().rev().find(|column| column.is_notes()).map_or(0.0, |column| quarters(column.at));
    (first, last)
}

/// Where a time is: at its column or between.
fn x_at(setting: &Setting, time: f32) -> f32 {
    let notes = || setting.order.columns.iter().filter(|column| column.is_notes() || column.holds == Holds::Barline);
    let before = notes().rfind(|column| quarters(column.at) <= time + 1e-3);
    let after = notes().find(|column| quarters(column.at) > time + 1e-3);
    match (before, after) {
        (Some(before), Some(after)) => {
            let (a, b) = (quarters(before.at), quarters(after.at));
            before.x + (after.x - before.x) * ((time - a) / (b - a).max(1e-3)).clamp(0.0, 1.0)
        }
        (Some(column), None) | (None, Some(column)) => column.x,
        (None, None) => 0.0,
    }
}

/// Whether something from one time to another is partly shown.
fn is_shown(setting: &Setting, spanner: &Spanner) -> bool {
    let (first, last) = shown(setting);
    time(setting, &spanner.from) <= last + 1e-3 && time(setting, &spanner.to) >= first - 1e-3
}

/// Slurs and tuplets: near the notes.
pub fn near(setting: &mut Setting) {
    let spanners = &setting.order.galley.part.spanners;
    for spanner in spanners.iter().filter(|spanner| matches!(spanner.kind, Spans::Tuplet { .. })) {
        if is_shown(setting, spanner) {
            tuplet(setting, spanner);
        }
    }
    for spanner in spanners.iter().filter(|spanner| spanner.kind == Spans::Slur) {
        if is_shown(setting, spanner) {
            slur(setting, spanner);
        }
    }
}

/// The left edge of the music, after clef and signatures.
fn begin(setting: &Setting) -> f32 {
    setting.order.columns.first().map_or(0.0, |column| column.x - column.reach()[0]) - 0.6
}

fn slur(setting: &mut Setting, spanner: &Spanner) {
    let (from, to) = (anchored(setting, &spanner.from), anchored(setting, &spanner.to));
    let Some((chord, _)) = from.or(to) else { return };
    let above = spanner.above.unwrap_or_else(|| slur_above(setting, spanner, chord));
    let toward = if above { -1.0 } else { 1.0 };
    let end = |found: Option<(&Chord, f32)>, otherwise: f32| match found {
        Some((chord, x)) => slur_end(setting, chord, x, above),
        None => (otherwise, if above { -1.5 } else { STAFF + 1.5 }),
    };
    let (mut a, mut b) = (end(from, begin(setting)), end(to, setting.order.width));
    if from.is_none() {
        a.1 = b.1 + 0.5 * toward;
    }
    if to.is_none() {
        b.1 = a.1 + 0.5 * toward;
    }
    if b.0 < a.0 + 0.8 {
        return;
    }
    let staff = chord.staff;
    let needed = slur_height(setting, staff, a, b, above);
    let height = needed.min(0.8 + 0.3 * (b.0 - a.0)).min(HIGHEST_SLUR);
    // What an arc of this height does not clear it clears by standing further off.
    let off = 0.8 * (needed - height).min(4.0);
    (a.1, b.1) = (a.1 + toward * off, b.1 + toward * off);
    for step in 1..8 {
        let (left, right) = (step as f32 / 9.0, (step + 1) as f32 / 9.0);
        let y = |part: f32| a.1 + part * (b.1 - a.1) + toward * 4.0 * part * (1.0 - part) * height;
        let (x0, x1) = (a.0 + left * (b.0 - a.0), a.0 + right * (b.0 - a.0));
        let (top, bottom) = (y(left).min(y(right)), y(left).max(y(right)));
        setting.pen.take(staff, [x0, top - 0.1, x1, bottom + 0.1]);
    }
    let ink = ink_between(setting, spanner, staff);
    setting.pen.mark(staff, ink, lens(a, b, toward * height, CURVE_MIDDLE));
}

/// Full where both ends are played now, else as the fainter one.
fn ink_between(setting: &Setting, spanner: &Spanner, staff: usize) -> Ink {
    let ink = |anchor: &Anchor| match anchored(setting, anchor) {
        Some((chord, _)) => Some(setting.order.ink(chord)),
        None => {
            let bars = &setting.order.galley.bars;
            let bar = bars.iter().find(|bar| bar.index as isize == anchor.bar)?;
            Some((setting.order.inks)(bar.start + anchor.at, staff, true))
        }
    };
    // An end that is cut off is as the other one.
    let (from, to) = (ink(&spanner.from), ink(&spanner.to));
    match (from.or(to).unwrap_or(Ink::Faint), to.or(from).unwrap_or(Ink::Faint)) {
        (Ink::Full, Ink::Full) => Ink::Full,
        (Ink::Resting, Ink::Resting) => Ink::Resting,
        _ => Ink::Faint,
    }
}

/// Over the notes unless all stems point up; in company outside.
fn slur_above(setting: &Setting, spanner: &Spanner, chord: &Chord) -> bool {
    if let Some(upper) = chord.company {
        return upper;
    }
    let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
    let inside = setting.order.chords().filter(|(_, other, _)| {
        let at = quarters(other.at);
        !other.is_rest() && other.staff == chord.staff && other.voice == chord.voice && from <= at && at <= to
    });
    inside.map(|(_, other, _)| other).any(|other| !other.up || !other.has_stem())
}

/// At the head, or over the stem where that is on this side.
fn slur_end(setting: &Setting, chord: &Chord, x: f32, above: bool) -> Point {
    let [highest, lowest] = chord.ends();
    let middle = x + chord.dx + 0.5 * chord.head_width();
    if chord.is_rest() {
        return (middle, if above { chord.rest - 1.5 } else { chord.rest + 1.5 });
    }
    let at_stem = chord.has_stem() && chord.up == above;
    let x = if at_stem { x + chord.stem_x() } else { middle };
    let signed = &setting.pen.skylines[chord.staff];
    let y = if above {
        (if at_stem { setting.tip(chord, middle) } else { highest - 0.5 }).min(near_signs(
            chord,
            signed.above(middle - 0.1, middle + 0.1),
            highest - 2.2,
        ))
    } else {
        (if at_stem { setting.tip(chord, middle) } else { lowest + 0.5 }).max(near_signs(
            chord,
            signed.below(middle - 0.1, middle + 0.1),
            lowest + 2.2,
        ))
    };
    (x, y + if above { -APART } else { APART })
}

/// A slur goes round the articulations of its end notes; the staff's own edge does not count.
fn near_signs(chord: &Chord, edge: f32, most: f32) -> f32 {
    let [highest, lowest] = chord.ends();
    if chord.event.articulations.is_empty() {
        0.5 * (highest + lowest)
    } else if most < lowest {
        edge.max(most)
    } else {
        edge.min(most)
    }
}

const HIGHEST_SLUR: f32 = 4.0;

/// A slur is a shallow arc that clears what is under it.
fn slur_height(setting: &Setting, staff: usize, a: Point, b: Point, above: bool) -> f32 {
    let length = b.0 - a.0;
    let natural = (0.5 + 0.09 * length).clamp(0.7, 2.4);
    let line = &setting.pen.skylines[staff];
    let mut height = natural;
    for step in 1..12 {
        let part = step as f32 / 12.0;
        let x = a.0 + part * length;
        let chord = a.1 + part * (b.1 - a.1);
        let edge = if above { chord - line.above(x - 0.1, x + 0.1) } else { line.below(x - 0.1, x + 0.1) - chord };
        // Lines of the staff itself may be crossed.
        let outside =
            if above { line.above(x - 0.1, x + 0.1) < -0.01 } else { line.below(x - 0.1, x + 0.1) > STAFF + 0.01 };
        if outside {
            height = height.max((edge + APART) / (4.0 * part * (1.0 - part)).max(0.4));
        }
    }
    height
}

fn tuplet(setting: &mut Setting, spanner: &Spanner) {
    let Spans::Tuplet { figure, bracket } = spanner.kind else { return };
    let (Some((first, x)), Some((last, end))) = (anchored(setting, &spanner.from), anchored(setting, &spanner.to))
    else {
        return;
    };
    let above = spanner.above.unwrap_or(first.company.unwrap_or(first.up || first.is_rest()));
    let beamed = first.beam.is_some() && first.beam == last.beam && first.up == above;
    let bracketed = bracket.unwrap_or(!beamed);
    let (left, right) = (x + first.dx.min(0.0), end + last.dx + last.head_width());
    let size = setting.order.text;
    let text = figure.to_string();
    let half = 0.5 * text_width(&text, size);
    let height = TEXT_HEIGHT * size;
    let line = &setting.pen.skylines[first.staff];
    let middle = 0.5 * (left + right);
    let (from, to) = if bracketed { (left, right) } else { (middle - half, middle + half) };
    let y =
        if above { line.above(from, to) - APART - 0.5 * height } else { line.below(from, to) + APART + 0.5 * height };
    let ink = setting.order.ink(first);
    let toward = if above { 1.0 } else { -1.0 };
    if bracketed {
        let hook = y + toward * 0.5 * height;
        for (from, to) in [
            ((left, hook), (left, y)),
            ((left, y), (middle - half - 0.2, y)),
            ((middle + half + 0.2, y), (right, y)),
            ((right, y), (right, hook)),
        ] {
            if from.0 <= to.0 {
                setting.pen.line(first.staff, ink, from, to, BRACKET);
            }
        }
        setting.pen.take(first.staff, [left, y - 0.5 * height, right, y + 0.5 * height]);
    }
    setting.pen.text(first.staff, ink, (middle, y), size, true, text);
}

/// Dynamics, hairpins, octave signs, pedal marks, endings: far from the notes.
pub fn far(setting: &mut Setting) {
    octaves(setting);
    for staff in 0..setting.order.galley.staves() {
        dynamics(setting, staff);
    }
    pedals(setting);
    endings(setting);
}

/// One dynamic mark or hairpin to be placed: what it covers and what it is.
enum Loud<'a> {
    Mark { x: f32, text: &'a str },
    Hairpin { left: f32, right: f32, opens: bool },
}

/// All that says how loud, on one line under the staff: the middle of the hairpins is the middle of the letters.
fn dynamics(setting: &mut Setting, staff: usize) {
    let size = setting.order.text;
    let scale = letter_scale(size);
    let mut placed: Vec<(Loud, Ink)> = Vec::new();
    for column in setting.order.columns.iter().filter(|column| column.is_notes()) {
        let galley = setting.order.galley;
        let ready = &galley.bars[column.bar];
        let bar = &galley.part.bars[ready.index];
        let next = next_column(setting, column.at);
        let here = bar.dynamics.iter().filter(|mark| {
            let at = ready.start + mark.at;
            staff_index(galley.part, mark.staff) == staff
                && column.at <= at
                && next.map_or(at == column.at, |next| at < next)
        });
        for mark in here {
            let ink = loud((setting.order.inks)(ready.start + mark.at, staff, false));
            let x = x_at(setting, quarters(ready.start + mark.at)) + 0.5 * Glyph::HeadBlack.width();
            placed.push((Loud::Mark { x, text: &mark.mark }, ink));
        }
    }
    hairpins(setting, staff, scale, &mut placed);
    let half = 0.9 * scale;
    let extent = |loud: &Loud| match loud {
        Loud::Mark { x, text } => (x - 0.5 * mark_width(text, scale), x + 0.5 * mark_width(text, scale)),
        Loud::Hairpin { left, right, .. } => (*left, *right),
    };
    let line = &setting.pen.skylines[staff];
    let needs = placed.iter().map(|(loud, _)| line.below(extent(loud).0, extent(loud).1) + APART + half);
    let y = needs.fold(STAFF + 1.2, f32::max);
    let mut free = f32::MIN;
    for (loud, ink) in &placed {
        let (left, right) = extent(loud);
        match loud {
            Loud::Mark { x, text } => {
                // Two marks at one place stand behind one another.
                let shift = (free - left).max(0.0);
                draw_mark(setting, staff, *ink, (x + shift, y), text, scale);
                free = right + shift + 0.3;
            }
            Loud::Hairpin { opens, .. } => {
                let (thin, wide) = if *opens { (left, right) } else { (right, left) };
                for side in [-0.6, 0.6] {
                    setting.pen.line(staff, *ink, (thin, y), (wide, y + side * scale.min(1.3)), HAIRPIN);
                }
                setting.pen.take(staff, [left, y - half, right, y + half]);
            }
        }
    }
}

/// How loud it is concerns both hands, also the one that does not play on the staff where it is written.
fn loud(ink: Ink) -> Ink {
    if ink == Ink::Resting { Ink::Full } else { ink }
}

fn next_column(setting: &Setting, at: Quarters) -> Option<Quarters> {
    setting.order.columns.iter().filter(|column| column.is_notes() && column.at > at).map(|column| column.at).next()
}

fn hairpins(setting: &Setting, staff: usize, scale: f32, placed: &mut Vec<(Loud, Ink)>) {
    let order = setting.order;
    for spanner in &order.galley.part.spanners {
        let opens = spanner.kind == Spans::Crescendo;
        let here =
            (opens || spanner.kind == Spans::Diminuendo) && staff_index(order.galley.part, spanner.from.staff) == staff;
        if !here || !is_shown(setting, spanner) {
            continue;
        }
        let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
        let (first, _) = shown(setting);
        let mut left = if from < first { begin(setting) } else { x_at(setting, from) };
        let mut right = x_at(setting, to).min(order.width - 0.4);
        for (loud, _) in placed.iter() {
            let Loud::Mark { x, text } = loud else { continue };
            let half = 0.5 * mark_width(text, scale) + 0.4;
            if *x - half <= left + 0.5 && left < x + half {
                left = x + half;
            } else if *x > left && x - half < right {
                right = x - half;
            }
        }
        if right < left + 1.0 {
            right = left + 1.0;
        }
        if right < order.width {
            placed.push((Loud::Hairpin { left, right, opens }, loud(ink_between(setting, spanner, staff))));
        }
    }
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
        setting.pen.glyph(staff, ink, glyph, (left - scale * bearing, y + 0.5 * scale), scale);
        left += advance(glyph, scale);
    }
}

fn octaves(setting: &mut Setting) {
    let order = setting.order;
    for spanner in &order.galley.part.spanners {
        let Spans::Octave(octaves) = spanner.kind else { continue };
        if octaves == 0 || !is_shown(setting, spanner) {
            continue;
        }
        let staff = staff_index(order.galley.part, spanner.from.staff);
        let above = spanner.above.unwrap_or(octaves > 0);
        let text = match (octaves.unsigned_abs() > 1, above) {
            (false, true) => "8va",
            (false, false) => "8vb",
            (true, true) => "15ma",
            (true, false) => "15mb",
        };
        let (first, _) = shown(setting);
        let from = time(setting, &spanner.from);
        let left = if from < first { begin(setting) } else { x_at(setting, from) };
        let right = (x_at(setting, time(setting, &spanner.to)) + 1.4).min(order.width).max(left + 1.0);
        let (size, ink) = (order.text, ink_between(setting, spanner, staff));
        let half = 0.5 * text_width(text, size);
        let height = TEXT_HEIGHT * size;
        let line = &setting.pen.skylines[staff];
        let y = if above {
            line.above(left - half, right) - APART - 0.5 * height
        } else {
            line.below(left - half, right) + APART + 0.5 * height
        };
        setting.pen.text(staff, ink, (left + half - 0.2, y), size, true, text.to_string());
        let rail = if above { y - 0.4 * height } else { y + 0.4 * height };
        let mut x = left + 2.0 * half + 0.2;
        while x < right - 0.2 {
            setting.pen.line(staff, ink, (x, rail), ((x + 0.6).min(right), rail), BRACKET);
            x += 1.1;
        }
        let hook = if above { rail + 0.8 } else { rail - 0.8 };
        setting.pen.line(staff, ink, (right, rail), (right, hook), BRACKET);
        setting.pen.take(staff, [left - half, y - 0.5 * height, right, y + 0.5 * height]);
    }
}

/// Under the lowest staff of the instrument, all of a system on one line.
fn pedals(setting: &mut Setting) {
    let order = setting.order;
    let staff = order.galley.staves() - 1;
    let pedals: Vec<&Spanner> = order
        .galley
        .part
        .spanners
        .iter()
        .filter(|spanner| spanner.kind == Spans::Pedal && is_shown(setting, spanner))
        .collect();
    if pedals.is_empty() {
        return;
    }
    let y = setting.pen.skylines[staff].below(0.0, order.width) + APART + 1.75;
    let (first, last) = shown(setting);
    let mut free = f32::MIN;
    for spanner in pedals {
        let (from, to) = (time(setting, &spanner.from), time(setting, &spanner.to));
        for (glyph, at, anchor) in [(Glyph::Pedal, from, &spanner.from), (Glyph::PedalUp, to, &spanner.to)] {
            if at < first - 1e-3 || at > last + 1e-3 && glyph == Glyph::Pedal || at > last + 64.0 {
                continue;
            }
            let [left, _, right, _] = glyph.extent();
            let x = (x_at(setting, at) - if glyph == Glyph::PedalUp { 1.2 } else { 0.2 }).max(free - left);
            if x + right > order.width {
                continue;
            }
            let bars = &order.galley.bars;
            let bar = bars.iter().find(|bar| bar.index as isize == anchor.bar);
            let ink = bar.map_or(Ink::Faint, |bar| (order.inks)(bar.start + anchor.at, staff, true));
            setting.pen.glyph(staff, ink, glyph, (x, y), 1.0);
            free = x + right + 0.3;
        }
    }
}

/// Brackets over the bars of an ending.
fn endings(setting: &mut Setting) {
    let order = setting.order;
    let size = order.text;
    let mut bars: Vec<usize> =
        order.columns.iter().filter(|column| column.is_notes()).map(|column| column.bar).collect();
    bars.dedup();
    for bar in bars {
        let written = &order.galley.part.bars[order.galley.bars[bar].index].written;
        let Some(ending) = &written.ending else { continue };
        let of_bar = || order.columns.iter().filter(|column| column.bar == bar);
        let (Some(first), Some(last)) = (of_bar().find(|column| column.is_notes()), of_bar().next_back()) else {
            continue;
        };
        let left = (first.x - first.reach()[0] - 0.6).max(0.0);
        let right = if last.holds == Holds::Barline { last.x } else { last.x + 1.5 };
        let height = TEXT_HEIGHT * size + 0.4;
        let text: String = ending.text.chars().take(8).collect();
        let width = text_width(&text, size);
        let below = setting.pen.skylines[0].above(left, right.max(left + width));
        let y = below - APART - height;
        setting.pen.line(0, Ink::Faint, (left, y), (right, y), BRACKET);
        if ending.begins {
            setting.pen.line(0, Ink::Faint, (left, y), (left, y + height), BRACKET);
            setting.pen.text(0, Ink::Faint, (left + 0.3 + 0.5 * width, y + 0.55 * height), size, false, text);
        }
        if ending.ends == EndingEnd::Hook {
            setting.pen.line(0, Ink::Faint, (right, y), (right, y + height), BRACKET);
        }
        setting.pen.take(0, [left, y, right.max(left + 0.3 + width), y + height]);
    }
}
