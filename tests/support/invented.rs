//! Invented passages for the tests: bars in short hand, onsets as fractions of a quarter.

// Every test program uses its own part of these.
#![allow(dead_code)]

use tailfirst::{
    method::{Hands, Snippet, Span, Step},
    music::{Bar, BeatUnit, Bpm, Hand, Meter, Note, NoteValue, Onset, Passage, Quarters, Tempo},
};

pub fn quarters(text: &str) -> Quarters {
    text.parse().expect("a fraction of a quarter")
}

/// Bars written as `4/4`, or `4/4-3` for a pickup from which three quarters are missing; `first` is
/// the first one's number.
pub fn bars(text: &str, first: u32) -> Vec<Bar> {
    let mut start = Quarters::ZERO;
    let bar = |(text, number): (&str, u32)| {
        let (meter, missing) = text.split_once('-').unwrap_or((text, "0"));
        let (meter, missing) = (meter.parse::<Meter>().expect("a meter"), quarters(missing));
        let bar = Bar { number: number.to_string(), start, length: meter.bar() - missing, meter, missing };
        start += bar.length;
        bar
    };
    text.split_whitespace().zip(first..).map(bar).collect()
}

/// Notes written as `right 0 1/2 1` for one hand: where its onsets are. Each lasts a quarter.
pub fn passage(bars: Vec<Bar>, hands: &[(Hand, &str)]) -> Passage {
    let mut onsets: Vec<Onset> = Vec::new();
    for (hand, places) in hands {
        for at in places.split_whitespace().map(quarters) {
            let note = Note::unpitched(*hand, Quarters::ONE);
            match onsets.iter_mut().find(|onset| onset.at == at) {
                Some(onset) => onset.notes.push(note),
                None => onsets.push(Onset { at, notes: vec![note], dynamic: None }),
            }
        }
    }
    onsets.sort_by_key(|onset| onset.at);
    Passage::new(bars, onsets).expect("a passage")
}

pub fn tempo(value: NoteValue, dots: u8, bpm: u16) -> Tempo {
    Tempo { beat: BeatUnit::new(value, dots), bpm: Bpm::new(bpm).expect("in range") }
}

/// A snippet whose goal is its last onset.
pub fn snippet(passage: Passage, tempo: Tempo) -> Snippet {
    let goal = passage.onsets().len() - 1;
    Snippet::new("Study in falling thirds, bar 3".into(), passage, goal, tempo).expect("the goal is inside")
}

/// `first..=last` at the snippet's own tempo.
pub fn step(snippet: &Snippet, first: usize, last: usize, hands: Hands) -> Step {
    Step { span: Span::new(first, last).expect("in order"), hands, bpm: snippet.tempo().bpm }
}
