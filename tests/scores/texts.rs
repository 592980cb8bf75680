//! Small scores as texts, and what is heard in them.

use tailfirst::music::{
    Passage,
    musicxml::{Mend, Reading, read},
    score::{ScoreBar, WrittenNote},
};

/// A one-part score in 3/4 with 4 divisions to the quarter, whose first measure has these contents.
pub fn score(measures: &[&str]) -> String {
    let start =
        "<attributes><divisions>4</divisions><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";
    let measure = |(index, content): (usize, &&str)| {
        let start = if index == 0 { start } else { "" };
        format!("<measure number='{}'>{start}{content}</measure>\n", index + 1)
    };
    let measures: String = measures.iter().enumerate().map(measure).collect();
    format!(
        "<score-partwise version='4.0'><part-list><score-part id='P1'><part-name>Piano</part-name></score-part>\
             </part-list><part id='P1'>{measures}</part></score-partwise>"
    )
}

/// A note such as `C4 12`: step, octave and divisions, with further elements behind.
pub fn note(pitch: &str, duration: u32, more: &str) -> String {
    let (step, octave) = pitch.split_at(1);
    format!(
        "<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>{duration}</duration>{more}</note>"
    )
}

pub fn chord(pitch: &str, duration: u32, more: &str) -> String {
    note(pitch, duration, more).replacen("<note>", "<note><chord/>", 1)
}

pub fn heard(text: &str) -> Reading {
    read(text.as_bytes()).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

/// Every attack of the first part as `bar:at staff key=length …`.
pub fn attacks(text: &str) -> Vec<String> {
    let reading = heard(text);
    let bars = reading.score.parts[0].bars.iter().enumerate();
    let attack = |(index, bar): (usize, &ScoreBar)| -> Vec<String> {
        let notes =
            |notes: &[WrittenNote]| -> Vec<_> { notes.iter().map(|n| format!("{}={}", key(n), n.lasts)).collect() };
        bar.attacks.iter().map(|a| format!("{index}:{} {} {}", a.at, a.staff, notes(&a.notes).join(" "))).collect()
    };
    bars.flat_map(attack).collect()
}

pub fn changes(text: &str) -> Vec<Mend> {
    heard(text).mended.into_iter().map(|mended| mended.change).collect()
}

pub fn key(note: &WrittenNote) -> i64 {
    note.pitch.map_or(-1, |pitch| i64::from(pitch.midi()))
}

pub fn keys(notes: &[WrittenNote]) -> Vec<i64> {
    let mut keys: Vec<_> = notes.iter().map(key).collect();
    keys.sort();
    keys
}

pub fn cut(text: &str) -> Passage {
    let score = heard(text).score;
    let part = &score.parts[0];
    part.cut(0..=part.bars.len() - 1, &part.usual_hands()).expect("a passage")
}
