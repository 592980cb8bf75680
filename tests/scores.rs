//! What the reader makes of real scores, of hard cases in small ones, and of files that are no scores.

use proptest::prelude::*;
use serde_json::Value;
use std::io::{Cursor, Write};
use tailfirst::music::{
    Hand, Passage, Pitch, Quarters,
    musicxml::{Change, LARGEST_FILE, LARGEST_TEXT, ReadError, Reading, read},
    passage::{Articulation, PassageError},
    score::{Part, ScoreBar, WrittenNote},
};
use zip::{ZipWriter, write::SimpleFileOptions};

const POLONAISE_1: &[u8] = include_bytes!("scores/polonaise_op1n1.mxl");
const POLONAISE_3: &[u8] = include_bytes!("scores/polonaise_op1n3.mxl");
const ALOHA_OE: &[u8] = include_bytes!("scores/aloha_oe.mxl");

// Real scores, against lists made with two reference libraries (tests/scores/README.md).

#[test]
fn onsets_fingerings_and_marks_are_those_of_the_reference_lists() {
    for (score, list) in [
        (POLONAISE_1, include_str!("scores/polonaise_op1n1.onsets.json")),
        (POLONAISE_3, include_str!("scores/polonaise_op1n3.onsets.json")),
        (ALOHA_OE, include_str!("scores/aloha_oe.onsets.json")),
    ] {
        let list: Value = serde_json::from_str(list).expect("the list is JSON");
        let score = read(score).expect("a score").score;
        let part = score.parts.iter().find(|part| part.id == list["part_id"]).expect("the part of the list");
        let bars = list["bars"].as_array().expect("bars");
        assert_eq!(bars.len(), 4);
        bars.iter().for_each(|expected| assert_bar(part, expected));
    }
}

fn assert_bar(part: &Part, expected: &Value) {
    let bar = &part.bars[expected["index"].as_u64().expect("an index") as usize];
    assert_eq!(bar.number, expected["number"]);
    assert_eq!(bar.meter.to_string(), expected["time_signature"]);
    assert_eq!(bar.length.to_string(), expected["length_quarters"]);
    for staff in 1..=part.staves {
        let onsets = bar.attacks.iter().filter(|attack| attack.staff == staff);
        let found: Vec<_> = onsets.map(|attack| (attack.at.to_string(), keys(&attack.notes))).collect();
        let listed = expected["staves"][staff.to_string()].as_array().expect("a staff");
        let listed: Vec<_> = listed.iter().map(|onset| (text(&onset["onset"]), integers(&onset["pitches"]))).collect();
        assert_eq!(found, listed, "bar {} staff {staff}", bar.number);
    }
    let signs = |sign| marked(bar, move |note| note.articulations.contains(&sign).then(String::new));
    let listed_signs = |name: &str| {
        let mut signs = listed(&expected[name], None);
        signs.iter_mut().for_each(|sign| name_struck_note(sign, bar));
        signs
    };
    assert_eq!(signs(Articulation::Accent), listed_signs("accents"), "accents of bar {}", bar.number);
    assert_eq!(signs(Articulation::Staccato), listed_signs("staccato"), "staccato of bar {}", bar.number);
    let fingers = marked(bar, |note| note.fingering.clone());
    assert_eq!(fingers, listed(&expected["fingering"], Some("finger")), "fingers of bar {}", bar.number);
    let graces = marked(bar, |note| (!note.graces.is_empty()).then(String::new));
    assert_eq!(graces, listed(&expected["grace"], None), "grace notes of bar {}", bar.number);
    let dynamics = bar.dynamics.iter().map(|dynamic| (dynamic.at.to_string(), dynamic.staff, dynamic.mark.clone()));
    let marks = expected["dynamics"].as_array().expect("dynamics").iter();
    let marks = marks.map(|mark| (text(&mark["onset"]), staff_of(mark), text(&mark["mark"])));
    assert_eq!(dynamics.collect::<Vec<_>>(), marks.collect::<Vec<_>>(), "dynamics of bar {}", bar.number);
}

/// The lists name a chord's sign by the note that carries it in the file. Where that one is tied over
/// (no. 3, bar 16, lower staff), the sign is for the note that is struck.
fn name_struck_note((at, staff, key, _): &mut Marked, bar: &ScoreBar) {
    let attack = bar.attacks.iter().find(|attack| attack.at.to_string() == *at && attack.staff == *staff);
    let struck = keys(&attack.expect("something is struck under the sign").notes);
    if !struck.contains(key) {
        *key = struck[0];
    }
}

type Marked = (String, u8, i64, String);

fn marked(bar: &ScoreBar, mark: impl Fn(&WrittenNote) -> Option<String>) -> Vec<Marked> {
    let notes = bar.attacks.iter().flat_map(|attack| attack.notes.iter().map(move |note| (attack, note)));
    let mut found: Vec<_> = notes
        .filter_map(|(attack, note)| Some((attack.at.to_string(), attack.staff, key(note), mark(note)?)))
        .collect();
    found.sort();
    found
}

fn listed(list: &Value, mark: Option<&str>) -> Vec<Marked> {
    let entries = list.as_array().expect("a list").iter();
    let entry = |entry: &Value| {
        let mark = mark.map_or_else(String::new, |name| text(&entry[name]));
        (text(&entry["onset"]), staff_of(entry), entry["midi"].as_i64().expect("a key"), mark)
    };
    let mut listed: Vec<_> = entries.map(entry).collect();
    listed.sort();
    listed
}

fn text(value: &Value) -> String {
    value.as_str().expect("a text").into()
}

fn integers(value: &Value) -> Vec<i64> {
    value.as_array().expect("a list").iter().map(|value| value.as_i64().expect("an integer")).collect()
}

fn staff_of(value: &Value) -> u8 {
    value["staff"].as_u64().expect("a staff") as u8
}

fn key(note: &WrittenNote) -> i64 {
    note.pitch.map_or(-1, |pitch| i64::from(pitch.midi()))
}

fn keys(notes: &[WrittenNote]) -> Vec<i64> {
    let mut keys: Vec<_> = notes.iter().map(key).collect();
    keys.sort();
    keys
}

#[test]
fn real_scores_say_what_they_are_called_and_who_wrote_them() {
    let names = |bytes| {
        let score = read(bytes).expect("a score").score;
        let shape: Vec<_> = score.parts.iter().map(|part| (part.staves, part.bars.len())).collect();
        (score.title, score.composer, shape)
    };
    let (title, composer, shape) = names(POLONAISE_1);
    assert_eq!((title.as_str(), composer.as_str()), ("Polonaise in E-flat major, Op. 1 No. 1", "Clara Schumann"));
    assert_eq!(shape, [(2, 40)]);
    let (title, composer, shape) = names(ALOHA_OE);
    assert_eq!((title.as_str(), composer.as_str()), ("Aloha Oe", "H.R.H.Liliuokalani"));
    assert_eq!(shape, [(1, 23), (1, 23), (1, 23), (1, 23), (1, 23), (2, 23)]);
}

#[test]
fn a_cut_joins_both_staves_onset_by_onset() {
    let score = read(POLONAISE_1).expect("a score").score;
    let part = &score.parts[0];
    let passage = part.cut(23..=24, &part.usual_hands()).expect("bars 24 and 25");
    let bars: Vec<_> = passage.bars().iter().map(|bar| (bar.number.as_str(), bar.start.to_string())).collect();
    assert_eq!(bars, [("24", "0".into()), ("25", "3".into())]);
    let first: Vec<_> = passage.onsets().iter().take(9).map(|onset| onset.at.to_string()).collect();
    assert_eq!(first, ["0", "1/4", "1/2", "1", "5/4", "3/2", "2", "5/2", "3"]);
    let downbeat = &passage.onsets()[0].notes;
    let hands: Vec<_> = downbeat.iter().map(|note| (note.hand, note.pitch.map(Pitch::midi))).collect();
    assert_eq!(hands, [(Hand::Right, Some(79)), (Hand::Left, Some(46))]);
    let upper = part.cut(23..=23, &[Hand::Right]).expect("the upper staff alone");
    assert!(upper.onsets().iter().all(|onset| !onset.plays(Hand::Left)));
    assert_eq!(part.cut(40..=40, &part.usual_hands()), Err(PassageError::Empty));
    assert_eq!(part.cut(0..=usize::MAX, &part.usual_hands()), Err(PassageError::Empty));
}

// Small scores, one hard case each.

/// A one-part score in 3/4 with 4 divisions to the quarter, whose first measure has these contents.
fn score(measures: &[&str]) -> String {
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
fn note(pitch: &str, duration: u32, more: &str) -> String {
    let (step, octave) = pitch.split_at(1);
    format!(
        "<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>{duration}</duration>{more}</note>"
    )
}

fn chord(pitch: &str, duration: u32, more: &str) -> String {
    note(pitch, duration, more).replacen("<note>", "<note><chord/>", 1)
}

fn heard(text: &str) -> Reading {
    read(text.as_bytes()).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

/// Every attack of the first part as `bar:at staff key=length …`.
fn attacks(text: &str) -> Vec<String> {
    let reading = heard(text);
    let bars = reading.score.parts[0].bars.iter().enumerate();
    let attack = |(index, bar): (usize, &ScoreBar)| -> Vec<String> {
        let notes =
            |notes: &[WrittenNote]| -> Vec<_> { notes.iter().map(|n| format!("{}={}", key(n), n.lasts)).collect() };
        bar.attacks.iter().map(|a| format!("{index}:{} {} {}", a.at, a.staff, notes(&a.notes).join(" "))).collect()
    };
    bars.flat_map(attack).collect()
}

fn changes(text: &str) -> Vec<Change> {
    heard(text).mended.into_iter().map(|mended| mended.change).collect()
}

#[test]
fn a_chord_tied_on_some_notes_only_attacks_the_others() {
    let (start, stop) = ("<tie type='start'/>", "<tie type='stop'/>");
    let first = note("E5", 4, start) + &chord("G5", 4, "") + &note("E5", 8, stop) + &chord("A5", 8, "");
    assert_eq!(attacks(&score(&[&first])), ["0:0 1 76=3 79=1", "0:1 1 81=2"]);
}

#[test]
fn a_tie_lasts_across_bars_and_from_voice_to_voice() {
    let (on, off) = ("<tie type='start'/><voice>2</voice>", "<tie type='stop'/><voice>1</voice>");
    let through = "<tie type='stop'/><tie type='start'/><voice>1</voice>";
    let bars = [note("C4", 12, on), note("C4", 12, through), note("C4", 4, off) + &note("D4", 8, "")];
    let bars: Vec<_> = bars.iter().map(String::as_str).collect();
    assert_eq!(attacks(&score(&bars)), ["0:0 1 60=7", "2:1 1 62=2"]);
}

#[test]
fn a_tie_that_begins_nowhere_is_played_and_said() {
    let text = score(&[&note("C4", 12, "<tie type='stop'/>")]);
    assert_eq!(attacks(&text), ["0:0 1 60=3"]);
    assert_eq!(changes(&text), [Change::LooseTie]);
}

#[test]
fn voices_step_back_and_forward_and_notes_keep_their_own_staff() {
    let upper = note("E5", 4, "<voice>1</voice><staff>1</staff>") + &chord("C4", 4, "<staff>2</staff>");
    let lower = "<backup><duration>4</duration></backup><forward><duration>2</duration></forward>".to_owned()
        + &note("G3", 10, "<voice>5</voice><staff>2</staff>");
    let text = score(&[&(upper + &lower)]);
    assert_eq!(attacks(&text), ["0:0 1 76=1", "0:0 2 60=1", "0:1/2 2 55=5/2"]);
    assert_eq!(heard(&text).score.parts[0].usual_hands(), [Hand::Right, Hand::Left]);
}

#[test]
fn grace_notes_run_into_the_next_note_of_their_voice_also_over_the_bar_line() {
    let grace = |pitch| note(pitch, 0, "<voice>1</voice>").replacen("<note>", "<note><grace/>", 1);
    let bars = [note("C5", 12, "<voice>1</voice>") + &grace("B4"), grace("D5") + &note("C5", 12, "<voice>1</voice>")];
    let reading = heard(&score(&[&bars[0], &bars[1]]));
    let graces: Vec<_> = reading.score.parts[0].bars.iter().map(|bar| &bar.attacks[0].notes[0].graces).collect();
    assert_eq!(
        graces.iter().map(|g| g.iter().map(|p| p.midi()).collect()).collect::<Vec<Vec<_>>>(),
        [vec![], vec![71, 74]]
    );
    assert!(reading.mended.is_empty());
}

#[test]
fn a_pickup_bar_begins_where_its_beat_is() {
    let pickup = note("G4", 4, "");
    let full = note("C5", 12, "");
    let score = heard(&score(&[&pickup, &full, &full])).score;
    let shapes: Vec<_> = score.parts[0].bars.iter().map(|bar| format!("{} {}", bar.length, bar.missing)).collect();
    assert_eq!(shapes, ["1 2", "3 0", "3 0"]);
    let passage = score.parts[0].cut(0..=1, &[Hand::Line]).expect("two bars");
    assert_eq!(passage.bars()[0].missing.to_string(), "2");
    assert_eq!(passage.bars()[1].start.to_string(), "1");
}

#[test]
fn a_bar_that_a_repeat_divides_goes_on_where_it_stopped() {
    let score =
        heard(&score(&[&note("C5", 12, ""), &note("C5", 8, ""), &note("D5", 4, ""), &note("C5", 12, "")])).score;
    let missing: Vec<_> = score.parts[0].bars.iter().map(|bar| bar.missing.to_string()).collect();
    assert_eq!(missing, ["0", "0", "2", "0"]);
}

#[test]
fn tempo_marks_count_the_beat_they_show_and_hold_until_the_next() {
    let mark = "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/>\
                <per-minute>ca. 56</per-minute></metronome></direction-type><sound tempo='84'/></direction>";
    let six_eight = "<attributes><time><beats>6</beats><beat-type>8</beat-type></time></attributes>";
    let first = format!("{six_eight}{mark}{}", note("C4", 12, ""));
    let later = format!("{}<sound tempo='90'/>{}", note("C4", 6, ""), note("D4", 6, ""));
    let score = heard(&score(&[&first, &later, &note("C4", 12, "")])).score;
    let tempi = score.parts[0].bars.iter().map(|bar| bar.tempo.expect("a tempo"));
    let tempi: Vec<_> = tempi.map(|tempo| (tempo.beat.quarters().to_string(), tempo.bpm.get())).collect();
    assert_eq!(tempi, [("3/2".into(), 56), ("3/2".into(), 56), ("3/2".into(), 60)]);
}

#[test]
fn a_score_without_a_tempo_leaves_it_to_the_player() {
    assert_eq!(heard(&score(&[&note("C4", 12, "")])).score.parts[0].bars[0].tempo, None);
}

#[test]
fn unlike_divisions_give_the_same_onsets() {
    let halves = note("C4", 6, "") + &note("D4", 6, "");
    let finer =
        "<attributes><divisions>96</divisions></attributes>".to_owned() + &note("C4", 144, "") + &note("D4", 144, "");
    assert_eq!(
        attacks(&score(&[&halves, &finer])),
        ["0:0 1 60=3/2", "0:3/2 1 62=3/2", "1:0 1 60=3/2", "1:3/2 1 62=3/2"]
    );
}

#[test]
fn rounded_tuplets_become_exact_and_it_is_said_once() {
    let third = "<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";
    let triplet = note("C4", 1, third) + &note("D4", 1, third) + &note("E4", 1, third);
    let bar = format!(
        "{triplet}<backup><duration>3</duration></backup>{}",
        note("C3", 12, "<voice>2</voice><type>half</type><dot/>")
    );
    let text = score(&[&bar, &bar]);
    let onsets = ["0 1 60=1/3 48=3", "1/3 1 62=1/3", "2/3 1 64=1/3"];
    let expected: Vec<_> = (0..2).flat_map(|bar| onsets.map(|onset| format!("{bar}:{onset}"))).collect();
    assert_eq!(attacks(&text), expected);
    assert_eq!(
        heard(&text).mended.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["Bar 1 and 5 more places: rounded note lengths were made exact"]
    );
}

#[test]
fn missing_divisions_are_told_from_the_note_shapes() {
    let bar = note("C4", 480, "<type>quarter</type>") + &note("D4", 960, "<type>half</type>");
    let text = score(&[&bar]).replace("<divisions>4</divisions>", "");
    assert_eq!(attacks(&text), ["0:0 1 60=1", "0:1 1 62=2"]);
    assert_eq!(changes(&text), [Change::Divisions]);
}

#[test]
fn a_bar_with_too_much_in_it_is_longer_and_loses_nothing() {
    let text = score(&[&(note("C4", 12, "") + &note("D4", 4, "")), &note("E4", 12, "")]);
    assert_eq!(heard(&text).score.parts[0].bars[0].length, Quarters::whole(4));
    assert_eq!(changes(&text), [Change::Overfull]);
    assert_eq!(cut(&text).onsets().len(), 3);
}

fn cut(text: &str) -> Passage {
    let score = heard(text).score;
    let part = &score.parts[0];
    part.cut(0..=part.bars.len() - 1, &part.usual_hands()).expect("a passage")
}

#[test]
fn a_dynamic_mark_stands_where_its_offset_says_and_is_played_by_what_follows() {
    let mark = |name, offset| {
        format!(
            "<direction><direction-type><dynamics><{name}/></dynamics></direction-type><offset>{offset}</offset></direction>"
        )
    };
    let bar = note("C4", 4, "")
        + &mark("sf", -4)
        + "<note><rest/><duration>4</duration></note>"
        + &mark("pp", -2)
        + &note("D4", 4, "");
    let text = score(&[&bar]);
    let marks: Vec<_> =
        heard(&text).score.parts[0].bars[0].dynamics.iter().map(|d| format!("{} {}", d.mark, d.at)).collect();
    assert_eq!(marks, ["sf 0", "pp 3/2"]);
    let passage = cut(&text);
    let played: Vec<_> = passage.onsets().iter().map(|onset| onset.dynamic.as_deref()).collect();
    assert_eq!(played, [Some("sf"), Some("pp")]);
}

#[test]
fn fingers_are_read_as_printed_and_drums_keep_their_rhythm() {
    let fingers = "<notations><technical><fingering>3</fingering><fingering substitution='yes'>1</fingering></technical></notations>";
    let drum = "<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>8</duration></note>";
    let notes = cut(&score(&[&(note("C4", 4, fingers) + drum)]));
    let read: Vec<_> = notes
        .onsets()
        .iter()
        .map(|onset| (onset.notes[0].fingering.as_deref(), onset.notes[0].pitch.is_some()))
        .collect();
    assert_eq!(read, [(Some("3-1"), true), (None, false)]);
}

#[test]
fn cue_notes_are_left_out_but_keep_their_time() {
    let cue = note("C6", 4, "").replacen("<note>", "<note><cue/>", 1);
    let text = score(&[&(cue + &note("C4", 8, "<lyric><text>la</text></lyric>"))]);
    assert_eq!(attacks(&text), ["0:1 1 60=2"]);
    assert_eq!(
        heard(&text).mended.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["Bar 1: cue notes are not shown", "Bar 1: lyrics are not shown"]
    );
}

#[test]
fn a_score_ordered_by_measure_is_the_same_score() {
    let partwise = score(&[&note("C4", 12, ""), &note("D4", 12, "")]);
    let timewise = partwise
        .replace("<part id='P1'>", "")
        .replace("</part></score", "</score")
        .replace("score-partwise", "score-timewise")
        .replace("<measure number='1'>", "<measure number='1'><part id='P1'>")
        .replace("<measure number='2'>", "<measure number='2'><part id='P1'>")
        .replace("</measure>", "</part></measure>");
    assert_eq!(heard(&timewise), heard(&partwise));
}

// The outside of a file: encodings, packing, and what is no score.

#[test]
fn any_usual_encoding_gives_the_same_score() {
    let text = score(&[&note("C4", 12, "")]).replace(">Piano<", ">Flügel<");
    let expected = heard(&text);
    assert_eq!(expected.score.parts[0].name, "Flügel");
    let units = || text.encode_utf16();
    let little: Vec<u8> = [0xFF, 0xFE].into_iter().chain(units().flat_map(u16::to_le_bytes)).collect();
    let big: Vec<u8> = [0xFE, 0xFF].into_iter().chain(units().flat_map(u16::to_be_bytes)).collect();
    let unmarked: Vec<u8> = units().flat_map(u16::to_le_bytes).collect();
    let marked = format!("\u{feff}{text}").into_bytes();
    let declared = format!("<?xml version='1.0' encoding='ISO-8859-1'?>{text}");
    let latin: Vec<u8> = declared.chars().map(|letter| letter as u8).collect();
    for bytes in [little, big, unmarked, marked, latin] {
        assert_eq!(read(&bytes).as_ref(), Ok(&expected));
    }
}

fn packed(entries: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in entries {
        zip.start_file(*name, SimpleFileOptions::default()).expect("an entry");
        zip.write_all(content).expect("written");
    }
    zip.finish().expect("a zip").into_inner()
}

#[test]
fn a_packed_score_is_found_by_its_container_or_guessed() {
    let (good, other) = (score(&[&note("C4", 12, "")]), score(&[&note("D4", 12, "")]));
    let container = b"<container><rootfiles><rootfile full-path='b.xml'/></rootfiles></container>";
    let (good, other) = (good.as_bytes(), other.as_bytes());
    let named = packed(&[("META-INF/container.xml", container), ("a.xml", other), ("b.xml", good)]);
    assert_eq!(read(&named), read(good));
    let guessed = packed(&[("notes.txt", b"hello"), ("score.musicxml", good)]);
    assert_eq!(read(&guessed), read(good));
    assert_eq!(read(&packed(&[("notes.txt", b"hello")])), Err(ReadError::NoScoreInZip));
}

#[test]
fn a_zip_bomb_is_not_unpacked_beyond_the_limit() {
    let bomb = packed(&[("score.xml", &vec![b' '; LARGEST_TEXT + 1])]);
    assert!(bomb.len() < LARGEST_TEXT / 500);
    assert_eq!(read(&bomb), Err(ReadError::UnpackedTooLarge));
    assert_eq!(read(&vec![b' '; LARGEST_FILE + 1]), Err(ReadError::FileTooLarge));
}

#[test]
fn entities_that_grow_and_crowded_elements_are_refused_at_once() {
    let laughs = format!("<!DOCTYPE a [\n<!ENTITY a 'ha'>\n<!ENTITY b '&a;&a;'>]>{}", score(&[&note("C4", 12, "")]));
    assert_eq!(read(laughs.as_bytes()), Err(ReadError::OwnEntities { line: 2 }));
    let crowd: String = (0..100_000).map(|index| format!(" a{index}=''")).collect();
    assert_eq!(read(format!("<score-partwise{crowd}/>").as_bytes()), Err(ReadError::NotAScore));
    let nested = "<score-partwise>".to_owned() + &"<a>".repeat(1_000_000);
    assert!(matches!(read(nested.as_bytes()), Err(ReadError::DamagedXml { .. })));
}

#[test]
fn what_is_no_score_is_refused_with_the_place_and_what_to_do() {
    let said = |bytes: &[u8]| read(bytes).expect_err("no score").to_string();
    assert_eq!(said(b" \n"), "the file is empty; export the score again and choose the new file");
    assert!(said(b"a letter to a friend").starts_with("this is not a MusicXML score"));
    assert!(said(b"<html><body/></html>").starts_with("this is not a MusicXML score"));
    assert!(said(b"<\xE9\xFF>").contains("export the score as MusicXML in UTF-8"));
    let damaged = score(&[&note("C4", 12, "")]).replacen("</note>", "\n</nope>", 1);
    assert_eq!(
        said(damaged.as_bytes()),
        "the score is damaged at line 2; export it again from the program that wrote it"
    );
    assert!(said(&POLONAISE_1[..POLONAISE_1.len() / 2]).starts_with("the packed file is damaged"));
    let silent = score(&["<note><rest/><duration>12</duration></note>"]);
    assert_eq!(read(silent.as_bytes()), Err(ReadError::NoNotes));
}

// Any bytes at all.

/// The whole of a reading, used: whatever was understood can be cut into a passage or is refused.
fn use_up(bytes: &[u8]) {
    let Ok(reading) = read(bytes) else { return };
    for part in &reading.score.parts {
        let _ = part.cut(0..=part.bars.len().saturating_sub(1), &part.usual_hands());
        for bar in &part.bars {
            assert!(bar.length > Quarters::ZERO && bar.missing >= Quarters::ZERO);
            assert!(bar.attacks.iter().all(|attack| attack.at < bar.length && attack.at >= Quarters::ZERO));
        }
    }
}

fn unpacked(bytes: &[u8]) -> Vec<u8> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).expect("a zip");
    let name = zip
        .file_names()
        .map(|name| name.expect("a name").into_owned())
        .find(|name| !name.starts_with("META"))
        .expect("a score");
    let mut content = Vec::new();
    std::io::copy(&mut zip.by_name(&name).expect("the score"), &mut content).expect("unpacked");
    content
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_packed_files_never_panic(
        which in 0..3usize,
        flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..20),
        kept in 0.3..1.3f64,
    ) {
        let mut bytes = [POLONAISE_1, POLONAISE_3, ALOHA_OE][which].to_vec();
        flips.iter().for_each(|(place, value)| *place.get_mut(&mut bytes) = *value);
        bytes.truncate((bytes.len() as f64 * kept) as usize);
        use_up(&bytes);
    }

    /// Figures inside the text are changed, so that most of the files stay well-formed and are read.
    #[test]
    fn scores_with_any_numbers_in_them_never_panic(
        edits in prop::collection::vec((any::<prop::sample::Index>(), "-?[0-9]{1,12}(\\.[0-9]{1,9})?|x|"), 1..60),
    ) {
        let text = String::from_utf8(unpacked(ALOHA_OE)).expect("UTF-8");
        let mut pieces: Vec<_> = text.split('>').map(String::from).collect();
        let figures = |piece: &String| piece.starts_with(|letter: char| letter.is_ascii_digit());
        let places: Vec<_> = (0..pieces.len()).filter(|place| figures(&pieces[*place])).collect();
        for (place, figure) in &edits {
            let piece = &mut pieces[*place.get(&places)];
            *piece = format!("{figure}{}", piece.trim_start_matches(|letter: char| letter != '<'));
        }
        use_up(pieces.join(">").as_bytes());
    }
}

/// The companion's `read`: what was understood, or one sentence and exit code 1.
#[test]
fn the_companion_prints_what_it_read_or_says_in_one_sentence_why_not() {
    let read = |path: &str| {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
        let companion = std::process::Command::new(env!("CARGO_BIN_EXE_tailfirst")).arg("read").arg(path).output();
        companion.expect("the companion runs")
    };
    let score = read("tests/scores/polonaise_op1n1.mxl");
    assert!(score.status.success());
    let report: serde_json::Value = serde_json::from_slice(&score.stdout).expect("JSON");
    assert_eq!(report["parts"][0]["bars"][23]["number"], "24");
    let none = read("README.md");
    assert_eq!(none.status.code(), Some(1));
    assert_eq!(String::from_utf8_lossy(&none.stderr).trim().lines().count(), 1);
}
