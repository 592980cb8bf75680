//! One note, chord or rest made ready for any system: its heads, where its stem stands, what it covers.

use crate::{
    music::{
        Part, Quarters,
        written::{Clef, Diatonic, Event, Head, Kind, Stem, Value},
    },
    notation::{
        engraving::{
            metrics::{BEAM_STEP, GRACE, MIDDLE_LINE, STAFF, STEM, STEM_FOOT, STEM_LENGTH},
            pen::Bounds,
            prepared::{
                clefs::clef_at,
                places::{height, quarters, staff_index},
            },
        },
        glyph::Glyph,
    },
    sort,
};

/// A note, a chord or a rest.
pub struct Chord<'a> {
    pub event: &'a Event,
    /// Index in the galley: its own, its bar's and, in the bar, its column's.
    pub index: usize,
    pub bar: usize,
    pub column: usize,
    /// From the start of the part's first bar.
    pub at: Quarters,
    /// From the start of the bar and how long, in quarters.
    pub begins: f32,
    pub lasts: f32,
    pub voice: usize,
    /// The staff of the lowest head or of the rest; 0 is the uppermost.
    pub staff: usize,
    /// The lowest first; none at a rest.
    pub heads: Vec<ReadyHead<'a>>,
    /// Whether another voice sounds on the same staff at the same time, and this is then the upper.
    pub company: Option<bool>,
    pub up: bool,
    /// Index among the beams.
    pub beam: Option<usize>,
    /// How far the left edge of its heads stands from that of its column.
    pub dx: f32,
    pub scale: f32,
    /// The middle of a rest.
    pub rest: f32,
    /// The left edge of its dots from its column.
    pub dots: f32,
    /// Of the tremolo between this chord and another.
    pub strokes: u8,
}

pub struct ReadyHead<'a> {
    pub head: &'a Head,
    pub staff: usize,
    /// From the staff's top line.
    pub y: f32,
    /// From the chord's `dx`.
    pub dx: f32,
    pub accidental: Option<ReadyAccidental>,
    /// Of its dots, if it has any.
    pub dot: Option<f32>,
}

/// An accidental, its left edge counted from the column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadyAccidental {
    pub glyph: Glyph,
    pub bracketed: bool,
    pub dx: f32,
}

/// From one dot of a note to its next: common practice, no source.
pub const DOT_STEP: f32 = 0.55;
/// How far each flag of a rest stands left of the one above it, as its glyph is drawn.
const REST_SLANT: f32 = 0.31;
/// From the middle of a rest to where heads would be: chosen.
const REST_ENDS: f32 = 1.0;
/// What is nearer than this to the middle of a head touches it, be it a line or another head: between one step and two.
pub const TOUCHES_HEAD: f32 = 0.75;
/// How much longer an upward stem with flags is where a dot stands under them: common practice, no source.
const FLAG_OVER_DOT: f32 = 0.75;
/// How much shorter a stem in company is that points away from the staff (Gould 2011, "Stems", from memory).
const SHORTER_AWAY: f32 = 0.5;
/// No file places a head or a rest further outside its staff: chosen.
const FURTHEST_HEAD: f32 = 20.0;
const FURTHEST_REST: f32 = 6.0;

/// The y of a place in a clef, at most so far outside the staff.
fn placed(place: Diatonic, clef: Clef, furthest: f32) -> f32 {
    let steps = place.0.saturating_sub(clef.lowest_line().0);
    height(f32::from(steps)).clamp(-furthest, STAFF + furthest)
}

impl<'a> Chord<'a> {
    pub fn new(event: &'a Event, part: &Part, bar: usize, voice: usize, at: Quarters) -> Self {
        let set = |head: &'a Head| {
            let staff = staff_index(part, head.staff);
            let y = placed(head.place, clef_at(part, bar, staff, at), FURTHEST_HEAD);
            ReadyHead { head, staff, y, dx: 0.0, accidental: None, dot: None }
        };
        let mut heads: Vec<ReadyHead> = match &event.kind {
            Kind::Notes(heads) => heads.iter().map(set).collect(),
            Kind::Rest { .. } => Vec::new(),
        };
        sort::by(&mut heads, |a, b| (b.staff, b.y).partial_cmp(&(a.staff, a.y)).unwrap_or(std::cmp::Ordering::Equal));
        let (staff, rest) = match &event.kind {
            Kind::Rest { staff, place, .. } => {
                let staff = staff_index(part, *staff);
                let clef = clef_at(part, bar, staff, at);
                (staff, place.map_or(f32::NAN, |place| placed(place, clef, FURTHEST_REST)))
            }
            Kind::Notes(_) => (heads.first().map_or(0, |head| head.staff), MIDDLE_LINE),
        };
        Chord {
            event,
            index: 0,
            bar: 0,
            column: 0,
            at,
            begins: quarters(at),
            lasts: quarters(event.lasts).max(0.0),
            voice,
            staff,
            heads,
            company: None,
            up: false,
            beam: None,
            dx: 0.0,
            scale: if event.grace.is_some() { GRACE } else { 1.0 },
            rest,
            dots: 0.0,
            strokes: 0,
        }
    }

    pub fn is_rest(&self) -> bool {
        self.heads.is_empty()
    }

    pub fn is_grace(&self) -> bool {
        self.event.grace.is_some()
    }

    pub fn has_stem(&self) -> bool {
        !self.is_rest() && self.event.value <= Value::Half && self.event.stem != Stem::Hidden
    }

    pub fn flags(&self) -> usize {
        self.event.value.flags()
    }

    /// Whether its heads stand on more than one staff.
    pub fn crosses(&self) -> bool {
        self.heads.iter().any(|head| head.staff != self.staff)
    }

    pub fn head_glyph(&self) -> Glyph {
        match self.event.value {
            Value::Breve => Glyph::HeadBreve,
            Value::Whole => Glyph::HeadWhole,
            Value::Half => Glyph::HeadHalf,
            _ => Glyph::HeadBlack,
        }
    }

    /// Whether it is a rest that fills its bar.
    pub fn is_bar_rest(&self) -> bool {
        matches!(self.event.kind, Kind::Rest { whole_bar: true, .. })
    }

    pub fn rest_glyph(&self) -> Glyph {
        if self.is_bar_rest() {
            return Glyph::RestWhole;
        }
        match self.event.value {
            Value::Breve => Glyph::RestBreve,
            Value::Whole => Glyph::RestWhole,
            Value::Half => Glyph::RestHalf,
            Value::Quarter => Glyph::RestQuarter,
            Value::Eighth => Glyph::RestEighth,
            Value::N16th => Glyph::Rest16th,
            Value::N32nd | Value::N64th | Value::N128th => Glyph::Rest32nd,
        }
    }

    /// Where the glyph of a rest stands from its column: shorter ones than a 32nd are two of these along
    /// their slant.
    pub fn rest_places(&self) -> impl Iterator<Item = (f32, f32)> {
        let further = (Value::N32nd as u32).saturating_sub(self.event.value as u32);
        let further = if self.rest_glyph() == Glyph::Rest32nd { further } else { 0 };
        let (x, y) = (self.dx, self.rest);
        let second = (further > 0).then_some((x - REST_SLANT * further as f32, y + further as f32));
        [(x, y)].into_iter().chain(second)
    }

    pub fn head_width(&self) -> f32 {
        self.scale * self.head_glyph().width()
    }

    /// The y of the highest and the lowest head; of a rest where heads would be.
    pub fn ends(&self) -> [f32; 2] {
        if self.is_rest() {
            return [self.rest - REST_ENDS, self.rest + REST_ENDS];
        }
        let ys = || self.heads.iter().filter(|head| head.staff == self.staff).map(|head| head.y);
        [ys().fold(f32::MAX, f32::min), ys().fold(f32::MIN, f32::max)]
    }

    /// The y of a rest's dots: in the space over its middle.
    pub fn rest_dot(&self) -> f32 {
        self.rest - 0.5
    }

    /// The middle of the stem from the column's left edge.
    pub fn stem_x(&self) -> f32 {
        self.dx + if self.up { self.head_width() - 0.5 * STEM } else { 0.5 * STEM }
    }

    /// Where the stem begins: at the head furthest from its tip.
    pub fn stem_foot(&self) -> f32 {
        let [highest, lowest] = self.ends();
        if self.up { lowest - STEM_FOOT * self.scale } else { highest + STEM_FOOT * self.scale }
    }

    /// Where the stem of a chord without a beam ends: an octave from the nearest head, further for many
    /// flags, and always at the middle line at least (Gould 2011, "Stems", from memory).
    pub fn stem_tip(&self) -> f32 {
        let [highest, lowest] = self.ends();
        let flags = if self.beam.is_none() { self.flags() } else { 0 };
        let dotted = if self.up && flags > 0 && self.event.dots > 0 { FLAG_OVER_DOT } else { 0.0 };
        let length = self.scale * (STEM_LENGTH + BEAM_STEP * flags.saturating_sub(2) as f32 + dotted);
        let away = if self.up { highest < MIDDLE_LINE } else { lowest > MIDDLE_LINE };
        let shorter = if away && self.company.is_some() && flags == 0 { SHORTER_AWAY } else { 0.0 };
        let tip = if self.up { highest - length + shorter } else { lowest + length - shorter };
        match (self.is_grace(), self.up) {
            (true, _) => tip,
            (false, true) => tip.min(MIDDLE_LINE),
            (false, false) => tip.max(MIDDLE_LINE),
        }
    }

    /// Heads a step apart stand on either side of the stem: the lower one left (Gould 2011, from memory).
    pub fn displace_seconds(&mut self) {
        let width = self.head_width() - if self.has_stem() { STEM } else { 0.0 };
        let (side, count) = (if self.up { width } else { -width }, self.heads.len());
        let mut displaced = false;
        for nth in 0..count {
            // From the head where the stem begins.
            let (index, before) = if self.up { (nth, nth.wrapping_sub(1)) } else { (count - 1 - nth, count - nth) };
            let near = self.heads.get(before).is_some_and(|before| {
                before.staff == self.heads[index].staff && (before.y - self.heads[index].y).abs() < TOUCHES_HEAD
            });
            displaced = near && !displaced;
            self.heads[index].dx = if displaced { side } else { 0.0 };
        }
    }

    /// The right edge of its heads from the column.
    pub fn right(&self) -> f32 {
        let displaced = self.heads.iter().map(|head| head.dx).fold(0.0, f32::max);
        self.dx + displaced + self.head_width()
    }

    /// The right edge of its heads and its flag from the column.
    pub fn right_of_flag(&self) -> f32 {
        if self.beam.is_some() || !self.has_stem() || self.flags() == 0 {
            return self.right();
        }
        let flag = if self.up { Glyph::FlagUp } else { Glyph::FlagDown };
        self.right().max(self.stem_x() + self.scale * flag.width())
    }

    /// The left edge of its heads and their accidentals from the column.
    pub fn left(&self) -> f32 {
        let accidentals = self.heads.iter().filter_map(|head| head.accidental).map(|accidental| accidental.dx);
        let heads = self.heads.iter().map(|head| self.dx + head.dx);
        accidentals.chain(heads).fold(self.dx, f32::min)
    }

    /// What a head covers, from the column.
    pub fn head_box(&self, head: &ReadyHead) -> Bounds {
        let left = self.dx + head.dx;
        [left, head.y - 0.5 * self.scale, left + self.head_width(), head.y + 0.5 * self.scale]
    }
}
