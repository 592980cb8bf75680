//! The engraver of a system: what is to be drawn, and what has been drawn so far.
//!
//! All signs of a system take it and add their marks to it.

use crate::{
    music::Quarters,
    notation::{
        drawing::Ink,
        engraving::{
            pen::Pen,
            prepared::{beaming::Lie, chords::Chord, galley::Galley},
            spaced::{
                columns::{Column, Holds},
                line_breaks::LEAD,
            },
        },
        glyph::Glyph,
    },
};

/// In which ink what stands at a place of a staff is drawn; whether it is a tied continuation or a rest
/// matters at the end of what is played.
pub type Inks<'a> = dyn Fn(Quarters, usize, bool) -> Ink + 'a;

/// The input for drawing a system.
pub struct SystemPlan<'a> {
    pub galley: &'a Galley<'a>,
    pub columns: &'a [Column],
    /// Where the staves end.
    pub width: f32,
    pub inks: &'a Inks<'a>,
    /// Whether the hand on a staff plays now: fingers are shown of those that do.
    pub plays: &'a dyn Fn(usize) -> bool,
    /// Size of fingerings, dynamics and numbers.
    pub text: f32,
    /// Whether the time signature stands at the begin.
    pub meter: bool,
    /// Whether each bar is numbered, or only the first of the system.
    pub number_all: bool,
    /// Signs over columns: the goal, what the step arrives at, where it is entered.
    pub crowns: &'a [(Quarters, Crown)],
    /// How far each staff's top line is below that of the first at least; none for as little as can be.
    pub tops: &'a [f32],
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crown {
    Goal,
    Aim,
    Entry,
}

/// A system being drawn.
pub struct Engraver<'a> {
    pub plan: &'a SystemPlan<'a>,
    pub pen: Pen,
    /// How each beam of the galley lies, once it is settled.
    pub lies: Vec<Option<Lie>>,
    /// The chords that are shown, column by column, with the x of their columns.
    placed: &'a [(&'a Chord<'a>, f32)],
    /// Of each chord of the galley that is shown: the x of its column and its ink.
    shown: Vec<Option<(f32, Ink)>>,
    /// How many marks there are of the notes with their nearest signs: what slurs go round.
    pub notes: usize,
}

/// Least distance between signs: common practice, no source.
const APART: f32 = 0.3;

impl SystemPlan<'_> {
    pub fn chords(&self) -> impl Iterator<Item = (&Chord<'_>, f32)> {
        self.columns.iter().flat_map(|column| {
            let chords = column.notes_index().into_iter().flat_map(|nth| self.galley.column(column.bar, nth));
            chords.map(|chord| (chord, if chord.is_bar_rest() { self.mid_bar(column.bar, chord) } else { column.x }))
        })
    }

    /// The left edge of a bar's rest, which stands in the middle between the bar lines or signatures around it (Gould
    /// 2011, "Rests", from memory); between what is shown of its bar where a line is not shown.
    fn mid_bar(&self, bar: usize, rest: &Chord) -> f32 {
        let of_bar = |column: &&Column| column.bar == bar && column.notes_index().is_some();
        let first = self.columns.iter().position(|column| of_bar(&column)).unwrap_or(0);
        let left = match first.checked_sub(1).map(|before| &self.columns[before]) {
            Some(line) => line.x + line.reach()[1],
            None => self.columns[first].x - self.columns[first].reach()[0] - LEAD,
        };
        let line = self.columns[first..].iter().find(|column| column.holds == Holds::Barline);
        let right = match line {
            Some(line) => line.x - line.reach()[0],
            None => self.columns.iter().rev().find(of_bar).map_or(left, |last| last.x + last.reach()[1]),
        };
        0.5 * (left + right - rest.scale * rest.rest_glyph().width())
    }

    fn ink(&self, chord: &Chord) -> Ink {
        let holds_on = !chord.is_rest() && chord.heads.iter().all(|head| head.head.tied_from);
        (self.inks)(chord.at, chord.staff, holds_on)
    }
}

impl<'a> Engraver<'a> {
    /// Nothing drawn yet; `placed` are the chords of the plan.
    pub fn new(plan: &'a SystemPlan<'a>, placed: &'a [(&'a Chord<'a>, f32)]) -> Self {
        let pen = Pen::new(plan.galley.staves(), plan.width);
        let mut shown = vec![None; plan.galley.chords.len()];
        placed.iter().for_each(|(chord, x)| shown[chord.index] = Some((*x, plan.ink(chord))));
        let lies = vec![None; plan.galley.beams.len()];
        Engraver { plan, pen, lies, placed, shown, notes: 0 }
    }

    /// The x of the column of a chord of the galley, if it is shown.
    pub fn x_of(&self, chord: usize) -> Option<f32> {
        self.shown[chord].map(|(x, _)| x)
    }

    /// The chords that are shown, column by column, with the x of their columns.
    pub fn chords(&self) -> impl Iterator<Item = (&'a Chord<'a>, f32)> + use<'a> {
        self.placed.iter().copied()
    }

    pub fn ink(&self, chord: &Chord) -> Ink {
        self.shown[chord.index].map_or(Ink::Faint, |(_, ink)| ink)
    }

    /// Where a chord's stem ends: at its beam, or as long as it is alone.
    pub fn tip(&self, chord: &Chord, x: f32) -> f32 {
        let lie = chord.beam.and_then(|beam| self.lies[beam]);
        lie.map_or(chord.stem_tip(), |lie| lie.at(x + chord.stem_x()))
    }

    /// The members of a beam that are shown.
    pub fn members(&self, beam: usize) -> Vec<(&'a Chord<'a>, f32)> {
        let galley = self.plan.galley;
        galley.beams[beam].iter().filter_map(|index| Some((&galley.chords[*index], self.x_of(*index)?))).collect()
    }

    /// Whether a beam that is shown reaches from staff to staff.
    pub fn is_across(&self, beam: usize) -> bool {
        let shown = || self.plan.galley.beams[beam].iter().filter(|index| self.x_of(**index).is_some());
        self.lies[beam].is_none() && shown().nth(1).is_some()
    }

    /// The y of the middle of something `height` high, over or under all that is there.
    pub fn beyond(&self, staff: usize, above: bool, (left, right): (f32, f32), height: f32) -> f32 {
        let line = &self.pen.skylines[staff];
        if above {
            line.above(left, right) - APART - 0.5 * height
        } else {
            line.below(left, right) + APART + 0.5 * height
        }
    }

    /// A glyph centred on x, over or under all that is there.
    pub fn put(&mut self, staff: usize, ink: Ink, glyph: Glyph, x: f32, above: bool) {
        let [left, top, right, bottom] = glyph.extent();
        let half = 0.5 * (right - left);
        let middle = self.beyond(staff, above, (x - half, x + half), bottom - top);
        self.pen.glyph(staff, ink, glyph, (x - half - left, middle - 0.5 * (top + bottom)), 1.0);
    }
}
