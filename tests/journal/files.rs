//! Files from outside: read whole or refused with a sentence, and never the end of the program.

use crate::{
    exported,
    samples::{self, DEVICE, id},
};
use tailfirst::{
    clock::Moment,
    journal::{
        DeviceId, Entry, EntryId, EntryKind, Journal, Merged, Piece, PieceId, ScoreFile, SetAside, SnippetId,
        file::ImportError,
        limits, rescue,
        shelf::{self, Texts},
    },
    music::{Hand, Marks},
};

fn now() -> Moment {
    samples::moment("2026-10-04T08:00:00.5+02:00")
}

fn full() -> Journal {
    let mut journal = Journal::new();
    journal.merge(samples::entries());
    journal
}

fn text() -> String {
    exported::export(&full(), DEVICE, now())
}

/// A file with these lines as its entries.
fn holding(lines: &[&str]) -> String {
    let lines = lines.join(",");
    format!(
        r#"{{"format":"tailfirst journal","version":1,"exported":"{}","device":"{DEVICE}","entries":[{lines}]}}"#,
        now()
    )
}

fn sentence(text: &str) -> String {
    exported::read(text).expect_err("no journal").to_string()
}

#[test]
fn a_file_brings_a_new_device_all_there_is_and_a_second_time_nothing() {
    let (here, mut there) = (full(), Journal::new());
    let imported = exported::read(&text()).expect("a journal");
    assert_eq!((imported.head.device, imported.head.exported), (DEVICE, now()));
    imported.clone().into_journal(&mut there);
    assert_eq!(there, here);
    assert_eq!(
        imported.into_journal(&mut there),
        Merged { known_already: here.entries().count(), ..Merged::default() }
    );
    assert_eq!(there, here);
    assert_eq!(exported::export(&there, DEVICE, now()), text());
}

#[test]
fn an_export_has_one_line_for_every_entry() {
    let (journal, text) = (full(), text());
    assert!(
        journal.entries().all(|entry| text.lines().any(|line| line.trim_end_matches([',', ']']) == entry.written()))
    );
}

#[test]
fn an_editor_s_byte_order_mark_and_line_ends_do_no_harm() {
    let edited = format!("\u{feff}{}", text().replace('\n', "\r\n"));
    assert_eq!(exported::read(&edited), exported::read(&text()));
}

#[test]
fn a_newer_file_is_refused_and_says_what_to_do() {
    let newer = text().replace("\"version\": 1", "\"version\": 2");
    assert_eq!(
        sentence(&newer),
        "This file was written by a newer version of the program (format 2); update this device, then import it again."
    );
    // Whatever else a newer file holds does not matter.
    let elsewhere = r#"{"format":"tailfirst journal","version":3,"days":{}}"#;
    assert_eq!(exported::read(elsewhere), Err(ImportError::Newer { version: 3 }));
}

#[test]
fn a_file_cut_off_anywhere_is_refused() {
    let whole = text();
    let whole = whole.trim_end();
    for end in 0..whole.len() {
        let cut = String::from_utf8_lossy(&whole.as_bytes()[..end]);
        assert!(matches!(exported::read(&cut), Err(ImportError::NotJson { .. })), "cut off at {end}");
    }
}

#[test]
fn what_is_no_journal_is_called_so() {
    for other in ["[]", "{}", "7", "null", r#"{"format":"score","version":1}"#, r#"{"format":"tailfirst journal"}"#] {
        assert_eq!(exported::read(other), Err(ImportError::NotAJournal), "{other}");
    }
    let broken = "This file breaks off or is damaged at line 1; export it again on the other device.";
    for garbage in ["", "PK\u{3}\u{4}\u{0}", "<html></html>"] {
        assert!(matches!(exported::read(garbage), Err(ImportError::NotJson { .. })), "{garbage}");
    }
    assert_eq!(sentence("journal"), broken);
}

#[test]
fn one_damaged_entry_is_named_and_nothing_is_taken_in() {
    let good = samples::entries()[0].written();
    let damaged = good.replace("title", "tilte");
    let sentence = sentence(&holding(&[&good, &damaged]));
    assert!(sentence.starts_with("This file is damaged (entry 2: "), "{sentence}");
    assert!(sentence.contains("tilte"), "{sentence}");
}

#[test]
fn a_number_that_leaves_none_to_come_is_refused_and_every_other_can_be_followed() {
    let numbered = |number: u64| {
        let entry = Entry { id: EntryId { number, device: DeviceId(1) }, ..samples::entries()[0].clone() };
        entry.written()
    };
    let last = (1 << 53) - 1;
    assert!(
        sentence(&holding(&[&numbered(last)]))
            .contains("9007199254740991-1: its number is higher than any device could have reached")
    );
    assert!(sentence(&holding(&[&numbered(last + 1)])).contains("does not name an entry"));

    let farthest = (1 << 32) + 1;
    assert!(exported::read(&holding(&[&numbered(farthest + 1)])).is_err());
    let mut journal = Journal::new();
    exported::read(&holding(&[&numbered(farthest)])).expect("within the limit").into_journal(&mut journal);
    let entry = journal.next(DEVICE, now(), EntryKind::PieceAdded(samples::piece("Next")));
    assert_eq!(entry.id, id(farthest + 1));
    journal.append(entry);
    assert!(exported::read(&exported::export(&journal, DEVICE, now())).is_ok());
}

#[test]
fn brackets_without_end_do_not_exhaust_the_reader() {
    let bomb = ["[".repeat(200_000), "]".repeat(200_000)].concat();
    for text in [bomb.clone(), format!("{{\"format\":{bomb}}}"), holding(&[&bomb])] {
        assert!(exported::read(&text).is_err());
    }
    let first = samples::entries()[0].written();
    let (head, _) = first.split_once("{\"piece_added\"").expect("the first adds a piece");
    assert!(exported::read(&holding(&[&format!("{head}{{\"piece_added\":{bomb}}}}}")])).is_err());
    let later = |depth: usize| format!("{head}{{\"later\":{}{}}}}}", "[".repeat(depth), "]".repeat(depth));
    assert!(sentence(&holding(&[&later(200_000)])).contains("nested more than 100 deep"));
    assert!(sentence(&holding(&[&later(limits::DEPTH)])).contains("nested more than 100 deep"));
    let mut journal = Journal::new();
    let deepest = later(limits::DEPTH - 1);
    exported::read(&holding(&[&deepest])).expect("a kind of a newer version").into_journal(&mut journal);
    assert!(exported::export(&journal, DEVICE, now()).contains(&deepest));
}

/// A file with this as its only entry.
fn with(event: EntryKind) -> Result<(), ImportError> {
    let entry = Entry { id: id(1), at: now(), kind: event };
    exported::read(&holding(&[&entry.written()])).map(|_| ())
}

/// What happened, with so much in it.
type OfSize<'a> = &'a dyn Fn(usize) -> EntryKind;

/// Each row of the table at its bound, and one beyond it.
#[test]
fn a_file_holds_what_the_table_says_and_nothing_beyond() {
    let piece = PieceId(id(1));
    let text = |chars: usize| "ß".repeat(chars);
    let titled = |chars| EntryKind::PieceAdded(samples::piece(&text(chars)));
    let composed = |chars| {
        let to = Piece { composer: text(chars), ..samples::piece("Air") };
        EntryKind::PieceChanged { piece, to }
    };
    let named = |chars| EntryKind::SnippetAdded { piece, snippet: samples::leap().named(text(chars)).into() };
    let reminded = |chars| {
        let marks = Marks { reminder: text(chars), ..samples::marks() };
        EntryKind::OnsetMarked { snippet: SnippetId(id(1)), onset: 0, marks }
    };
    let scored = |chars| {
        let file = ScoreFile { name: "air".into(), deflated: "A".repeat(chars).into() };
        EntryKind::ScoreKept { piece, file }
    };
    let chord = |notes| EntryKind::SnippetAdded { piece, snippet: samples::chord(notes).into() };
    let rows: [(OfSize, usize, &str); 6] = [
        (&titled, limits::TEXT_CHARS, "longer than 1000 characters"),
        (&composed, limits::TEXT_CHARS, "longer than 1000 characters"),
        (&named, limits::TEXT_CHARS, "longer than 1000 characters"),
        (&reminded, limits::TEXT_CHARS, "longer than 1000 characters"),
        (&scored, limits::SCORE_CHARS, "larger than 600000 characters"),
        (&chord, limits::NOTES, "more than 100 notes"),
    ];
    for (event, most, said) in rows {
        assert_eq!(with(event(most)), Ok(()));
        let beyond = with(event(most + 1)).expect_err("beyond the limit").to_string();
        assert!(beyond.contains(said), "{beyond}");
    }
}

/// A bar of a million quarters would be drawn beat by beat.
#[test]
fn a_bar_is_as_long_as_a_cadenza_and_no_longer() {
    let snippet = samples::entries()[3].written();
    let lasting = |quarters: &str| snippet.replace("\"length\":\"3\"", &format!("\"length\":\"{quarters}\""));
    assert!(exported::read(&holding(&[&lasting("1024")])).is_ok());
    for longer in ["1025", "1048575"] {
        assert!(sentence(&holding(&[&lasting(longer)])).contains("too long for one snippet"));
    }
}

/// A reader that keeps to the limits, and a writer that does not, would lose what the player wrote.
#[test]
fn what_this_device_writes_every_device_takes() {
    let piece = PieceId(id(1));
    let long = "ß".repeat(3_000);
    let marks = Marks { fingers: [(Hand::Left, long.clone())].into(), reminder: long.clone() };
    let file = ScoreFile { name: long.clone(), deflated: "".into() };
    let events = [
        EntryKind::PieceAdded(Piece { composer: long.clone(), ..samples::piece(&long) }),
        EntryKind::PieceChanged { piece, to: samples::piece(&long) },
        EntryKind::ScoreKept { piece, file },
        EntryKind::SnippetAdded { piece, snippet: samples::leap().named(long.clone()).into() },
        EntryKind::SnippetChanged { snippet: SnippetId(id(2)), to: samples::leap().named(long).into() },
        EntryKind::OnsetMarked { snippet: SnippetId(id(2)), onset: 0, marks },
    ];
    let mut journal = Journal::new();
    for event in events {
        journal.append(journal.next(DEVICE, now(), event));
    }
    assert!(exported::read(&exported::export(&journal, DEVICE, now())).is_ok());
}

/// As the screen hands it out that shows when the program has broken down: the texts of both copies.
#[test]
fn the_copies_of_a_device_are_read_like_a_journal_with_all_that_is_in_them() {
    let mut journal = Journal::new();
    journal.merge(samples::entries());
    let now = samples::moment("2026-10-04T08:00:00Z");
    journal.pack_closed_days(now.day());
    let mut copy: Texts = shelf::changes(&journal, DEVICE, &Texts::new()).put.into_iter().collect();
    assert!(copy.keys().any(|key| key.starts_with("pack.")));
    let quick = copy.clone();
    copy.insert("entry.90-a".into(), "torn {".into());
    let text = rescue::written(vec![quick, copy], now);
    let read = exported::read(&text).expect("a journal");
    assert_eq!((read.head.device, read.head.exported), (DEVICE, now));
    assert_eq!(read.head.set_aside, [SetAside { place: "entry.90-a".into(), text: "torn {".into() }]);
    let mut elsewhere = Journal::new();
    read.into_journal(&mut elsewhere);
    assert!(elsewhere.entries().eq(journal.entries()));
    for damaged in [&text[..text.len() - 2], &text.replace("\"copies\"", "\"copy\""), &text.replace(":1,", ":2,")] {
        assert!(exported::read(damaged).is_err(), "{damaged}");
    }
}
