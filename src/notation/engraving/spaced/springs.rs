//! Where columns stand from left to right: springs by duration that are stretched to the width there is, over
//! distances that keep everything apart (Gourlay 1986, "Spacing a line of music").

use crate::notation::engraving::{
    pen::meet,
    spaced::columns::{BESIDE_LINE, Column, Finger},
};

/// Least distance between what stands in two columns: common practice, no source.
const APART: f32 = 0.25;
/// Least distance between notes that follow one another on different staves: common practice, no source.
const ONE_AFTER_ANOTHER: f32 = 0.9;
/// What is no further over or under something than this stands beside it: common practice, no source.
const BESIDE: f32 = 0.1;

/// How far apart two columns must be at least, whatever their fingers.
fn least(a: &Column, b: &Column) -> f32 {
    let both_notes = !a.is_line() && !b.is_line();
    let padding = if both_notes { APART } else { BESIDE_LINE };
    let mut least: f32 = if both_notes { ONE_AFTER_ANOTHER } else { 0.0 };
    for (staff, [_, top, right, bottom]) in a.boxes.iter() {
        for (other, bounds) in b.boxes.iter() {
            let same_height = || meet(&[0.0, *top, 1.0, *bottom], &[0.0, bounds[1] - BESIDE, 1.0, bounds[3] + BESIDE]);
            if staff == other && same_height() {
                least = least.max(right - bounds[0] + padding);
            }
        }
    }
    if both_notes && b.graces > 0.0 {
        // Grace notes stand over or under no note before them (Gould 2011, "Grace notes", from memory).
        let right = a.boxes.iter().map(|(_, bounds)| bounds[2]).fold(0.0, f32::max);
        least = least.max(right + APART + b.graces);
    }
    least
}

/// How far apart two columns must be at least for their fingers.
fn least_of_fingers(a: &Column, b: &Column) -> f32 {
    let pairs = a.fingers.iter().flat_map(|finger| b.fingers.iter().map(move |other| (finger, other)));
    let on_one_staff = pairs.filter(|(finger, other)| finger.staff == other.staff);
    let apart = |(finger, other): (&Finger, &Finger)| finger.reach(a.text)[1] - other.reach(b.text)[0] + APART;
    on_one_staff.map(apart).fold(0.0, f32::max)
}

/// Least distances of each column to those up to this many before it.
const LOOK_BACK: usize = 6;

/// The distances of a row of columns, computed once and stretched often.
pub struct Springs {
    /// Of each column: how far behind the column so many before it stands at least, the nearest first.
    least: Vec<Vec<f32>>,
    /// The same without fingers.
    bare: Vec<Vec<f32>>,
    natural: Vec<f32>,
}

impl Springs {
    pub fn of(columns: &[Column]) -> Self {
        let before = |index: usize| {
            // A bar line keeps apart what is on either side of it.
            let back = (1..=LOOK_BACK.min(index)).find(|back| columns[index - back].is_line());
            let back = back.unwrap_or(LOOK_BACK.min(index));
            (1..=back).map(|back| least(&columns[index - back], &columns[index])).collect()
        };
        let bare: Vec<Vec<f32>> = (0..columns.len()).map(before).collect();
        let natural = columns.iter().map(|column| column.spring).collect();
        let mut springs = Springs { least: bare.clone(), bare, natural };
        springs.finger(columns);
        springs
    }

    /// Keeps the fingers of the same columns apart, whose text has another size now.
    pub fn finger(&mut self, columns: &[Column]) {
        for (index, (least, bare)) in self.least.iter_mut().zip(&self.bare).enumerate() {
            for (nth, (least, bare)) in least.iter_mut().zip(bare).enumerate() {
                *least = bare.max(least_of_fingers(&columns[index - nth - 1], &columns[index]));
            }
        }
    }

    /// Where the columns in a range stand if springs are stretched so much, the first at 0, into `xs`.
    pub fn stretched(&self, range: std::ops::Range<usize>, stretch: f32, xs: &mut Vec<f32>) {
        xs.clear();
        for index in range.clone() {
            let nth = index - range.start;
            let natural = if nth == 0 { 0.0 } else { xs[nth - 1] + stretch * self.natural[index - 1] };
            let least = self.least[index].iter().take(nth).enumerate().map(|(back, least)| xs[nth - 1 - back] + least);
            xs.push(least.fold(natural, f32::max));
        }
    }

    /// How far apart the first and the last column of a range are at a stretch.
    pub fn width(&self, range: std::ops::Range<usize>, stretch: f32) -> f32 {
        let mut xs = Vec::with_capacity(range.len());
        self.stretched(range, stretch, &mut xs);
        xs.last().copied().unwrap_or(0.0)
    }

    /// The stretch, at most `most`, at which a range is `width` wide.
    pub fn stretch(&self, range: std::ops::Range<usize>, width: f32, most: f32) -> f32 {
        let mut xs = Vec::with_capacity(range.len());
        let (mut low, mut high) = (0.0, most);
        for _ in 0..10 {
            let middle = 0.5 * (low + high);
            self.stretched(range.clone(), middle, &mut xs);
            if xs.last().copied().unwrap_or(0.0) > width { high = middle } else { low = middle }
        }
        low
    }
}
