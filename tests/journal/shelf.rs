//! The two copies on a device, as they may be found: missing, older, damaged, at odds.

use crate::samples::{self, DEVICE, piece};
use tailfirst::{
    clock::{Day, Moment},
    journal::{
        DeviceId, Entry, EntryId, EntryKind, Journal, SetAside,
        shelf::{self, Changes, Texts},
    },
};

/// The day on which all of these entries are written.
fn today() -> Day {
    Moment::new(0, 60).day()
}

fn added(journal: &mut Journal, title: &str) -> Entry {
    let entry = journal.next(DEVICE, Moment::new(0, 60), EntryKind::PieceAdded(piece(title)));
    journal.append(entry.clone());
    entry
}

/// A device's journal with two pieces, the key of the second, and a copy of it.
fn kept() -> (Journal, String, Texts) {
    let mut journal = Journal::new();
    added(&mut journal, "Air");
    let (key, _) = shelf::entry_text(&added(&mut journal, "Gigue"));
    let copy = shelf::changes(&journal, DEVICE, &Texts::new()).put.into_iter().collect();
    (journal, key, copy)
}

/// Opens the copies, writes to each what it lacks, and opens again: the same, and nothing is lacking.
fn open_and_heal(copies: &mut [Texts; 2]) -> shelf::Opened {
    let opened = shelf::open(&copies[..], today());
    let device = opened.device.unwrap_or(DeviceId(77));
    for copy in copies.iter_mut() {
        let changes = shelf::changes(&opened.journal, device, copy);
        assert_eq!(changes.remove, Vec::<String>::new(), "nothing is packed today");
        copy.extend(changes.put);
    }
    let again = shelf::open(&copies[..], today());
    assert_eq!(again.journal, opened.journal);
    assert_eq!((again.device, again.newly_set_aside), (Some(device), 0));
    for copy in copies.iter() {
        assert_eq!(shelf::changes(&again.journal, device, copy), Changes::default());
        assert_eq!(shelf::open(std::slice::from_ref(copy), today()).journal, opened.journal, "either copy is enough");
    }
    opened
}

#[test]
fn a_first_visit_finds_nothing_and_draws_an_identity() {
    let opened = open_and_heal(&mut [Texts::new(), Texts::new()]);
    assert_eq!(opened.journal, Journal::new());
    assert_eq!((opened.device, opened.newly_set_aside), (None, 0));
}

#[test]
fn either_copy_alone_is_the_whole_journal() {
    let (journal, _, copy) = kept();
    for copies in [[copy.clone(), Texts::new()], [Texts::new(), copy.clone()], [copy.clone(), copy]] {
        let opened = open_and_heal(&mut copies.clone());
        assert_eq!((&opened.journal, opened.device), (&journal, Some(DEVICE)));
    }
}

#[test]
fn what_one_copy_lost_the_other_brings_whichever_it_is() {
    let (journal, key, whole) = kept();
    let mut older = whole.clone();
    older.remove(&key);
    for copies in [[whole.clone(), older.clone()], [older, whole]] {
        assert_eq!(open_and_heal(&mut copies.clone()).journal, journal);
    }
}

#[test]
fn a_damaged_text_never_wins_over_a_whole_one_and_is_set_aside() {
    let (journal, key, whole) = kept();
    let text = whole[&key].clone();
    let other_key = samples::entries()[0].written();
    for damage in [&text[..text.len() / 2], "", &text.replace("title", "tilte"), &other_key] {
        let mut damaged = whole.clone();
        damaged.insert(key.clone(), damage.into());
        for copies in [[whole.clone(), damaged.clone()], [damaged.clone(), whole.clone()]] {
            let opened = open_and_heal(&mut copies.clone());
            assert!(opened.journal.entries().eq(journal.entries()), "{damage}");
            let aside = SetAside { place: key.clone(), text: damage.into() };
            assert!(opened.journal.set_aside().eq([&aside]));
            assert_eq!((opened.device, opened.newly_set_aside), (None, 1), "numbers may have been lost");
        }
        let opened = open_and_heal(&mut [damaged.clone(), damaged]);
        assert_eq!(opened.journal.entries().count(), journal.entries().count() - 1, "the rest is there");
    }
}

/// The highest number leaves none for the taps to come: it can only be damage.
#[test]
fn an_entry_with_the_highest_number_is_set_aside_and_later_taps_are_read_again() {
    let (_, _, whole) = kept();
    let last = Entry { id: EntryId { number: (1 << 53) - 1, device: DEVICE }, ..samples::entries()[0].clone() };
    let mut copies = [whole.clone(), whole];
    copies[0].extend([shelf::entry_text(&last)]);
    let mut opened = open_and_heal(&mut copies);
    let tap = added(&mut opened.journal, "Tap");
    copies[0].extend([shelf::entry_text(&tap)]);
    let opened = open_and_heal(&mut copies);
    assert!(opened.journal.entries().any(|entry| entry == tap));
    assert!(opened.journal.set_aside().any(|aside| aside.text == shelf::entry_text(&last).1));
}

/// As the first versions kept them: under the same keys, with the identity in the text too.
#[test]
fn whole_lines_are_read_as_well_and_written_shorter() {
    let (journal, _, copy) = kept();
    let lines = journal.recent().filter(|entry| entry.id.device == DEVICE);
    let mut old: Texts = lines.map(|entry| (shelf::entry_text(entry).0, entry.written())).collect();
    old.insert("device".into(), DEVICE.to_string());
    let opened = open_and_heal(&mut [old.clone(), Texts::new()]);
    assert_eq!((&opened.journal, opened.device, opened.newly_set_aside), (&journal, Some(DEVICE), 0));
    old.extend(shelf::changes(&opened.journal, DEVICE, &old).put);
    assert_eq!(old, copy);
}

/// Both windows of a browser without locks wrote under one number.
#[test]
fn of_two_whole_texts_under_one_key_neither_is_lost() {
    let (_, key, whole) = kept();
    let mut other = whole.clone();
    other.insert(key, whole.values().find(|text| text.contains("Gigue")).expect("kept").replace("Gigue", "Jig"));
    let opened = open_and_heal(&mut [whole, other]);
    let titles: Vec<&str> = opened.journal.state().pieces().iter().map(|record| record.piece.title.as_str()).collect();
    assert!(["Air", "Gigue", "Jig"].iter().all(|title| titles.contains(title)), "{titles:?}");
}

#[test]
fn what_was_set_aside_stays_so_and_does_not_change_the_device_again() {
    let (_, key, whole) = kept();
    let mut copies = [whole.clone(), whole];
    copies[0].insert(key, "half".into());
    open_and_heal(&mut copies);
    copies[1].insert("aside.written-by-hand".into(), "no JSON".into());
    let opened = open_and_heal(&mut copies);
    assert_eq!((opened.device, opened.newly_set_aside), (Some(DeviceId(77)), 0));
    let places: Vec<&str> = opened.journal.set_aside().map(|aside| aside.place.as_str()).collect();
    assert!(matches!(places[..], ["aside.written-by-hand", entry] if entry.starts_with("entry.")), "{places:?}");
}

#[test]
fn an_identity_that_cannot_be_read_or_is_disputed_is_drawn_anew_once() {
    let (journal, _, whole) = kept();
    for wrong in ["", "NO", "3w5e11264sgsg"] {
        let mut damaged = whole.clone();
        damaged.insert("device".into(), wrong.into());
        let opened = open_and_heal(&mut [damaged.clone(), damaged]);
        assert_eq!((opened.journal, opened.device), (journal.clone(), None));
    }
    let mut renewed = whole.clone();
    renewed.insert("device".into(), samples::id(1).device.to_string() + "1");
    assert_eq!(open_and_heal(&mut [whole, renewed]).device, None);
}

#[test]
fn the_study_that_comes_with_the_program_is_not_kept() {
    let nothing = shelf::changes(&Journal::new(), DEVICE, &Texts::new()).put;
    assert_eq!(nothing, [("device".to_string(), DEVICE.to_string())]);
}

#[test]
fn an_entry_that_is_gone_from_both_copies_is_noticed_once() {
    let (_, _, whole) = kept();
    let mut holed = whole.clone();
    holed.retain(|_, text| !text.contains("Air"));
    let opened = open_and_heal(&mut [holed.clone(), holed]);
    assert_eq!((opened.newly_missing, opened.journal.missing()), (1, 1));
    assert_eq!(opened.device, Some(DEVICE), "a number above the highest is new all the same");
    let mut healed: Texts = shelf::changes(&opened.journal, DEVICE, &Texts::new()).put.into_iter().collect();
    let again = shelf::open(&[healed.clone()], today());
    assert_eq!((again.newly_missing, again.journal.missing()), (0, 1));
    // An export brings it back, and what is lost later is noticed again.
    healed.extend(whole.clone());
    let opened = open_and_heal(&mut [healed.clone(), healed.clone()]);
    assert_eq!(opened.journal.missing(), 0);
    healed.extend(shelf::changes(&opened.journal, DEVICE, &healed).put);
    healed.retain(|_, text| !text.contains("Air"));
    assert_eq!(shelf::open(&[healed], today()).newly_missing, 1);
}

/// What is set aside is not missing besides.
#[test]
fn an_entry_that_cannot_be_read_is_called_set_aside_and_not_missing() {
    let (_, _, whole) = kept();
    let (key, _) = whole.iter().find(|(_, text)| text.contains("Air")).expect("kept");
    let mut torn = whole.clone();
    torn.insert(key.clone(), "half".into());
    let opened = open_and_heal(&mut [torn.clone(), torn]);
    assert_eq!((opened.newly_set_aside, opened.newly_missing), (1, 0));
}

/// A backup of one copy was brought back under the other, which has gone on.
#[test]
fn a_device_whose_copies_disagree_on_a_number_goes_on_under_another_identity() {
    let (_, key, whole) = kept();
    let mut other = whole.clone();
    other.insert(key.clone(), whole[&key].replace("Gigue", "Jig"));
    let opened = open_and_heal(&mut [whole, other]);
    assert_eq!(opened.device, None);
}
