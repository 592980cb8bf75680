//! The published schema tells a converter's author what the reader takes.

use crate::{
    exported,
    samples::{self, DEVICE, LATER},
};
use boon::{Compiler, SchemaIndex, Schemas};
use serde_json::{Value, json};
use tailfirst::{
    journal::{Entry, EntryKind, Journal, Preference, SetAside, Theme},
    method::{Cause, Strictness},
    pulse::Click,
};

struct Schema(Schemas, SchemaIndex);

impl Schema {
    fn published() -> Schema {
        let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
        compiler.enable_format_assertions();
        let published = serde_json::from_str(include_str!("../../static/journal.schema.json")).expect("JSON");
        compiler.add_resource("journal.schema.json", published).expect("a resource");
        let index = compiler.compile("journal.schema.json", &mut schemas).expect("a schema");
        Schema(schemas, index)
    }

    fn refuses(&self, document: &Value) -> Option<String> {
        self.0.validate(document, self.1).err().map(|error| error.to_string())
    }
}

/// A journal with every kind of entry, every setting and every cause, and something set aside.
fn full() -> Journal {
    let mut journal = Journal::new();
    journal.merge(samples::entries());
    journal.merge(Entry::read(LATER));
    journal.put_aside(SetAside { place: "segment 4, line 2".into(), text: "{\"id\":\"7-".into() });
    let settings = [
        Preference::Strictness(Strictness::Lenient),
        Preference::Strictness(Strictness::Usual),
        Preference::BlockMinutes(0),
        Preference::RestMinutes(u32::MAX),
        Preference::BlocksADay(3),
        Preference::Click(Click::Always),
        Preference::Click(Click::CountIn),
        Preference::Click(Click::Never),
        Preference::Theme(Theme::Device),
        Preference::Theme(Theme::Paper),
        Preference::Theme(Theme::Stage),
    ];
    let causes = Cause::ALL.map(|cause| EntryKind::CauseNamed { repetition: samples::id(10), cause });
    for event in settings.map(EntryKind::Set).into_iter().chain(causes) {
        let entry = journal.next(DEVICE, samples::moment("2026-10-04T08:00:00Z"), event);
        journal.append(entry);
    }
    journal
}

fn exported() -> Value {
    let text = exported::export(&full(), DEVICE, samples::moment("2026-10-04T08:00:00.5-03:30"));
    serde_json::from_str(&text).expect("JSON")
}

#[test]
fn an_export_with_every_kind_of_entry_is_what_the_schema_says() {
    let schema = Schema::published();
    assert_eq!(schema.refuses(&exported()), None);
    let mut friendly = exported();
    friendly["$schema"] = json!("journal.schema.json");
    assert_eq!(schema.refuses(&friendly), None);
    assert!(exported::read(&friendly.to_string()).is_ok());
}

/// A place in the document and what stands there instead; `null` at a place that is required takes
/// it out.
#[test]
fn the_schema_refuses_damaged_files_and_so_does_the_reader() {
    let snippet = "snippet_added/snippet";
    let onset = "snippet_added/snippet/passage/onsets/0";
    let head = [
        ("format", json!("another journal")),
        ("version", json!(2)),
        ("version", json!("1")),
        ("exported", json!("yesterday")),
        ("device", json!("0a")),
        ("device", json!("A")),
        ("entries", json!({})),
        ("entries/0/id", json!("17")),
        ("entries/0/id", json!("0-a")),
        ("entries/0/id", json!(17)),
        ("entries/0/at", json!("2026-11-25")),
        ("entries/0/what", json!("played")),
        ("entries/0/what", json!({})),
        ("entries/0/what", json!({ "later": 1, "still_later": 2 })),
        ("entries/0/note", json!("by hand")),
        ("set_aside/0/text", json!(7)),
        ("set_aside/0/why", json!("")),
    ]
    .map(|(place, value)| (place.to_string(), value));
    let inside = [
        ("piece_added/title", json!(["Waltz"])),
        ("piece_added/title", json!("ß".repeat(1_001))),
        ("piece_changed/to/composer", json!("ß".repeat(1_001))),
        ("piece_edited/to/title", json!("ß".repeat(1_001))),
        ("piece_edited/to/title", json!(null)),
        ("piece_edited/to/date", json!("soon")),
        ("piece_edited/to/opus", json!(7)),
        ("snippet_edited/to/name", json!("ß".repeat(1_001))),
        ("snippet_edited/to/goal", json!(-1)),
        ("snippet_edited/to/grain", json!(null)),
        ("snippet_edited/to/passage", json!({})),
        ("score_kept/file/deflated", json!("A".repeat(600_001))),
        ("onset_marked/marks/reminder", json!("ß".repeat(1_001))),
        ("onset_marked/marks/fingers/left", json!("1".repeat(1_001))),
        (&format!("{snippet}/name"), json!("ß".repeat(1_001))),
        (&format!("{snippet}/passage/bars/0/number"), json!("1".repeat(1_001))),
        (&format!("{onset}/dynamic"), json!("p".repeat(1_001))),
        (&format!("{onset}/notes"), json!(vec![json!({ "hand": "left", "lasts": "1" }); 101])),
        (&format!("{onset}/notes/0/fingering"), json!("1".repeat(1_001))),
        (&format!("{onset}/notes/0/articulations"), json!(vec!["accent"; 101])),
        (&format!("{onset}/notes/0/graces"), json!(vec![json!({ "letter": "C", "octave": 4 }); 101])),
        ("piece_added/opus", json!(7)),
        ("piece_changed/to/date", json!("soon")),
        ("piece_changed/to/tempo/bpm", json!(9)),
        ("piece_changed/to/tempo/bpm", json!(401)),
        ("piece_changed/to/tempo/bpm", json!(60.5)),
        ("piece_changed/to/tempo/beat/value", json!("3rd")),
        ("piece_changed/to/tempo/beat/dots", json!(-1)),
        ("piece_changed/piece", json!("Waltz")),
        ("pieces_ordered", json!(["first"])),
        ("score_kept/file/deflated", json!([1, 2])),
        ("snippets_ordered/snippets", json!("4-a")),
        (&format!("{snippet}/goal"), json!(-1)),
        (&format!("{snippet}/goal"), json!(5000)),
        (&format!("{snippet}/direction"), json!("side ways")),
        (&format!("{snippet}/hard_hand"), json!("both hands")),
        (&format!("{snippet}/colour"), json!("blue")),
        (&format!("{snippet}/passage/bars"), json!([])),
        (&format!("{snippet}/passage/onsets"), json!([])),
        (&format!("{snippet}/passage/bars/0/meter"), json!("4/3")),
        (&format!("{snippet}/passage/bars/0/length"), json!(0.5)),
        (&format!("{snippet}/passage/bars/0/colour"), json!("blue")),
        (&format!("{onset}/at"), json!("1/0")),
        (&format!("{onset}/notes"), json!([])),
        (&format!("{onset}/colour"), json!("blue")),
        (&format!("{onset}/notes/0/hand"), json!("Foot")),
        (&format!("{onset}/notes/0/colour"), json!("blue")),
        (&format!("{onset}/notes/0/articulations"), json!(["Loud"])),
        (&format!("{onset}/notes/0/pitch/letter"), json!("H")),
        (&format!("{onset}/notes/0/pitch/octave"), json!("4")),
        (&format!("{onset}/notes/0/pitch/cents"), json!(4)),
        ("played/step/span", json!("3")),
        ("played/step/hands", json!("2")),
        ("played/step/bar", json!(3)),
        ("played/verdict", json!("perfect!")),
        ("cause_named/cause", json!("so tired")),
        ("broke_at/onset", json!(70_000)),
        ("time_given/minutes", json!(-1)),
        ("retracted/entry", json!(null)),
        ("set", json!({ "Volume": 3 })),
        ("set", json!({ "block_minutes": "5" })),
        ("set", json!({ "block_minutes": 5, "rest_minutes": 5 })),
    ]
    .map(|(place, value)| {
        let kind = place.split('/').next().unwrap_or(place);
        let entries = exported()["entries"].as_array().cloned().unwrap_or_default();
        let index = entries.iter().position(|entry| entry["what"].get(kind).is_some()).expect("every kind is there");
        (format!("entries/{index}/what/{place}"), value)
    });
    let schema = Schema::published();
    for (place, value) in head.into_iter().chain(inside) {
        let mut damaged = exported();
        let (parent, key) = place.rsplit_once('/').unwrap_or(("", &place));
        let parent = if parent.is_empty() { Some(&mut damaged) } else { damaged.pointer_mut(&format!("/{parent}")) };
        parent.expect("the place is there").as_object_mut().expect("an object").insert(key.into(), value);
        assert!(schema.refuses(&damaged).is_some(), "the schema takes {place}");
        assert!(exported::read(&damaged.to_string()).is_err(), "the reader takes {place}");
    }
}

/// Takes out one key after the other, everywhere: where the schema has it required, the reader
/// misses it too, and the other way round.
#[test]
fn the_schema_requires_exactly_what_the_reader_misses() {
    let schema = Schema::published();
    let whole = exported();
    let mut places = Vec::new();
    collect_keys(&whole, String::new(), &mut places);
    assert!(places.len() > 200);
    for (parent, key) in places {
        let mut damaged = whole.clone();
        let parent_object = damaged.pointer_mut(&parent).and_then(Value::as_object_mut).expect("an object");
        parent_object.remove(&key);
        let (refused, read) = (schema.refuses(&damaged), exported::read(&damaged.to_string()));
        assert_eq!(refused.is_some(), read.is_err(), "without {parent}/{key}: {refused:?}, {:?}", read.err());
    }
}

fn collect_keys(value: &Value, place: String, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(fields) => fields.iter().for_each(|(key, field)| {
            found.push((place.clone(), key.clone()));
            collect_keys(field, format!("{place}/{key}"), found);
        }),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(index, item)| collect_keys(item, format!("{place}/{index}"), found))
        }
        _ => {}
    }
}
