//! Some bars made ready for any system: their chords, columns and beams, and the clefs in force.

use crate::{
    music::{
        Part, Quarters,
        written::{Event, Kind},
    },
    notation::engraving::{
        metrics::CUE,
        prepared::{accidentals, beaming, chords::Chord, places::quarters, tremolos, voices},
    },
    sort,
};
use std::ops::Range;

/// Some bars of a part, made ready.
pub struct Galley<'a> {
    pub part: &'a Part,
    pub bars: Vec<ReadyBar>,
    /// Bar by bar, voice by voice.
    pub chords: Vec<Chord<'a>>,
    /// Chords under one beam, by index.
    pub beams: Vec<Vec<usize>>,
}

pub struct ReadyBar {
    /// Index in the part.
    pub index: usize,
    /// In quarters from the start of the part's first bar.
    pub start: Quarters,
    pub length: f32,
    /// Where something begins, from the start of the bar.
    pub columns: Vec<Quarters>,
    pub chords: Range<usize>,
    /// Those of each column, by index in the galley.
    pub of_column: Vec<Vec<usize>>,
}

impl<'a> Galley<'a> {
    /// Makes the bars with these indices ready.
    pub fn new(part: &'a Part, bars: Range<usize>) -> Self {
        Galley::with_cues(part, bars, &|_| false)
    }

    /// The same, staves of cues in their smaller size.
    pub fn with_cues(part: &'a Part, bars: Range<usize>, is_cue: &dyn Fn(usize) -> bool) -> Self {
        let before = &part.bars[..bars.start.min(part.bars.len())];
        Galley::starting(part, bars, before.iter().map(|bar| bar.length).sum(), is_cue)
    }

    /// The same, where it is known how far from the part's first bar these bars start.
    pub fn starting(part: &'a Part, bars: Range<usize>, mut start: Quarters, is_cue: &dyn Fn(usize) -> bool) -> Self {
        let bars = bars.start.min(part.bars.len())..bars.end.min(part.bars.len());
        let mut galley = Galley { part, bars: Vec::new(), chords: Vec::new(), beams: Vec::new() };
        for index in bars {
            galley.ready_bar(index, start, is_cue);
            start += part.bars[index].length;
        }
        galley
    }

    fn ready_bar(&mut self, index: usize, start: Quarters, is_cue: &dyn Fn(usize) -> bool) {
        let bar = &self.part.bars[index];
        let events = || bar.written.voices.iter().flat_map(|voice| &voice.events);
        let mut columns: Vec<Quarters> = events().map(|event| inside(event.at, bar.length)).collect();
        sort::by_key(&mut columns, |at| *at);
        columns.dedup();
        let first = self.chords.len();
        for (voice, written) in bar.written.voices.iter().enumerate() {
            for event in written.events.iter().filter(|event| is_printed(event)) {
                let at = inside(event.at, bar.length);
                let column = columns.partition_point(|column| *column < at);
                let mut chord = Chord::new(event, self.part, index, voice, at);
                (chord.index, chord.bar) = (self.chords.len(), self.bars.len());
                (chord.column, chord.at) = (column, start + at);
                chord.scale *= if is_cue(chord.staff) { CUE } else { 1.0 };
                self.chords.push(chord);
            }
        }
        let chords = &mut self.chords[first..];
        voices::keep_company(chords);
        let mut groups = beaming::groups(chords, bar);
        let pairs = tremolos::pairs(self.part, index, chords, &groups);
        groups.extend(pairs);
        beaming::point_stems(chords, &groups, self.part.lines == 1);
        chords.iter_mut().for_each(Chord::displace_seconds);
        for column in 0..columns.len() {
            voices::share_column(chords, column);
        }
        accidentals::set(chords, bar, columns.len());
        voices::place_rests(chords);
        for group in groups {
            group.iter().for_each(|chord| chords[*chord].beam = Some(self.beams.len()));
            self.beams.push(group.into_iter().map(|chord| first + chord).collect());
        }
        let length = quarters(bar.length);
        let mut of_column = vec![Vec::new(); columns.len()];
        (first..self.chords.len()).for_each(|chord| of_column[self.chords[chord].column].push(chord));
        self.bars.push(ReadyBar { index, start, length, columns, chords: first..self.chords.len(), of_column });
    }

    /// The chords of a column.
    pub fn column(&self, bar: usize, column: usize) -> impl Iterator<Item = &Chord<'a>> {
        self.bars[bar].of_column[column].iter().map(|index| &self.chords[*index])
    }

    pub fn staves(&self) -> usize {
        usize::from(self.part.staves.max(1))
    }
}

fn is_printed(event: &Event) -> bool {
    !matches!(&event.kind, Kind::Notes(heads) if heads.is_empty())
}

fn inside(at: Quarters, length: Quarters) -> Quarters {
    at.clamp(Quarters::ZERO, length.max(Quarters::ZERO))
}
