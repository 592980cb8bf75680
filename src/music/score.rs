//! A written score: its parts, bar by bar, and the passages that are cut from them.

use crate::music::{
    Bar, Hand, Meter, Note, Onset, Passage, Pitch, Quarters, Tempo,
    passage::{Articulation, MOST_BARS, PassageError},
    written::{Spanner, WrittenBar},
};
use std::ops::RangeInclusive;

/// A score as far as a player needs it. Repeats stand as written, once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Score {
    /// Empty where the score names none.
    pub title: String,
    /// Empty where the score names none.
    pub composer: String,
    /// At least one.
    pub parts: Vec<Part>,
}

/// The music of one player.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// As the file calls it; unique in the score.
    pub id: String,
    /// As printed; empty where the score gives none.
    pub name: String,
    /// At least 1; two for a keyboard.
    pub staves: u8,
    /// Lines of each staff: 5, or 1 for a rhythm alone.
    pub lines: u8,
    /// First to last, each following the one before it.
    pub bars: Vec<ScoreBar>,
    /// Slurs, hairpins and whatever else stands from one place to another.
    pub spanners: Vec<Spanner>,
}

/// One bar of a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScoreBar {
    /// As printed.
    pub number: String,
    /// Real length, more than nothing: shorter than the meter's in a pickup bar.
    pub length: Quarters,
    /// How much of the full bar is missing before its first note: 0 except for a pickup bar.
    pub missing: Quarters,
    /// The meter in force.
    pub meter: Meter,
    /// Sharps (positive) or flats (negative) in the key signature, -7..=7.
    pub fifths: i8,
    /// The tempo in force; absent until the score gives one.
    pub tempo: Option<Tempo>,
    /// In order of position, upper staff first, no two at one position of one staff.
    pub attacks: Vec<Attack>,
    /// In order of position.
    pub dynamics: Vec<Dynamic>,
    /// What is printed.
    pub written: WrittenBar,
}

/// The notes of one staff that begin together. A tied continuation begins nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attack {
    /// From the start of the bar; inside it.
    pub at: Quarters,
    /// 1 is the uppermost.
    pub staff: u8,
    /// At least one, no pitch twice.
    pub notes: Vec<WrittenNote>,
}

/// A note of an attack; which hand plays it is decided when a passage is cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrittenNote {
    /// Absent for unpitched percussion.
    pub pitch: Option<Pitch>,
    /// Sounding length, tied continuations included, also across bars.
    pub lasts: Quarters,
    /// As printed: `1`, or `3-1` for a change on the key.
    pub fingering: Option<String>,
    /// Each once.
    pub articulations: Vec<Articulation>,
    /// Pitches of the grace notes that run into this note, in order.
    pub graces: Vec<Pitch>,
}

/// A dynamic mark: `p`, `sf`, …
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dynamic {
    /// From the start of the bar; at most its length.
    pub at: Quarters,
    /// 1 is the uppermost.
    pub staff: u8,
    /// On which side of the staff it stands, where the file says so.
    pub above: Option<bool>,
    /// As printed, from the dynamics of MusicXML.
    pub mark: String,
}

impl Score {
    /// Index of the part that a pianist reads: the first for two hands, else the first.
    pub fn usual_part(&self) -> usize {
        self.parts.iter().position(|part| part.staves == 2).unwrap_or(0)
    }
}

impl Part {
    /// Who usually plays each staff: the one line of a single staff; of several, the upper half is
    /// the right hand's and the rest the left's.
    pub fn usual_hands(&self) -> Vec<Hand> {
        let staves = usize::from(self.staves);
        let hand = |staff| if staff < staves / 2 { Hand::Right } else { Hand::Left };
        if staves <= 1 { vec![Hand::Line] } else { (0..staves).map(hand).collect() }
    }

    /// The same part with only the bars with these indices; what stands from one place to another is
    /// kept where some of it lies in them.
    pub fn excerpt(&self, bars: RangeInclusive<usize>) -> Part {
        let (first, end) = (*bars.start(), (*bars.end() + 1).min(self.bars.len()));
        let first = first.min(end);
        let from_first = |bar: isize| bar - first as isize;
        let inside = |spanner: &&Spanner| {
            spanner.from.bar < end as isize && spanner.to.bar >= first as isize && spanner.from.bar <= spanner.to.bar
        };
        let moved = |spanner: &Spanner| {
            let mut spanner = spanner.clone();
            spanner.from.bar = from_first(spanner.from.bar);
            spanner.to.bar = from_first(spanner.to.bar);
            spanner
        };
        Part {
            id: self.id.clone(),
            name: self.name.clone(),
            staves: self.staves,
            lines: self.lines,
            bars: self.bars[first..end].to_vec(),
            spanners: self.spanners.iter().filter(inside).map(moved).collect(),
        }
    }

    /// The passage made of the bars with these indices, its staves joined, `hands[0]` playing the
    /// uppermost staff. A staff for which there is no hand is left out.
    ///
    /// # Errors
    /// A [`PassageError`] where there are no such bars, nothing to play in them, or too much.
    pub fn cut(&self, bars: RangeInclusive<usize>, hands: &[Hand]) -> Result<Passage, PassageError> {
        let chosen = self.bars.get(bars).ok_or(PassageError::Empty)?;
        if chosen.len() > MOST_BARS {
            return Err(PassageError::TooLong);
        }
        let (mut start, mut bars, mut onsets) = (Quarters::ZERO, Vec::new(), Vec::new());
        for bar in chosen {
            bars.push(bar.starting(start));
            onsets.append(&mut bar.onsets(start, hands)?);
            start = start.checked_add(bar.length).ok_or(PassageError::BrokenBars)?;
        }
        mark_dynamics(&mut onsets, chosen, hands);
        Passage::new(bars, onsets)
    }
}

impl ScoreBar {
    fn starting(&self, start: Quarters) -> Bar {
        let ScoreBar { number, length, meter, missing, .. } = self;
        Bar { number: number.clone(), start, length: *length, meter: *meter, missing: *missing }
    }

    /// The onsets of this bar, counted from where it starts in the passage.
    fn onsets(&self, start: Quarters, hands: &[Hand]) -> Result<Vec<Onset>, PassageError> {
        let mut onsets: Vec<Onset> = Vec::new();
        for attack in &self.attacks {
            let Some(hand) = hand_of(attack.staff, hands) else { continue };
            let at = start.checked_add(attack.at).ok_or(PassageError::BrokenOnsets)?;
            let mut notes = attack.notes.iter().map(|note| note.played_by(hand)).collect();
            match onsets.last_mut().filter(|last| last.at == at) {
                Some(onset) => onset.notes.append(&mut notes),
                None => onsets.push(Onset { at, notes, dynamic: None }),
            }
        }
        Ok(onsets)
    }
}

impl WrittenNote {
    fn played_by(&self, hand: Hand) -> Note {
        let WrittenNote { pitch, lasts, fingering, articulations, graces } = self.clone();
        Note { hand, pitch, lasts, fingering, articulations, graces }
    }
}

fn hand_of(staff: u8, hands: &[Hand]) -> Option<Hand> {
    hands.get(usize::from(staff).checked_sub(1)?).copied()
}

/// Puts every dynamic mark on the first onset at or after its place: a mark under a rest is meant
/// for what follows. Unlike marks that meet there stand side by side.
fn mark_dynamics(onsets: &mut [Onset], bars: &[ScoreBar], hands: &[Hand]) {
    let mut start = Quarters::ZERO;
    for bar in bars {
        for dynamic in bar.dynamics.iter().filter(|dynamic| hand_of(dynamic.staff, hands).is_some()) {
            let place = start + dynamic.at;
            let next = onsets.partition_point(|onset| onset.at < place);
            let Some(onset) = onsets.get_mut(next) else { continue };
            match &mut onset.dynamic {
                Some(marks) if marks.split(' ').any(|mark| mark == dynamic.mark) => {}
                Some(marks) => *marks = format!("{marks} {}", dynamic.mark),
                none => *none = Some(dynamic.mark.clone()),
            }
        }
        start += bar.length;
    }
}
