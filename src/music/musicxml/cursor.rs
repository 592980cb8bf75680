//! Where in a bar the next note begins.
//!
//! The file counts in its own divisions, which may be rounded; the score counts exactly. The cursor keeps both, so that
//! a step back leads to the exact place of what was written there before.

use crate::music::{
    Quarters,
    musicxml::lengths::{minus, plus},
};
use std::collections::BTreeMap;

/// A place in the bar, in quarters from its start.
#[derive(Default)]
pub(super) struct Cursor {
    written: Quarters,
    exact: Quarters,
    end: Quarters,
    known: BTreeMap<Quarters, Quarters>,
}

impl Cursor {
    /// The exact place.
    pub(super) fn at(&self) -> Quarters {
        self.exact
    }

    /// The furthest place that was reached.
    pub(super) fn end(&self) -> Quarters {
        self.end
    }

    /// Moves on by a length as the file writes it and as it is exactly.
    pub(super) fn forward(&mut self, length: Length) {
        self.known.entry(self.written).or_insert(self.exact);
        self.written = plus(self.written, length.written);
        self.exact = plus(self.exact, length.exact);
        self.known.entry(self.written).or_insert(self.exact);
        self.end = self.end.max(self.exact);
    }

    /// Moves back by a length as the file writes it, at most to the start of the bar.
    pub(super) fn back(&mut self, written: Quarters) {
        self.written = minus(self.written, written).max(Quarters::ZERO);
        self.exact = self.known.get(&self.written).copied().unwrap_or(self.written);
    }
}

/// A length as the file writes it and as it is exactly.
#[derive(Clone, Copy)]
pub(super) struct Length {
    pub(super) written: Quarters,
    pub(super) exact: Quarters,
}

impl From<Quarters> for Length {
    fn from(exact: Quarters) -> Length {
        Length { written: exact, exact }
    }
}
