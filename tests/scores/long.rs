//! Very much in one place: thousands of notes between two bar lines or over each other, and files made to unpack to
//! more than anyone writes.

use crate::texts::{chord, heard, note, score};
use std::{
    collections::HashSet,
    io::{Cursor, Write},
};
use tailfirst::music::{
    Quarters,
    musicxml::{LARGEST_TEXT, Mend, ReadError, read},
    score::{Part, ScoreBar},
    written::{Kind, Spans},
};
use zip::{ZipWriter, write::SimpleFileOptions};

/// What is laid out at once is bounded, whatever the file holds: so drawing takes no longer for more of the same.
fn assert_bounded(part: &Part) {
    for bar in &part.bars {
        let events = || bar.written.voices.iter().flat_map(|voice| &voice.events);
        let places: HashSet<Quarters> = events().map(|event| event.at).collect();
        assert!(places.len() <= 130 && bar.written.voices.len() <= 64, "bar {}", bar.number);
        let heads = events().map(|event| match &event.kind {
            Kind::Notes(heads) => heads.len(),
            Kind::Rest { .. } => 1,
        });
        assert!(heads.max().is_none_or(|most| most <= 64), "bar {}", bar.number);
        let graces = events().filter(|event| event.grace.is_some()).count();
        assert!(graces <= 64 * 32 && bar.attacks.len() <= 130 * usize::from(part.staves), "bar {}", bar.number);
    }
}

/// A bar with so many sixteenths.
fn run(notes: usize) -> String {
    ["C5", "D5", "E5", "F5"].map(|key| note(key, 1, "")).concat().repeat(notes / 4)
}

#[test]
fn a_bar_with_thousands_of_notes_is_divided_on_its_beats() {
    let reading = heard(&score(&[&run(3_000), &run(16)]));
    let bars = &reading.score.parts[0].bars;
    assert_bounded(&reading.score.parts[0]);
    let total: Quarters = bars.iter().map(|bar| bar.length).sum();
    assert_eq!((total, bars.len() > 20), (Quarters::whole(754), true));
    let attacks: usize = bars.iter().map(|bar| bar.attacks.len()).sum();
    assert_eq!(attacks, 3_016, "every note is still played");
    let starts_on_beat = |bar: &ScoreBar| bar.length.denominator() == 1 && bar.missing.denominator() == 1;
    assert!(bars.iter().all(starts_on_beat), "a piece begins off the beat");
    let numbers: Vec<&str> = bars.iter().map(|bar| bar.number.as_str()).collect();
    assert_eq!((&numbers[..2], numbers[bars.len() - 1]), (&["1", "1 (2)"][..], "2"));
    assert_eq!(reading.mended.iter().filter(|mended| mended.change == Mend::LongBar).count(), 1);
}

#[test]
fn an_ordinary_bar_however_dense_stays_one() {
    let hand = |staff: u8| note("C5", 1, &format!("<staff>{staff}</staff>")).repeat(120);
    let bar = hand(1) + "<backup><duration>120</duration></backup>" + &hand(2);
    assert_eq!(heard(&score(&[&bar])).score.parts[0].bars.len(), 1);
}

#[test]
fn what_stands_from_place_to_place_in_a_long_bar_is_found_in_its_pieces() {
    let slur = |does: &str| format!("<notations><slur number='1' type='{does}'/></notations>");
    let bar = note("C5", 1, &slur("start")) + &run(400) + &note("C5", 1, &slur("stop"));
    let part = heard(&score(&[&bar])).score.parts.remove(0);
    let slurs: Vec<_> = part.spanners.iter().filter(|spanner| spanner.kind == Spans::Slur).collect();
    let [slur] = slurs.as_slice() else { panic!("{} slurs", slurs.len()) };
    let before = |bar: isize| part.bars[..bar as usize].iter().map(|bar| bar.length).sum::<Quarters>();
    let sixteenth = Quarters::new(1, 4).expect("in bounds");
    assert_eq!(before(slur.from.bar) + slur.from.at, Quarters::ZERO);
    assert_eq!(before(slur.to.bar) + slur.to.at, sixteenth * 401);
}

#[test]
fn whatever_is_heaped_up_is_bounded() {
    let heap = 2_000;
    let chords = note("C4", 12, "") + &(0..heap).map(|n| chord(["D4", "E5", "F6"][n % 3], 12, "")).collect::<String>();
    let graces = note("C4", 0, "<grace/>").replace("<duration>0</duration>", "").repeat(heap) + &note("C4", 12, "");
    let back = "<backup><duration>12</duration></backup>";
    let voices: String =
        (0..heap).map(|n| note("C4", 12, "").replace("<voice>1<", &format!("<voice>{n}<")) + back).collect();
    let tiny = note("C4", 1, "").repeat(heap);
    for bar in [chords, graces, voices, tiny] {
        let text = score(&[&bar]).replace("<divisions>4<", "<divisions>10080<");
        for text in [score(&[&bar]), text] {
            assert_bounded(&heard(&text).score.parts[0]);
        }
    }
}

#[test]
fn each_limit_is_named_for_what_it_is() {
    let of = |element: &str, count: usize| {
        let elements = element.repeat(count);
        format!("<score-partwise><part-list/><part id='P1'>{elements}</part></score-partwise>")
    };
    assert_eq!(read(of("<measure/>", 100_001).as_bytes()), Err(ReadError::TooManyBars));
    let notes = of("<measure>", 1) + &"<note/>".repeat(500_001);
    assert_eq!(read(notes.as_bytes()), Err(ReadError::TooManyNotes));
    assert_eq!(read(&squeezed(&of("<b/>", 4_000_001))), Err(ReadError::TooManyElements));
    let said = ReadError::TooManyElements.to_string();
    assert!(said.contains("4000000 elements") && said.ends_with("export only the part you play."), "{said}");
}

/// Packed as one entry.
fn squeezed(text: &str) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    zip.start_file("score.xml", SimpleFileOptions::default()).expect("an entry");
    zip.write_all(text.as_bytes()).expect("written");
    zip.finish().expect("a zip").into_inner()
}

/// Sets the size that the entry claims to unpack to, in its own head and in the directory (APPNOTE 6.3.10, 4.3.7 and
/// 4.3.12).
fn claim(zip: &mut [u8], size: u32) {
    for (signature, offset) in [(b"PK\x03\x04", 22), (b"PK\x01\x02", 24)] {
        let head = zip.windows(4).position(|bytes| bytes == signature).expect("a head");
        zip[head + offset..head + offset + 4].copy_from_slice(&size.to_le_bytes());
    }
}

#[test]
fn a_bomb_is_refused_by_what_it_claims_and_unpacked_no_further() {
    let text = score(&[&note("C4", 12, "")]);
    let mut honest = squeezed(&text);
    assert!(read(&honest).is_ok());
    claim(&mut honest, LARGEST_TEXT as u32 + 1);
    assert_eq!(read(&honest), Err(ReadError::UnpackedTooLarge), "it claims more than is unpacked");
    let mut liar = squeezed(&(text + &" ".repeat(10_000_000)));
    claim(&mut liar, 1_000);
    assert_eq!(read(&liar), Err(ReadError::DamagedZip), "it holds more than it claims");
}
