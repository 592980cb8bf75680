//! A passage: the bars and onsets that a snippet is made of.

use crate::music::{Meter, Pitch, Quarters};
use std::ops::RangeInclusive;

/// Who plays a note: a hand at the keyboard, or the one line of a single-line instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// The left hand.
    Left,
    /// The right hand.
    Right,
    /// The one line.
    Line,
}

/// How a note is to be attacked, as written over or under it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the names are those of MusicXML")]
pub enum Articulation {
    Accent,
    StrongAccent,
    Staccato,
    Staccatissimo,
    Tenuto,
    DetachedLegato,
    Fermata,
    Arpeggio,
}

/// One note that begins at an onset.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Who plays it.
    pub hand: Hand,
    /// Absent where only the rhythm is known.
    pub pitch: Option<Pitch>,
    /// Sounding length, tied continuations included.
    pub lasts: Quarters,
    /// As printed: `1`, or `3-1` for a change on the key.
    pub fingering: Option<String>,
    /// Each once.
    pub articulations: Vec<Articulation>,
    /// Pitches of the grace notes that run into this note, in order.
    pub graces: Vec<Pitch>,
}

impl Note {
    /// A note of which only hand and sounding length are known.
    pub fn unpitched(hand: Hand, lasts: Quarters) -> Self {
        Note { hand, pitch: None, lasts, fingering: None, articulations: Vec::new(), graces: Vec::new() }
    }
}

/// All notes that begin together, in either hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Onset {
    /// From the start of the passage's first bar.
    pub at: Quarters,
    /// At least one.
    pub notes: Vec<Note>,
    /// The dynamic mark that stands here: `p`, `sf`, …
    pub dynamic: Option<String>,
}

impl Onset {
    /// Whether `hand` has a note here.
    pub fn plays(&self, hand: Hand) -> bool {
        self.notes.iter().any(|note| note.hand == hand)
    }
}

/// A bar of the passage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// As printed.
    pub number: String,
    /// From the start of the passage's first bar.
    pub start: Quarters,
    /// Real length: shorter than the meter's in a pickup bar.
    pub length: Quarters,
    /// The meter in force.
    pub meter: Meter,
    /// How much of the full bar is missing before its first note: 0 except for a pickup bar.
    pub missing: Quarters,
}

/// Contiguous bars and the onsets in them, in order. At least one bar and one onset, no two onsets
/// at the same place, every onset inside a bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage {
    bars: Vec<Bar>,
    onsets: Vec<Onset>,
}

/// Most onsets a passage may have: a long movement has some ten thousand, a passage is a part of it.
pub const MOST_ONSETS: usize = 4_096;
/// Most bars a passage may have.
pub const MOST_BARS: usize = 1_024;

/// Longest bar, in quarters: a cadenza without bar lines is one bar.
pub const MOST_QUARTERS_A_BAR: u16 = 1_024;

/// Why bars and onsets make no passage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassageError {
    /// No bar or no onset.
    Empty,
    /// More than [`MOST_BARS`] or [`MOST_ONSETS`], or a bar longer than [`MOST_QUARTERS_A_BAR`].
    TooLong,
    /// Bars that do not follow each other, or have no length.
    BrokenBars,
    /// Onsets out of order, without a note, or outside the bars.
    BrokenOnsets,
}

impl std::error::Error for PassageError {}

impl Passage {
    /// A passage from its bars and onsets.
    ///
    /// # Errors
    /// A [`PassageError`] that says which invariant does not hold.
    pub fn new(bars: Vec<Bar>, onsets: Vec<Onset>) -> Result<Self, PassageError> {
        if onsets.is_empty() || bars.is_empty() {
            return Err(PassageError::Empty);
        }
        if onsets.len() > MOST_ONSETS || bars.len() > MOST_BARS {
            return Err(PassageError::TooLong);
        }
        if bars.iter().any(|bar| bar.length.max(bar.missing) > Quarters::whole(MOST_QUARTERS_A_BAR)) {
            return Err(PassageError::TooLong);
        }
        let end = bars_end(&bars).ok_or(PassageError::BrokenBars)?;
        let inside = |onset: &Onset| onset.at >= Quarters::ZERO && onset.at < end && !onset.notes.is_empty();
        if !onsets.iter().all(inside) || onsets.windows(2).any(|pair| pair[0].at >= pair[1].at) {
            return Err(PassageError::BrokenOnsets);
        }
        Ok(Passage { bars, onsets })
    }

    /// The bars, first to last.
    pub fn bars(&self) -> &[Bar] {
        &self.bars
    }

    /// The onsets, first to last; never empty.
    pub fn onsets(&self) -> &[Onset] {
        &self.onsets
    }

    /// This passage and the `next` as one, where the next one's printed bars go on from the last of
    /// these or share the end of them; `None` where they do not.
    pub fn joined(&self, next: &Passage) -> Option<Passage> {
        let number = |bar: &Bar| bar.number.parse::<u32>().ok();
        let (last, first) = (number(self.bars.last()?)?, number(next.bars.first()?)?);
        let follows = number(self.bars.first()?)? < first && first <= last + 1;
        let reaches_further = number(next.bars.last()?)? >= last;
        let start = self.bars.iter().find(|bar| number(bar) == Some(first)).map(|bar| bar.start);
        let start = start.or_else(|| bars_end(&self.bars)).filter(|_| follows && reaches_further)?;

        let mut bars: Vec<Bar> = self.bars.iter().filter(|bar| bar.start < start).cloned().collect();
        for bar in &next.bars {
            bars.push(Bar { start: start.checked_add(bar.start)?, ..bar.clone() });
        }
        // The next one may begin inside its first bar.
        let goes_on = start.checked_add(next.onsets.first()?.at)?;
        let mut onsets: Vec<Onset> = self.onsets.iter().filter(|onset| onset.at < goes_on).cloned().collect();
        for onset in &next.onsets {
            onsets.push(Onset { at: start.checked_add(onset.at)?, ..onset.clone() });
        }
        Passage::new(bars, onsets).ok()
    }

    /// The same from one onset to another, by their indices; bars before and after them are left out. `None` where there
    /// are no such onsets.
    pub fn between(&self, onsets: RangeInclusive<usize>) -> Option<Passage> {
        let kept = self.onsets.get(onsets)?;
        let (first, last) = (self.bar_at(kept.first()?.at).start, self.bar_at(kept.last()?.at).start);
        let bars = self.bars.iter().filter(|bar| first <= bar.start && bar.start <= last);
        let bars = bars.map(|bar| Bar { start: bar.start - first, ..bar.clone() }).collect();
        let onsets = kept.iter().map(|onset| Onset { at: onset.at - first, ..onset.clone() }).collect();
        Passage::new(bars, onsets).ok()
    }

    /// The bar in which `at` lies; the last one for what lies beyond.
    pub fn bar_at(&self, at: Quarters) -> &Bar {
        let following = self.bars.partition_point(|bar| bar.start <= at);
        &self.bars[following.saturating_sub(1)]
    }
}

/// Where the last bar ends, if every bar has a length and starts where the one before it ended.
fn bars_end(bars: &[Bar]) -> Option<Quarters> {
    bars.iter().try_fold(Quarters::ZERO, |start, bar| {
        let sound = bar.start == start && bar.length > Quarters::ZERO && bar.missing >= Quarters::ZERO;
        sound.then(|| start.checked_add(bar.length)).flatten()
    })
}
