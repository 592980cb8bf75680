//! A drawn sheet and what stands where on it.

use crate::{
    music::Quarters,
    notation::{
        drawing::Drawing,
        engraving::{
            sheets::system::EngravedSystem,
            spaced::columns::{Column, Holds},
        },
        glyph::Glyph,
    },
};

/// Where an onset stands, in px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnsetPlace {
    /// Index in the snippet.
    pub onset: usize,
    /// The middle of its noteheads.
    pub x: f32,
    /// The system in which it stands reaches from `top` to `bottom`.
    pub top: f32,
    /// The lower edge of that system.
    pub bottom: f32,
}

/// Where a bar, or what is shown of it, stands, in px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarPlace {
    /// Index in the part.
    pub bar: usize,
    /// Its left edge.
    pub left: f32,
    /// Its right edge.
    pub right: f32,
    /// The upper edge of its system.
    pub top: f32,
    /// The lower edge of its system.
    pub bottom: f32,
}

/// Drawn music.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// All that is drawn.
    pub drawing: Drawing,
    /// Left to right, system by system.
    pub places: Vec<OnsetPlace>,
    /// The bars that are shown, system by system.
    pub bars: Vec<BarPlace>,
    /// Px of a staff space.
    pub space: f32,
}

/// How much a tap outside a system counts beside one that is as far off to the left or right: first the system is
/// looked for, then the onset in it.
const OUTSIDE: f32 = 1e4;

impl Sheet {
    pub(super) fn new(width: f32, height: f32, space: f32) -> Self {
        Sheet { drawing: Drawing::new(width, height), places: Vec::new(), bars: Vec::new(), space }
    }

    /// Where the onset stands, if it is shown.
    pub fn place(&self, onset: usize) -> Option<OnsetPlace> {
        self.places.iter().copied().find(|place| place.onset == onset)
    }

    /// The onset that a tap at `x`, `y` means: the nearest in the system that was tapped.
    pub fn onset_at(&self, x: f32, y: f32) -> Option<usize> {
        let far = |place: &OnsetPlace| {
            let outside = (y - place.bottom).max(place.top - y).max(0.0);
            OUTSIDE * outside + (place.x - x).abs()
        };
        let nearer = |a: &&OnsetPlace, b: &&OnsetPlace| far(a).total_cmp(&far(b));
        self.places.iter().min_by(nearer).map(|place| place.onset)
    }

    /// Puts a system on the sheet, its top left corner at `left`, `top`. `index` tells a galley's bar's
    /// index in the part; `reach` is the room that is the system's own.
    pub(super) fn add(
        &mut self,
        system: &EngravedSystem,
        columns: &[Column],
        onsets: &[Quarters],
        (left, top): (f32, f32),
        index: impl Fn(usize) -> usize,
    ) {
        let space = self.space;
        system.draw(&mut self.drawing, space, (left, top));
        let bottom = top + space * system.height();
        for column in columns.iter().filter(|column| column.is_notes()) {
            if let Ok(onset) = onsets.binary_search(&column.at) {
                let x = left + space * (column.x + 0.5 * Glyph::HeadBlack.width());
                self.places.push(OnsetPlace { onset, x, top, bottom });
            }
        }
        // A signature at the end is that of a bar of the next system.
        let ends_with = columns.iter().rposition(|column| column.holds != Holds::Signature);
        for column in &columns[..ends_with.map_or(0, |last| last + 1)] {
            let x = left + space * column.x;
            let bar = index(column.bar);
            match self.bars.last_mut().filter(|last| last.bar == bar && last.top == top) {
                Some(last) => last.right = x,
                None => {
                    let left = x - space * column.reach()[0];
                    self.bars.push(BarPlace { bar, left, right: x, top, bottom });
                }
            }
            if let Some(last) = self.bars.last_mut().filter(|_| column.holds != Holds::Barline) {
                last.right = x + space * column.reach()[1];
            }
        }
    }
}
