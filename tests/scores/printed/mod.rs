//! What is printed, in small scores of one subject each, and in real ones.
//!
//! Meanings of the elements are those of the MusicXML 4.0 reference (W3C Music Notation Community Group, 2021).

mod notes;
mod spanners;
mod staves;

use crate::{
    POLONAISE_1,
    texts::{heard, score},
};
use tailfirst::music::{
    Quarters,
    musicxml::read,
    score::Part,
    written::{Anchor, Barline, Beam, Clef, Event, Head, Kind, Spans, WrittenBar},
};

fn part(measures: &[&str]) -> Part {
    heard(&score(measures)).score.parts.remove(0)
}

fn first_bar(content: &str) -> WrittenBar {
    part(&[content]).bars.remove(0).written
}

/// Every voice as `name: at value notes | …`, with a dot for each dot and the figures of a tuplet.
fn voices(bar: &WrittenBar) -> Vec<String> {
    let events = |events: &[Event]| events.iter().map(printed).collect::<Vec<_>>().join(" | ");
    bar.voices.iter().map(|voice| format!("{}: {}", voice.name, events(&voice.events))).collect()
}

fn printed(event: &Event) -> String {
    let dots = ".".repeat(usize::from(event.dots));
    let tuplet = event.tuplet.map(|(actual, normal)| format!(" {actual}:{normal}")).unwrap_or_default();
    let what = match &event.kind {
        Kind::Notes(heads) => {
            heads.iter().map(|head| head.pitch.map_or("x".into(), |pitch| pitch.to_string())).collect()
        }
        Kind::Rest { whole_bar: true, .. } => vec!["bar's rest".to_owned()],
        Kind::Rest { .. } => vec!["rest".to_owned()],
    };
    format!("{} {:?}{dots}{tuplet} {}", event.at, event.value, what.join(" "))
}

fn heads(event: &Event) -> &[Head] {
    let Kind::Notes(heads) = &event.kind else { panic!("a rest") };
    heads
}

/// Every sign that reaches from place to place: `bar:at-bar:at`, grace notes as `^1`.
fn spans(part: &Part) -> Vec<String> {
    let place = |anchor: &Anchor| {
        let grace = if anchor.grace > 0 { format!("^{}", anchor.grace) } else { String::new() };
        format!("{}:{}{grace}", anchor.bar, anchor.at)
    };
    let signs = part.spanners.iter();
    signs.map(|sign| format!("{:?} {}-{}", sign.kind, place(&sign.from), place(&sign.to))).collect()
}

const TRIPLET: &str =
    "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";

#[test]
fn in_a_real_score_every_sounding_note_is_printed_and_nothing_else() {
    let score = read(POLONAISE_1).expect("a score").score;
    for bar in &score.parts[0].bars {
        let events = bar.written.voices.iter().flat_map(|voice| &voice.events).filter(|event| event.grace.is_none());
        let notes = events.filter_map(|event| match &event.kind {
            Kind::Notes(heads) => {
                Some(heads.iter().filter(|head| !head.tied_from).map(|head| (event.at, head.staff, head.pitch)))
            }
            Kind::Rest { .. } => None,
        });
        let key = |(at, staff, pitch): &(Quarters, u8, Option<tailfirst::music::Pitch>)| {
            (*at, *staff, pitch.map(|p| p.midi()))
        };
        let mut printed: Vec<_> = notes.flatten().map(|note| key(&note)).collect();
        let attacks = bar.attacks.iter();
        let mut heard: Vec<_> = attacks
            .flat_map(|attack| attack.notes.iter().map(|note| key(&(attack.at, attack.staff, note.pitch))))
            .collect();
        printed.sort();
        printed.dedup();
        heard.sort();
        assert_eq!(printed, heard, "bar {}", bar.number);
    }
    let slurs = score.parts[0].spanners.iter().filter(|spanner| spanner.kind == Spans::Slur).count();
    assert!(slurs > 0);
}

#[test]
fn the_study_is_printed_in_two_voices_that_fill_every_bar() {
    let reading = read(include_bytes!("../../../src/music/study.musicxml")).expect("a score");
    assert_eq!(reading.mended, []);
    let part = &reading.score.parts[0];
    assert_eq!(voices(&part.bars[0].written), ["1: 0 Eighth A4", "5: 0 Eighth rest"]);
    assert_eq!(
        voices(&part.bars[1].written),
        [
            "1: 0 Quarter F♯5 | 1 Eighth E5 | 3/2 Quarter D5 | 5/2 Eighth A4",
            "5: 0 Eighth D3 | 1/2 Eighth A3 | 1 Eighth D4 | 3/2 Eighth F♯3 | 2 Eighth A3 | 5/2 Eighth D4"
        ]
    );
    let beams: Vec<_> = part.bars[1].written.voices[1].events.iter().map(|event| event.beams[0]).collect();
    assert_eq!(beams, [Beam::Begin, Beam::Continue, Beam::End].repeat(2));
    assert_eq!(part.bars.last().expect("bars").written.closes, Barline::Final);
    for bar in &part.bars {
        assert_eq!(bar.written.clefs, [Clef::TREBLE, Clef::BASS]);
        for voice in &bar.written.voices {
            let mut end = Quarters::ZERO;
            for event in &voice.events {
                assert_eq!(event.at, end, "voice {} of bar {}", voice.name, bar.number);
                end += event.lasts;
            }
            assert_eq!(end, bar.length, "voice {} of bar {}", voice.name, bar.number);
        }
    }
}
