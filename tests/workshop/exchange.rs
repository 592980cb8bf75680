//! Journals taken in and written by the worker.

use crate::{
    exported::{self, export},
    gathered, messages_about, years,
};
use std::io::{self, Read, Write};
use tailfirst::{
    clock::Moment,
    journal::{
        DeviceId, Entries, EntryKind, Journal, Piece, PieceId, SetAside,
        file::{Brought, ImportError},
        shelf::{self, Texts},
    },
    workshop::{Answer, Outcome, Refusal, Task},
};

const HERE: DeviceId = DeviceId(5);

/// After all that happens in these tests: 2027-01-15T08:00Z.
fn now() -> Moment {
    Moment::new(1_800_000_000_000, 0)
}

/// What one player left in so many days, closed and packed.
fn practised(days: u32, seed: u64) -> Journal {
    let mut journal = Journal::new();
    journal.merge(years::practise(days, seed));
    journal.pack_closed_days(now().day());
    journal
}

fn write(journal: &mut Journal, kind: EntryKind) -> PieceId {
    let entry = journal.next(HERE, now(), kind);
    journal.append(entry.clone());
    PieceId(entry.id)
}

fn add_piece(journal: &mut Journal, title: &str) -> PieceId {
    let piece = Piece { title: title.into(), composer: String::new(), tempo: None, date: None };
    write(journal, EntryKind::PieceAdded(piece))
}

/// The messages about taking a file in here.
fn import(here: &Journal, file: &str) -> Vec<Vec<u8>> {
    let task = Task::Import { here: Entries::clone(here), today: now().day(), bytes: file.len() as u64 };
    messages_about(&task.sent(), &mut file.as_bytes(), &mut io::sink())
}

fn taken_in(here: &Journal, file: &str) -> (Brought, Option<Journal>) {
    match gathered(&import(here, file)) {
        Outcome::TakenIn { brought, journal } => (brought, journal),
        other => panic!("not taken in: {other:?}"),
    }
}

/// How far the messages say that the task is.
fn progress(messages: &[Vec<u8>]) -> Vec<u8> {
    let done = |message: &Vec<u8>| match Answer::arrived(message) {
        Some(Answer::Done(hundredths)) => Some(hundredths),
        _ => None,
    };
    messages.iter().filter_map(done).collect()
}

#[test]
fn a_file_comes_to_the_same_by_the_worker_as_entry_by_entry() {
    let (mut here, mut there) = (practised(12, 1), practised(15, 2));
    // A removal that is taken back has to be known before anything is folded.
    let gone = add_piece(&mut there, "Air");
    let removal = write(&mut there, EntryKind::PieceRemoved { piece: gone });
    write(&mut there, EntryKind::Retracted { entry: removal.0 });
    there.put_aside(SetAside { place: "pack.7-a".into(), text: "torn".into() });
    add_piece(&mut here, "Gigue");
    let file = export(&there, DeviceId(9), now());

    let (brought, journal) = taken_in(&here, &file);
    let mut by_entry = here.clone();
    let merged = exported::read(&file).expect("a journal").into_journal(&mut by_entry);
    assert_eq!(brought, Brought { merged, set_aside: 1 });
    let journal = journal.expect("there is much that is new");
    assert_eq!(journal, by_entry);
    assert!(journal.state().piece(gone).is_some());

    let (again, nothing) = taken_in(&journal, &file);
    assert_eq!((again.merged.added, again.merged.known_already, again.set_aside), (0, there.count(), 0));
    assert!(nothing.is_none());
}

#[test]
fn a_journal_comes_in_pieces_that_are_quick_to_take_in_and_says_how_far_it_is() {
    let there = practised(60, 3);
    let sent = import(&Journal::new(), &export(&there, HERE, now()));
    let largest = sent.iter().map(Vec::len).max().expect("messages");
    assert!(largest < 200_000, "a message of {largest} bytes");
    let done = progress(&sent);
    assert!(done.len() > 20 && done.is_sorted() && done.last() == Some(&100), "{done:?}");
}

#[test]
fn a_file_that_is_refused_says_why_and_nothing_of_it_is_sent() {
    let whole = export(&practised(12, 4), HERE, now());
    let line = whole.lines().count() - 9;
    let damaged = |from: &str, to: &str| whole.replacen(from, to, 1);
    let torn = whole.lines().take(line).collect::<Vec<_>>().join("\n");
    for (file, why) in [
        (torn, ImportError::NotJson { line }),
        (damaged("\"version\": 1", "\"version\": 2"), ImportError::Newer { version: 2 }),
        (damaged("tailfirst journal", "score"), ImportError::NotAJournal),
    ] {
        let sent = import(&Journal::new(), &file);
        assert_eq!(gathered(&sent), Outcome::Refused(Refusal::NotTakenIn(why)));
        assert_eq!(sent.len(), progress(&sent).len() + 1);
    }
    let misspelt = import(&Journal::new(), &damaged("\"clean\"", "\"Clean\""));
    let Outcome::Refused(Refusal::NotTakenIn(ImportError::Damaged { why })) = gathered(&misspelt) else { panic!() };
    assert!(why.contains("“Clean”"), "{why}");
}

/// A device that gives out a file or takes one only in part.
struct Broken;

impl Read for Broken {
    fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
        Err(io::Error::other("torn out"))
    }
}

impl Write for Broken {
    fn write(&mut self, _: &[u8]) -> io::Result<usize> {
        Err(io::Error::other("full"))
    }
    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_device_that_fails_in_the_middle_is_named_for_it() {
    let import = Task::Import { here: Entries::default(), today: now().day(), bytes: 1_000 };
    let sent = messages_about(&import.sent(), &mut "{ \"format\":".as_bytes().chain(Broken), &mut io::sink());
    assert_eq!(gathered(&sent), Outcome::Refused(Refusal::NotTakenIn(ImportError::Unreadable)));
    let export = Task::export(Entries::clone(&Journal::new()), HERE, now());
    let sent = messages_about(&export.sent(), &mut io::empty(), &mut Broken);
    assert_eq!(gathered(&sent), Outcome::Refused(Refusal::NotWritten));
}

#[test]
fn the_worker_writes_the_file_that_was_always_written() {
    let mut journal = practised(12, 5);
    journal.put_aside(SetAside { place: "entry.1-a".into(), text: "?".into() });
    let (task, mut file) = (Task::export(Entries::clone(&journal), HERE, now()), Vec::new());
    let sent = messages_about(&task.sent(), &mut io::empty(), &mut file);
    assert_eq!(gathered(&sent), Outcome::Written);
    assert!(String::from_utf8(file).expect("a text") == export(&journal, HERE, now()));
    let done = progress(&sent);
    assert!(done.len() > 20 && done.is_sorted() && done.last() == Some(&100), "{done:?}");
}

/// The page goes on while the worker reads, and the copies on the device follow.
#[test]
fn what_is_written_while_a_file_is_read_is_kept_and_the_copies_follow() {
    let mut here = practised(12, 6);
    let mut copy: Texts = shelf::changes(&here, HERE, &Texts::new()).put.into_iter().collect();
    let before = Entries::clone(&here);
    let file = export(&practised(12, 7), DeviceId(9), now());
    let (brought, journal) = taken_in(&here, &file);
    let meanwhile = add_piece(&mut here, "Bourrée");
    here.put_aside(SetAside { place: "entry.2-a".into(), text: "!".into() });

    let mut expected = here.clone();
    exported::read(&file).expect("a journal").into_journal(&mut expected);
    here.become_later(journal.expect("something new"), &before);
    assert_eq!(here, expected);
    assert!(here.state().piece(meanwhile).is_some());
    assert!(!brought.merged.is_copied(HERE));

    let changes = shelf::changes(&here, HERE, &copy);
    copy.extend(changes.put);
    changes.remove.iter().for_each(|key| _ = copy.remove(key));
    assert_eq!(shelf::open(&[copy], now().day()).journal, here);
}
