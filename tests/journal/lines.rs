//! The lines that are kept: frozen, for what a player wrote years ago must be read for ever.

use crate::samples::{self, DEVICE, LATER};
use std::collections::BTreeSet;
use tailfirst::journal::{Entry, Event, Journal, entry::KINDS, file};

const FROZEN: &str = include_str!("../data/entries.jsonl");

#[test]
fn every_frozen_line_reads_as_it_did_and_is_written_the_same_to_the_byte() {
    let entries = samples::entries();
    assert_eq!(FROZEN.lines().count(), entries.len());
    for (line, entry) in FROZEN.lines().zip(entries) {
        assert_eq!(Entry::read(line).as_ref(), Ok(&entry));
        assert_eq!(entry.written(), line);
    }
}

#[test]
fn every_kind_that_is_read_has_a_frozen_line() {
    let kind = |line: &str| {
        let value: serde_json::Value = serde_json::from_str(line).expect("JSON");
        value["what"].as_object().and_then(|what| what.keys().next().cloned()).expect("a kind")
    };
    let frozen: BTreeSet<String> = FROZEN.lines().map(kind).collect();
    assert_eq!(frozen, KINDS.map(String::from).into());
    // The reader names all that it knows when it meets what it does not.
    let known = serde_json::from_str::<Event>(r#"{"unheard_of":0}"#).expect_err("no kind").to_string();
    let known: BTreeSet<&str> = known.split('`').skip(3).step_by(2).collect();
    assert_eq!(known, KINDS.into());
}

#[test]
fn a_kind_of_a_newer_version_is_handed_on_to_the_letter() {
    let spaced = LATER.replace(':', " :\n ").replace("08 :\n 00 :\n 00", "08:00:00");
    let entry = Entry::read(&spaced).expect("an entry");
    assert!(matches!(entry.what, Event::Unknown(_)));
    assert_eq!(entry.written(), LATER);

    let mut here = Journal::new();
    here.merge([entry.clone()]);
    let text = file::export(&here, DEVICE, samples::moment("2026-10-04T08:00:00Z"));
    let mut there = Journal::new();
    there.take_in(file::read(&text).expect("a journal"));
    assert!(there.entries().any(|known| *known == entry));
    assert!(text.contains(LATER));
}

#[test]
fn a_known_kind_with_something_unknown_in_it_is_no_entry() {
    for line in FROZEN.lines() {
        let damaged = line.replacen("\"what\":{\"", "\"what\":{\"more\":0,\"", 1);
        assert!(Entry::read(&damaged).is_err(), "{damaged}");
        let damaged = line.replacen("\"what\":", "\"more\":0,\"what\":", 1);
        assert!(Entry::read(&damaged).is_err(), "{damaged}");
    }
    let misspelt = FROZEN.replace("fingering", "fingerring");
    assert_eq!(misspelt.lines().filter(|line| Entry::read(line).is_err()).count(), 1);
}
