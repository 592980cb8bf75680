//! Real scores, against lists made with two reference libraries (README.md), and what the companion says of them.

use crate::{
    ALOHA_OE, POLONAISE_1, POLONAISE_3,
    texts::{key, keys},
};
use serde_json::Value;
use tailfirst::music::{
    Hand, Pitch,
    musicxml::read,
    passage::{Articulation, PassageError},
    score::{Part, ScoreBar, WrittenNote},
};

#[test]
fn onsets_fingerings_and_marks_are_those_of_the_reference_lists() {
    for (score, list) in [
        (POLONAISE_1, include_str!("polonaise_op1n1.onsets.json")),
        (POLONAISE_3, include_str!("polonaise_op1n3.onsets.json")),
        (ALOHA_OE, include_str!("aloha_oe.onsets.json")),
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
