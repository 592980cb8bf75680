//! Written bars from a shorthand: `C#5+E5:8.~/f1,f3,>` is a chord of C sharp and E, a dotted eighth, tied
//! on, fingered and accented; `r:4` a rest, `R` a whole bar's.

use std::collections::BTreeMap;
use tailfirst::music::{
    Meter, Part, Pitch, Quarters,
    passage::Articulation,
    pitch::Letter,
    score::{Dynamic, ScoreBar},
    written::{
        Accidental, Anchor, Barline, Clef, Diatonic, Event, Grace, Head, Kind, MeterSign, Ornament, Says, Spanner,
        Spans, StaffText, Stem, Value, Voice, WrittenBar,
    },
};

pub fn quarters(text: &str) -> Quarters {
    text.parse().expect("a time")
}

fn value(text: &str) -> (Value, u8) {
    let dots = text.chars().filter(|c| *c == '.').count() as u8;
    let value = match text.trim_end_matches(['.', '~']) {
        "0" => Value::Breve,
        "1" => Value::Whole,
        "2" => Value::Half,
        "4" => Value::Quarter,
        "8" => Value::Eighth,
        "16" => Value::N16th,
        "32" => Value::N32nd,
        "64" => Value::N64th,
        "128" => Value::N128th,
        other => panic!("{other} is no value"),
    };
    (value, dots)
}

fn head(text: &str, staff: u8) -> Head {
    let mut text = text;
    let tied_from = text.starts_with('=');
    text = text.trim_start_matches('=');
    let letters = [Letter::C, Letter::D, Letter::E, Letter::F, Letter::G, Letter::A, Letter::B];
    let letter = letters["CDEFGAB".find(&text[..1]).expect("a letter")];
    let signs = &text[1..text.len() - 1];
    let alter = signs.matches('#').count() as i8 - signs.matches('b').count() as i8;
    let octave = text[text.len() - 1..].parse().expect("an octave");
    let accidental = signs.contains('?').then_some(Accidental { alter, bracketed: true });
    let pitch = Pitch { letter, alter, octave };
    Head {
        pitch: Some(pitch),
        place: Diatonic::from(pitch),
        staff,
        accidental,
        tied_from,
        tied_on: false,
        fingering: None,
    }
}

fn articulation(mark: &&str) -> Option<Articulation> {
    Some(match *mark {
        ">" => Articulation::Accent,
        "^" => Articulation::StrongAccent,
        "." => Articulation::Staccato,
        "!" => Articulation::Staccatissimo,
        "-" => Articulation::Tenuto,
        "-." => Articulation::DetachedLegato,
        "o" => Articulation::Fermata,
        "{" => Articulation::Arpeggio,
        _ => return None,
    })
}

fn ornament(mark: &&str) -> Option<Ornament> {
    Some(match *mark {
        "trill" => Ornament::Trill,
        "turn" => Ornament::Turn,
        "inverted" => Ornament::InvertedTurn,
        "mordent" => Ornament::Mordent,
        "short" => Ornament::ShortTrill,
        "tremolo" => Ornament::Tremolo(2),
        _ => return None,
    })
}

/// How long a value with its dots lasts, in a tuplet or not.
fn lasting(value: Value, dots: u8, tuplet: Option<(u8, u8)>) -> Quarters {
    let (mut lasts, mut part) = (value.quarters(), value.quarters());
    for _ in 0..dots {
        part = part / 2;
        lasts += part;
    }
    tuplet.map_or(lasts, |(actual, normal)| lasts * i64::from(normal) / i64::from(actual))
}

fn kind(notes: &str, staff: u8, tied_on: bool, fingers: &[&str]) -> Kind {
    if notes == "r" || notes == "R" {
        return Kind::Rest { staff, place: None, whole_bar: notes == "R" };
    }
    let mut heads: Vec<Head> = notes.split('+').map(|note| head(note, staff)).collect();
    for (nth, head) in heads.iter_mut().enumerate() {
        head.tied_on = tied_on;
        head.fingering = fingers.get(nth).map(|finger| finger.to_string());
    }
    Kind::Notes(heads)
}

/// One event; `at` is moved on by what it lasts. Of the marks, `s1` and `s2` are staves, `g` and `gs` grace
/// notes, `t3` a triplet, `h` one of two notes that alternate and last half as long as they look.
fn event(text: &str, staff: u8, at: &mut Quarters, bar: Quarters) -> Event {
    let (what, marks) = text.split_once('/').unwrap_or((text, ""));
    let (notes, shape) = what.split_once(':').unwrap_or((what, "1"));
    let (value, dots) = value(shape);
    let marks: Vec<&str> = marks.split(',').filter(|mark| !mark.is_empty()).collect();
    let numbered = |letter: char| marks.iter().find_map(|mark| mark.strip_prefix(letter)?.parse::<u8>().ok());
    let fingers: Vec<&str> = marks.iter().filter_map(|mark| mark.strip_prefix('f')).collect();
    let grace = marks.iter().find(|mark| mark.starts_with('g')).map(|mark| Grace { slashed: *mark == "gs" });
    let tuplet = numbered('t').map(|n| (n, 1 << n.ilog2()));
    let lasts = match (grace.is_some(), notes == "R") {
        (true, _) => Quarters::ZERO,
        (false, true) => bar,
        (false, false) if marks.contains(&"h") => lasting(value, dots, tuplet) / 2,
        (false, false) => lasting(value, dots, tuplet),
    };
    let begins = *at;
    *at += lasts;
    Event {
        at: begins,
        lasts,
        value,
        dots,
        tuplet,
        kind: kind(notes, numbered('s').unwrap_or(staff), shape.ends_with('~'), &fingers),
        stem: Stem::Free,
        beams: Vec::new(),
        grace,
        articulations: marks.iter().filter_map(articulation).collect(),
        fermata: None,
        ornaments: marks.iter().filter_map(ornament).collect(),
    }
}

/// A bar of voices, each of a staff.
pub fn bar(meter: &str, fifths: i8, voices: &[(u8, &str)]) -> ScoreBar {
    let meter: Meter = meter.parse().expect("a meter");
    let staves = voices.iter().map(|(staff, _)| *staff).max().unwrap_or(1);
    let voice = |(index, (staff, text)): (usize, &(u8, &str))| {
        let mut at = Quarters::ZERO;
        let events = text.split_whitespace().map(|text| event(text, *staff, &mut at, meter.bar())).collect();
        Voice { name: (index + 1).to_string(), events }
    };
    let clefs = if staves > 1 { vec![Clef::TREBLE, Clef::BASS] } else { vec![Clef::TREBLE] };
    ScoreBar {
        number: "1".into(),
        length: meter.bar(),
        missing: Quarters::ZERO,
        meter,
        fifths,
        tempo: None,
        attacks: Vec::new(),
        dynamics: Vec::new(),
        written: WrittenBar { clefs, voices: voices.iter().enumerate().map(voice).collect(), ..WrittenBar::default() },
    }
}

/// A part of bars, numbered from 1.
pub fn part(bars: Vec<ScoreBar>) -> Part {
    let staves = bars.iter().map(|bar| bar.written.clefs.len()).max().unwrap_or(1) as u8;
    let numbered = |(index, bar): (usize, ScoreBar)| ScoreBar { number: (index + 1).to_string(), ..bar };
    Part {
        id: "P1".into(),
        name: String::new(),
        staves,
        lines: 5,
        bars: bars.into_iter().enumerate().map(numbered).collect(),
        spanners: Vec::new(),
    }
}

/// Changes to a bar in passing.
pub trait With {
    fn dynamic(self, at: &str, staff: u8, mark: &str) -> Self;
    fn says(self, at: &str, staff: u8, above: Option<bool>, says: Says) -> Self;
    fn sign(self, sign: MeterSign) -> Self;
    fn lines(self, opens: Barline, closes: Barline) -> Self;
    fn clefs(self, clefs: &[Clef]) -> Self;
}

impl With for ScoreBar {
    fn dynamic(mut self, at: &str, staff: u8, mark: &str) -> Self {
        self.dynamics.push(Dynamic { at: quarters(at), staff, above: None, mark: mark.into() });
        self
    }

    fn says(mut self, at: &str, staff: u8, above: Option<bool>, says: Says) -> Self {
        self.written.texts.push(StaffText { at: quarters(at), staff, above, says });
        self
    }

    fn sign(mut self, sign: MeterSign) -> Self {
        self.written.meter_sign = sign;
        self
    }

    fn lines(mut self, opens: Barline, closes: Barline) -> Self {
        (self.written.opens, self.written.closes) = (opens, closes);
        self
    }

    fn clefs(mut self, clefs: &[Clef]) -> Self {
        self.written.clefs = clefs.to_vec();
        self
    }
}

/// Adds what stands from one place to another: `1:0` is the begin of the first bar.
pub fn span(part: &mut Part, kind: Spans, staff: u8, voice: &str, from: &str, to: &str) {
    let anchor = |place: &str| {
        let (bar, at) = place.split_once(':').expect("a bar and a place");
        let bar: isize = bar.parse().expect("a bar");
        Anchor { bar: bar - 1, at: quarters(at), staff, voice: voice.into(), grace: 0 }
    };
    part.spanners.push(Spanner { kind, from: anchor(from), to: anchor(to), above: None });
}

/// Places where a note begins that is not tied on from before.
pub fn onsets(part: &Part) -> Vec<Quarters> {
    let mut onsets = BTreeMap::new();
    let mut start = Quarters::ZERO;
    for bar in &part.bars {
        for event in bar.written.voices.iter().flat_map(|voice| &voice.events) {
            let struck = |head: &Head| !head.tied_from;
            if event.grace.is_none() && matches!(&event.kind, Kind::Notes(heads) if heads.iter().any(struck)) {
                onsets.insert(start + event.at, ());
            }
        }
        start += bar.length;
    }
    onsets.into_keys().collect()
}
