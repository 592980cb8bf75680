//! The lines that are kept: frozen, for what a player wrote years ago must be read for ever.

use crate::{
    exported,
    samples::{self, DEVICE, LATER},
};
use std::collections::BTreeSet;
use tailfirst::{
    journal::{Entry, EntryKind, Journal, SnippetId, wire::KINDS},
    method::{Direction, Grain, Hands, Verdict},
};

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
}

/// A frozen line with one of its values changed, and what this version can still read of it.
fn with_later(kind: &str, from: &str, to: &str) -> Entry {
    let start = format!("\"what\":{{\"{kind}\"");
    let line = FROZEN.lines().find(|line| line.contains(&start)).expect("a frozen line of the kind");
    let later = line.replacen(from, to, 1);
    assert_ne!(later, line, "{from} is in the line");
    let entry = Entry::read(&later.replace(',', " ,\n ")).unwrap_or_else(|why| panic!("{later}: {why}"));
    assert!(matches!(entry.kind, EntryKind::Unknown(_)), "{later}");
    assert_eq!(entry.written(), later);

    let mut journal = Journal::new();
    journal.merge([entry.clone()]);
    let exported = exported::export(&journal, DEVICE, samples::moment("2026-10-04T08:00:00Z"));
    let mut elsewhere = Journal::new();
    exported::read(&exported).expect("a journal").into_journal(&mut elsewhere);
    assert!(elsewhere.entries().any(|known| known == entry), "{later}");
    entry
}

#[test]
fn a_value_of_a_newer_version_is_kept_and_handed_on_to_the_letter() {
    for (kind, from, to) in [
        ("cause_named", "wrong_note", "rushed"),
        ("played", "not_yet", "nearly"),
        ("played", "\"right\"", "\"crossed\""),
        ("overruled", "\"both\"", "\"alternating\""),
        ("set", "\"strict\"", "\"very_strict\""),
        ("set", "{\"strictness\":\"strict\"}", "{\"volume\":{\"db\":-3}}"),
        ("piece_changed", "\"half\"", "\"breve\""),
        ("onset_marked", "\"left\"", "\"pedal\""),
        ("snippet_edited", "\"beat\"", "\"phrase\""),
        ("snippet_edited", "\"grain\":\"beat\"", "\"hard_hand\":\"pedal\""),
        ("snippet_added", "\"hand\":\"left\"", "\"hand\":\"pedal\""),
    ] {
        with_later(kind, from, to);
    }
}

#[test]
fn a_snippet_with_signs_of_a_newer_version_can_be_practised_without_them() {
    let mut journal = Journal::new();
    let added = FROZEN.lines().next().map(Entry::read).expect("a piece").expect("an entry");
    let later = with_later("snippet_added", "\"tenuto\"", "\"sforzato\"");
    let snippet = SnippetId(later.id);
    journal.merge([added, later]);
    let record = journal.state().snippet(snippet).expect("it can be practised");
    assert_eq!(record.snippet.name(), samples::leap().name());
    assert_eq!(record.snippet.passage().onsets().len(), samples::leap().passage().onsets().len());

    for (from, to) in [("toward_goal", "both_ways"), ("\"goal\":3", "\"goal\":3,\"grain\":\"phrase\"")] {
        let later = with_later("snippet_added", from, to);
        let EntryKind::Unknown(what) = &later.kind else { panic!("{later:?}") };
        let Some(EntryKind::SnippetAdded { snippet, .. }) = what.readable() else { panic!("{what:?}") };
        assert_eq!((snippet.direction(), snippet.grain()), (Direction::TowardGoal, Grain::Onset));
    }
}

/// Only what looks like a name can be one: capitals, numbers and other fields are damage.
#[test]
fn what_no_version_would_write_is_damage() {
    for (from, to) in [
        ("wrong_note", "Wrong note"),
        ("\"wrong_note\"", "7"),
        ("\"not_yet\"", "\"\""),
        ("\"letter\":\"D\"", "\"letter\":\"H\""),
        ("{\"strictness\":\"strict\"}", "{\"Volume\":1}"),
        ("{\"strictness\":\"strict\"}", "{\"volume\":1,\"click\":\"never\"}"),
        ("{\"strictness\":\"strict\"}", "{\"block_minutes\":\"five\"}"),
    ] {
        let line = FROZEN.lines().find(|line| line.contains(from)).unwrap_or_else(|| panic!("{from} is frozen"));
        assert!(Entry::read(&line.replacen(from, to, 1)).is_err(), "{to}");
    }
}

#[test]
fn a_kind_of_a_newer_version_is_handed_on_to_the_letter() {
    let spaced = LATER.replace(':', " :\n ").replace("08 :\n 00 :\n 00", "08:00:00");
    let entry = Entry::read(&spaced).expect("an entry");
    assert!(matches!(entry.kind, EntryKind::Unknown(_)));
    assert_eq!(entry.written(), LATER);

    let mut here = Journal::new();
    here.merge([entry.clone()]);
    let text = exported::export(&here, DEVICE, samples::moment("2026-10-04T08:00:00Z"));
    let mut there = Journal::new();
    exported::read(&text).expect("a journal").into_journal(&mut there);
    assert!(there.entries().any(|known| known == entry));
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

/// What a newer version noted of a repetition or a snippet is told where they are shown, and undone with them.
#[test]
fn what_a_newer_version_wrote_is_counted_where_it_speaks_of_something() {
    let mut journal = Journal::new();
    let (snippet, record) = journal.state().snippets().next().expect("the study");
    let (last, at) = (record.snippet.passage().onsets().len() - 1, samples::moment("2026-10-04T08:00:00Z"));
    let step = samples::step(last, last, Hands::Right, 60);
    let played = journal.next(DEVICE, at, EntryKind::Played { snippet, step, verdict: Verdict::NotYet });
    let (played, of_today) = (played.id, played);
    let nearly = of_today.written().replacen(&played.to_string(), "902-zz", 1).replace("not_yet", "nearly");
    journal.append(of_today);
    let rushed = format!(
        r#"{{"id":"901-zz","at":"2031-01-01T08:00:00Z","what":{{"cause_named":{{"repetition":"{played}","cause":"rushed"}}}}}}"#
    );
    journal.merge([&rushed, &nearly, LATER].map(|line| Entry::read(line).expect("an entry")));
    let noted = |journal: &Journal| journal.state().snippet(snippet).expect("the study").written_later();
    assert_eq!((journal.state().written_later(), noted(&journal)), (3, 2));
    journal.append(journal.next(DEVICE, at, EntryKind::Retracted { entry: played }));
    assert_eq!(noted(&journal), 1, "the cause went with its repetition");
}
