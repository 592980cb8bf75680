//! What a column covers, and how far from the next one its duration puts it (Gourlay 1986, "Spacing a line of music":
//! the spring of the shortest note that sounds).

use crate::{
    music::{Quarters, passage::Articulation, written::Barline},
    notation::engraving::{
        metrics::{AUGMENTATION_DOT, LEDGER_OUT, QUARTER_SPACE, STAFF, STEM},
        pen::{Bounds, covered, text_width},
        prepared::{
            accidentals, articulations,
            chords::{Chord, DOT_STEP},
            clefs::clefs_at_end,
            galley::Galley,
            places::{INSTANT, quarters, staff_index},
            tremolos,
        },
        spaced::{signatures, ties},
    },
};
use std::rc::Rc;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// What begins together: index among the bar's columns.
    Notes(usize),
    /// Grace notes at the end of the bar, whose main note stands in the next or nowhere.
    Graces(usize),
    /// The line that ends the bar, and opens the next one.
    Barline,
    /// The line that opens the first bar of a system.
    Opening,
    /// A key or time signature that changes with the bar.
    Signature,
}

/// One column. Rectangles are counted from its left edge.
pub struct Column {
    pub holds: Holds,
    /// Index in the galley.
    pub bar: usize,
    /// From the start of the part's first bar.
    pub at: Quarters,
    /// With their staves.
    pub boxes: Rc<[(usize, Bounds)]>,
    /// How many of them, the last ones, are clefs that change here.
    clefs: usize,
    /// How far its grace notes reach to the left: they have a place of their own.
    pub graces: f32,
    /// The fingerings in it, and the size of text in which they stand.
    pub fingers: Rc<[Finger]>,
    pub text: f32,
    /// Natural distance to the next column.
    pub spring: f32,
    pub x: f32,
}

/// The fingering of a chord: its staff, its middle from the column, and its width in text of size 1.
pub struct Finger {
    pub staff: usize,
    middle: f32,
    width: f32,
}

impl Finger {
    /// From where to where it reaches in text of a size.
    pub fn reach(&self, text: f32) -> [f32; 2] {
        let half = 0.5 * text * self.width;
        [self.middle - half, self.middle + half + BESIDE_FINGER]
    }
}

/// Farther up and down than anything stands from its staff.
const ALL_HEIGHTS: f32 = 100.0;

/// Beside a bar line or signature: common practice, no source.
pub const BESIDE_LINE: f32 = 0.7;

/// The columns of a galley, not yet placed. Fingerings take the room of a text of this size.
pub fn columns(galley: &Galley, text: f32) -> Vec<Column> {
    let mut columns: Vec<Column> = Vec::new();
    for (bar, ready) in galley.bars.iter().enumerate() {
        if bar == 0 && galley.part.bars[ready.index].written.opens != Barline::Single {
            columns.push(Column::line(galley, bar, Holds::Opening));
        }
        if bar > 0 {
            columns.extend(Column::signature(galley, bar));
        }
        columns.extend((0..ready.columns.len()).map(|column| Column { text, ..Column::notes(galley, bar, column) }));
        columns.push(Column::line(galley, bar, Holds::Barline));
    }
    columns
}

impl Column {
    fn notes(galley: &Galley, bar: usize, column: usize) -> Column {
        let ready = &galley.bars[bar];
        let mut boxes = Vec::new();
        for chord in galley.column(bar, column) {
            cover(chord, &mut boxes);
        }
        let graces = galley.column(bar, column).filter(|chord| chord.is_grace()).map(|chord| -chord.left());
        let graces = graces.fold(0.0, f32::max);
        let length = galley.part.bars[ready.index].length;
        let at_end = ready.columns[column] == length && galley.column(bar, column).all(Chord::is_grace);
        let fingers = galley.column(bar, column).filter_map(finger).collect();
        let notes = boxes.len();
        for change in &galley.part.bars[ready.index].written.clef_changes {
            if change.at == ready.columns[column] && column > 0 && change.at < length {
                let staff = staff_index(galley.part, change.staff);
                let left = leftmost(&boxes, staff) - CLEF_BEFORE;
                boxes.push((staff, signatures::clef_box(change.clef, left)));
            }
        }
        Column {
            holds: if at_end { Holds::Graces(column) } else { Holds::Notes(column) },
            bar,
            at: ready.start + ready.columns[column],
            clefs: boxes.len() - notes,
            graces,
            boxes: boxes.into(),
            fingers,
            text: 1.0,
            spring: spring(galley, bar, column),
            x: 0.0,
        }
    }

    fn line(galley: &Galley, bar: usize, holds: Holds) -> Column {
        let ready = &galley.bars[bar];
        let at = ready.start + galley.part.bars[ready.index].length;
        let width = signatures::barline_width(galley, bar, holds == Holds::Opening);
        let clefs = clefs_at_end(galley.part, ready.index).filter(|_| holds == Holds::Barline);
        let clefs = clefs.map(|(staff, clef)| (staff, signatures::clef_box(clef, -CLEF_BEFORE)));
        Column::across(galley, bar, (holds, at), width, clefs)
    }

    fn signature(galley: &Galley, bar: usize) -> Option<Column> {
        let width = signatures::change_width(galley, bar);
        let at = (Holds::Signature, galley.bars[bar].start);
        (width > 0.0).then(|| Column::across(galley, bar, at, width, std::iter::empty()))
    }

    /// A column that reaches across all staves, with what stands before it.
    fn across(
        galley: &Galley,
        bar: usize,
        (holds, at): (Holds, Quarters),
        width: f32,
        before: impl Iterator<Item = (usize, Bounds)>,
    ) -> Column {
        let boxes = (0..galley.staves()).map(|staff| (staff, [0.0, -ALL_HEIGHTS, width, ALL_HEIGHTS]));
        Column {
            holds,
            bar,
            at,
            boxes: boxes.chain(before).collect(),
            clefs: 0,
            graces: 0.0,
            fingers: Rc::new([]),
            text: 1.0,
            spring: width + BESIDE_LINE,
            x: 0.0,
        }
    }

    /// The same column where a system begins with it: clefs that change here stand in the system's signatures.
    pub fn opening(&self) -> Column {
        let boxes = &self.boxes[..self.boxes.len() - self.clefs];
        Column { boxes: boxes.into(), clefs: 0, fingers: Rc::clone(&self.fingers), ..*self }
    }

    /// Index of its notes among the columns of its bar.
    pub fn notes_index(&self) -> Option<usize> {
        match self.holds {
            Holds::Notes(nth) | Holds::Graces(nth) => Some(nth),
            Holds::Barline | Holds::Opening | Holds::Signature => None,
        }
    }

    /// Whether it bounds a bar: what stands on either side of it is kept apart by it.
    pub fn is_line(&self) -> bool {
        self.notes_index().is_none()
    }

    /// The same column at another place.
    pub fn at_x(&self, x: f32) -> Column {
        Column { x, boxes: Rc::clone(&self.boxes), fingers: Rc::clone(&self.fingers), ..*self }
    }

    /// The same column among fewer bars, of which the first is this one of those before.
    pub fn among_bars_from(&self, first: usize) -> Column {
        Column { bar: self.bar - first, ..self.at_x(self.x) }
    }

    pub fn is_notes(&self) -> bool {
        matches!(self.holds, Holds::Notes(_))
    }

    /// How far it reaches to the left and to the right.
    pub fn reach(&self) -> [f32; 2] {
        let fingers = self.fingers.iter().map(|finger| finger.reach(self.text));
        let reaches = self.boxes.iter().map(|(_, bounds)| [bounds[0], bounds[2]]).chain(fingers);
        let [left, right] = reaches.fold([0.0_f32; 2], |[left, right], [a, b]| [left.min(a), right.max(b)]);
        [-left, right]
    }
}

/// How far the wave of an arpeggio stands out to the left, and beyond the outer heads: common practice, no source.
const ARPEGGIO: f32 = 0.75;
const ARPEGGIO_BEYOND: f32 = 0.6;

/// How far a head may stand over or under its staff without a ledger line: it touches the outer line, half a space
/// off it.
const WITHOUT_LEDGER: f32 = 0.6;
/// Room for an articulation in the next free space: common practice, no source.
const NEAR_SIGN: f32 = 2.0;
/// Room for the flags of a stem at full size: their outline is at most so wide.
const FLAG: f32 = 1.15;
/// A fingering keeps this from the next one: common practice, no source.
const BESIDE_FINGER: f32 = 0.1;
/// The box of ledger lines is this much narrower than they are, so that two may almost touch, and this much higher:
/// chosen.
const LEDGER_SLACK: f32 = 0.1;
/// No spring is shorter than for a 64th, nor longer than for sixteen whole notes, in quarters.
const SHORTEST: f32 = 1.0 / 64.0;
const LONGEST: f32 = 64.0;

/// Whether heads from `highest` to `lowest` need ledger lines over or under their staff.
fn ledgers([highest, lowest]: [f32; 2]) -> [bool; 2] {
    [highest < -WITHOUT_LEDGER, lowest > STAFF + WITHOUT_LEDGER]
}

/// The left edge of a chord's arpeggio: before its accidentals and ledger lines.
pub fn arpeggio_left(chord: &Chord) -> f32 {
    let out = if ledgers(chord.ends()).contains(&true) { LEDGER_OUT } else { 0.0 };
    chord.left().min(chord.dx - out) - ARPEGGIO
}

/// Distance of a clef before what it stands before: common practice, no source.
pub const CLEF_BEFORE: f32 = 0.35;

/// The left edge of what a staff has in a column.
pub fn leftmost(boxes: &[(usize, Bounds)], staff: usize) -> f32 {
    boxes.iter().filter(|(on, _)| *on == staff).map(|(_, bounds)| bounds[0]).fold(0.0, f32::min)
}

/// What a chord covers beside heads: accidentals, dots, flag, the stem's nominal length, ledger lines.
fn cover(chord: &Chord, boxes: &mut Vec<(usize, Bounds)>) {
    if chord.is_rest() {
        boxes.extend(chord.rest_places().map(|at| (chord.staff, covered(chord.rest_glyph(), at, chord.scale))));
    }
    for head in &chord.heads {
        boxes.push((head.staff, chord.head_box(head)));
        boxes.extend(ties::room(chord, head).map(|room| (head.staff, room)));
        if let Some(accidental) = &head.accidental {
            let [left, top, right, bottom] = accidentals::extent(accidental, head.y, chord.scale);
            boxes.push((head.staff, [accidental.dx + left, top, accidental.dx + right, bottom]));
        }
    }
    if chord.event.articulations.iter().any(|sign| articulations::is_near(*sign)) {
        // Room for a sign in the next free space.
        let ([highest, lowest], above) = (chord.ends(), articulations::above_head(chord));
        let (top, bottom) = if above { (highest - NEAR_SIGN, highest) } else { (lowest, lowest + NEAR_SIGN) };
        boxes.push((chord.staff, [chord.dx, top, chord.dx + chord.head_width(), bottom]));
    }
    if chord.event.articulations.contains(&Articulation::Arpeggio) {
        let [highest, lowest] = chord.ends();
        let left = arpeggio_left(chord);
        boxes.push((chord.staff, [left, highest - ARPEGGIO_BEYOND, left + ARPEGGIO, lowest + ARPEGGIO_BEYOND]));
    }
    boxes.extend(tremolos::room(chord).map(|room| (chord.staff, room)));
    if chord.event.dots > 0 {
        let right = chord.dots + DOT_STEP * f32::from(chord.event.dots.min(4));
        let ys = chord.heads.iter().filter_map(|head| head.dot).chain(chord.is_rest().then_some(chord.rest_dot()));
        let half = 0.5 * AUGMENTATION_DOT;
        boxes.extend(ys.map(|y| (chord.staff, [chord.dots, y - half, right, y + half])));
    }
    if chord.has_stem() && !chord.crosses() {
        let (x, tip, foot) = (chord.stem_x(), chord.stem_tip(), chord.stem_foot());
        let flag = if chord.beam.is_none() && chord.flags() > 0 { FLAG * chord.scale } else { 0.5 * STEM };
        boxes.push((chord.staff, [x - 0.5 * STEM, tip.min(foot), x + flag, tip.max(foot)]));
    }
    let [highest, lowest] = chord.ends();
    let [over, under] = ledgers([highest, lowest]);
    if !chord.is_rest() && !chord.is_grace() && (over || under) {
        let out = LEDGER_OUT - LEDGER_SLACK;
        let (top, bottom) = if over { (highest, -1.0) } else { (STAFF + 1.0, lowest) };
        boxes.push((chord.staff, [chord.dx - out, top - LEDGER_SLACK, chord.right() + out, bottom + LEDGER_SLACK]));
    }
}

/// Fingerings stand in rows of their own, so they only meet one another.
fn finger(chord: &Chord) -> Option<Finger> {
    let fingers = chord.heads.iter().filter_map(|head| head.head.fingering.as_deref());
    let width = fingers.map(|finger| text_width(finger, 1.0)).fold(0.0, f32::max);
    let middle = chord.dx + 0.5 * chord.head_width();
    (width > 0.0).then_some(Finger { staff: chord.staff, middle, width })
}

/// The natural distance to what begins next.
fn spring(galley: &Galley, bar: usize, column: usize) -> f32 {
    let ready = &galley.bars[bar];
    let begins = quarters(ready.columns[column]);
    let next = ready.columns.get(column + 1).map_or(ready.length, |next| quarters(*next));
    let gap = (next - begins).max(0.0);
    let chords = &galley.chords[ready.chords.clone()];
    let sounding = chords.iter().filter(|chord| {
        !chord.is_grace()
            && chord.lasts > INSTANT
            && chord.begins <= begins + INSTANT
            && chord.begins + chord.lasts > begins + INSTANT
    });
    let shortest = sounding.map(|chord| chord.lasts).fold(f32::MAX, f32::min).min(LONGEST).max(gap).max(SHORTEST);
    QUARTER_SPACE * shortest.sqrt() * gap / shortest
}
