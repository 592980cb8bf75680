//! Any one thing that goes wrong with a copy: a text damaged, torn or gone; what two windows and an import do to it.

use crate::samples::{self, DEVICE, piece};
use std::collections::BTreeSet;
use tailfirst::{
    clock::{Day, Moment},
    journal::{
        DeviceId, EntryKind, Journal, SetAside,
        keeping::Outlook,
        shelf::{self, Changes, Texts},
    },
    words,
};

/// A journal with a closed day, packed, and a day that goes on; and that day.
fn two_days() -> (Journal, Day) {
    let mut journal = Journal::new();
    journal.merge(samples::entries());
    let next = samples::moment("2026-10-04T08:00:00+02:00");
    for title in ["Air", "Gigue", "Bourrée"] {
        journal.append(journal.next(DEVICE, next, EntryKind::PieceAdded(piece(title))));
    }
    journal.pack_closed_days(next.day());
    journal.put_aside(SetAside { place: "entry.900-a".into(), text: "torn".into() });
    assert!(!journal.packs().is_empty() && journal.recent().count() == 3);
    (journal, next.day())
}

fn copy_of(journal: &Journal) -> Texts {
    shelf::changes(journal, DEVICE, &Texts::new()).put.into_iter().collect()
}

/// What happened, under whichever identity.
fn lines(journal: &Journal) -> BTreeSet<String> {
    journal.entries().map(|entry| shelf::entry_text(&entry).1).collect()
}

/// One sign is another, in turn at some hundred places; cut off at as many; gone.
fn damages(text: &str) -> Vec<Option<String>> {
    let signs: Vec<char> = text.chars().collect();
    let places = (0..signs.len()).step_by(signs.len().div_ceil(100));
    let with = |place: usize, other: char| {
        let signs = signs.iter().enumerate();
        Some(signs.map(|(at, sign)| if at == place { other } else { *sign }).collect())
    };
    let flipped = places.clone().map(|place| with(place, if signs[place] == '7' { 'q' } else { '7' }));
    let torn = places.map(|place| Some(signs[..place].iter().collect()));
    flipped.chain(torn).chain([None]).collect()
}

#[test]
fn whatever_happens_to_one_text_of_one_copy_nothing_is_lost_and_the_damage_is_named() {
    let (journal, today) = two_days();
    let (whole, all) = (copy_of(&journal), lines(&journal));
    for (key, text) in &whole {
        for damage in damages(text) {
            let mut damaged = whole.clone();
            match &damage {
                Some(damage) => damaged.insert(key.clone(), damage.clone()),
                None => damaged.remove(key),
            };
            for copies in [[whole.clone(), damaged.clone()], [damaged.clone(), whole.clone()]] {
                let opened = shelf::open(&copies, today);
                assert!(lines(&opened.journal).is_superset(&all), "{key}: {damage:?}");
                assert_eq!(opened.journal.missing(), 0, "{key}: {damage:?}");
                let named = opened.journal.set_aside().any(|aside| aside.place == *key);
                let is_read = opened.newly_set_aside == 0;
                assert!(named || is_read || key.starts_with("aside."), "{key}: {damage:?}");
                if key.starts_with("pack.") && damage.is_some() {
                    assert!(named, "{damage:?}");
                }
            }
        }
    }
}

#[test]
fn whatever_happens_to_one_text_of_both_copies_the_rest_is_there_and_what_is_not_is_said() {
    let (journal, today) = two_days();
    let (whole, all) = (copy_of(&journal), lines(&journal));
    let entries = |key: &str| {
        let pack = journal.packs().iter().find(|pack| key == format!("pack.{}", pack.first()));
        let packed = pack.map(|pack| pack.entries()).unwrap_or_default();
        let single = journal.recent().filter(|entry| key == format!("entry.{}", entry.id)).cloned();
        packed.into_iter().chain(single).map(|entry| shelf::entry_text(&entry).1).collect::<BTreeSet<_>>()
    };
    for (key, text) in whole.iter().filter(|(key, _)| !key.starts_with("aside.")) {
        for damage in damages(text) {
            let mut damaged = whole.clone();
            match &damage {
                Some(damage) => damaged.insert(key.clone(), damage.clone()),
                None => damaged.remove(key),
            };
            let opened = shelf::open(&[damaged.clone(), damaged], today);
            let here = lines(&opened.journal);
            let rest: BTreeSet<String> = all.difference(&entries(key)).cloned().collect();
            assert!(here.is_superset(&rest), "{key}: {damage:?}");
            let lost = !here.is_superset(&all) && opened.journal.entries().count() < journal.entries().count();
            // The last entry of all leaves no gap behind it: nothing tells of it.
            let is_last = journal.last().is_some_and(|last| key == &format!("entry.{last}")) && damage.is_none();
            let said = opened.newly_set_aside > 0 || opened.newly_missing > 0;
            assert!(!lost || said || is_last, "{key}: {damage:?}");
            assert!(opened.device != Some(DEVICE) || opened.newly_set_aside == 0, "{key}: {damage:?}");
        }
    }
}

/// Two windows of a browser without locks, each under an identity of its own, hear what the other writes.
#[test]
fn two_windows_that_hear_each_other_come_to_the_same_whoever_writes_first() {
    let (journal, _) = two_days();
    let (mut one, mut other) = (journal.clone(), journal);
    let at = samples::moment("2026-10-04T09:00:00+02:00");
    let write = |journal: &mut Journal, device, title: &str| {
        let entry = journal.next(device, at, EntryKind::PieceAdded(piece(title)));
        journal.append(entry.clone());
        shelf::entry_text(&entry)
    };
    let first = write(&mut one, DeviceId(1), "Sarabande");
    let second = write(&mut other, DeviceId(2), "Allemande");
    assert_ne!(first.0, second.0, "neither writes over the other");
    for (journal, (key, text)) in [(&mut other, &first), (&mut one, &second)] {
        assert!(shelf::hear(journal, key, text).is_some());
        assert!(shelf::hear(journal, "device", "a").is_none() && shelf::hear(journal, key, "torn").is_none());
    }
    assert_eq!(one, other);
    let third = write(&mut one, DeviceId(1), "Courante");
    shelf::hear(&mut other, &third.0, &third.1);
    assert_eq!(one, other);
}

#[test]
fn going_back_to_what_was_before_an_import_leaves_nothing_of_it() {
    let (journal, today) = two_days();
    let mut imported = journal.clone();
    let at = samples::moment("2027-01-01T09:00:00+02:00");
    let foreign = imported.next(DeviceId(9), at, EntryKind::PieceAdded(piece("Foreign")));
    imported.merge([foreign]);
    imported.pack_closed_days(at.plus_ms(86_400_000).day());
    let mut copy = copy_of(&imported);
    let Changes { put, remove } = shelf::replacing(&journal, DEVICE, &copy);
    copy.extend(put);
    remove.iter().for_each(|key| _ = copy.remove(key));
    assert_eq!(shelf::open(&[copy], today).journal, journal);
}

#[test]
fn it_is_told_who_wrote_what_and_when_last() {
    let (mut journal, _) = two_days();
    let at = samples::moment("2027-01-01T09:00:00+02:00");
    journal.merge([journal.next(DeviceId(9), at, EntryKind::PieceAdded(piece("Foreign")))]);
    let writers: Vec<_> = journal.writers().map(|(device, writer)| (device, writer.entries, writer.last)).collect();
    let own = samples::moment("2026-10-04T08:00:00+02:00");
    assert_eq!(writers, [(DeviceId(9), 1, at), (DEVICE, samples::entries().len() + 3, own)]);
}

#[test]
fn a_player_is_reminded_of_an_export_the_sooner_the_less_the_browser_keeps() {
    let day = |number: i64| Moment::new(number * 86_400_000, 0);
    let reminded = |outlook: Outlook, now| outlook.days_without_export(None, Some(day(0)), day(now));
    for (outlook, days) in
        [(Outlook::Promised, 30), (Outlook::Unpromised, 7), (Outlook::Unknown, 7), (Outlook::ClearedUnlessVisited, 3)]
    {
        assert_eq!(reminded(outlook, days - 1), None, "{outlook:?}");
        assert_eq!(reminded(outlook, days), Some(days as i32), "{outlook:?}");
    }
    assert_eq!(Outlook::Promised.days_without_export(Some(day(25)), Some(day(0)), day(40)), None);
    assert_eq!(Outlook::Unpromised.days_without_export(None, None, day(400)), None, "there is nothing to export yet");
}

#[test]
fn only_a_page_of_webkit_that_is_not_on_the_home_screen_is_said_to_be_cleared() {
    const APPLE: &str = "Apple Computer, Inc.";
    for (persisted, vendor, on_home_screen, outlook) in [
        (Some(false), APPLE, false, Outlook::ClearedUnlessVisited),
        (None, APPLE, false, Outlook::ClearedUnlessVisited),
        (Some(false), APPLE, true, Outlook::Unpromised),
        (Some(true), APPLE, false, Outlook::Promised),
        (Some(false), "Google Inc.", false, Outlook::Unpromised),
        (None, "", false, Outlook::Unknown),
    ] {
        assert_eq!(Outlook::of(persisted, vendor, on_home_screen), outlook, "{persisted:?} {vendor} {on_home_screen}");
        let strong = words::keeping::reminder(outlook, 8).contains("erases");
        assert_eq!(strong, outlook == Outlook::ClearedUnlessVisited, "{outlook:?}");
    }
}
