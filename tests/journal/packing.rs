//! Closed days, packed: nothing is lost, damage shows, and ten years fit.

use crate::{
    samples::{self, DEVICE, LATER},
    years,
};
use proptest::prelude::*;
use tailfirst::{
    clock::{Day, Moment},
    journal::{
        DeviceId, Entry, EntryId, EntryKind, Journal, SnippetId,
        pack::{MOST_ENTRIES, Pack},
        shelf::{self, Texts},
    },
    method::{Cause, Hands, Verdict},
};

fn unpacked(packs: &[Pack]) -> Vec<Entry> {
    packs.iter().flat_map(Pack::entries).collect()
}

fn long_after() -> Day {
    samples::moment("2099-01-01T12:00:00Z").day()
}

/// A journal of so many days, all of them closed.
fn packed(days: u32) -> Journal {
    let mut journal = Journal::new();
    journal.merge(years::practise(days, 1));
    journal.pack_closed_days(long_after());
    journal
}

#[test]
fn every_kind_of_entry_comes_out_of_a_pack_as_it_went_in() {
    let mut entries = samples::entries();
    entries.push(Entry::read(&LATER.replace("18-", "99-")).expect("an entry"));
    let [pack] = &Pack::all_of(&entries)[..] else { panic!("one pack") };
    assert_eq!(pack.entries(), entries);
    assert_eq!(Pack::read(pack.text()).as_ref(), Ok(pack));
    let lines: Vec<String> = pack.entries().iter().map(Entry::written).collect();
    assert_eq!(lines, entries.iter().map(Entry::written).collect::<Vec<_>>());
}

#[test]
fn years_come_out_of_their_packs_as_they_went_in() {
    let entries = years::practise(60, 3);
    let packs = Pack::all_of(&entries);
    assert!(packs.len() > 5 && packs.iter().all(|pack| pack.count() <= MOST_ENTRIES));
    assert_eq!(unpacked(&packs), entries);
}

/// Ten years at 400 repetitions a day are to take at most four million characters of local storage.
#[test]
fn ten_years_fit_into_local_storage_with_room_to_spare() {
    let days = 365;
    let journal = packed(days);
    let repetitions = journal.entries().filter(|entry| matches!(entry.kind, EntryKind::Played { .. })).count();
    assert!(repetitions >= 400 * days as usize, "{repetitions}");
    let kept = shelf::changes(&journal, DEVICE, &Texts::new()).put;
    let chars: usize =
        kept.iter().map(|(key, text)| "tailfirst.".len() + key.len() + text.encode_utf16().count()).sum();
    let ten_years = chars as f64 * 1_460_000.0 / repetitions as f64;
    assert!(ten_years <= 4e6, "{ten_years} characters");
}

/// After ten years, on a device with the longest identity, at the end of the longest passage.
#[test]
fn a_tap_writes_at_most_200_characters() {
    let far = |number| EntryId { number, device: DeviceId(u64::MAX) };
    let at = samples::moment("2036-11-25T18:30:00.123+01:00");
    let (snippet, step) = (SnippetId(far(1_999_990)), samples::step(4_094, 4_095, Hands::Right, 400));
    let taps = [
        EntryKind::Played { snippet, step, verdict: Verdict::NotYet },
        EntryKind::Overruled { snippet, step },
        EntryKind::BlockBegan { snippet },
        EntryKind::StartedAfresh { snippet },
        EntryKind::CauseNamed { repetition: far(1_999_998), cause: Cause::WrongNote },
        EntryKind::Retracted { entry: far(1_999_998) },
    ];
    for kind in taps {
        let (key, text) = shelf::entry_text(&Entry { id: far(1_999_999), at, kind });
        let chars = "tailfirst.".len() + key.len() + text.len();
        assert!(chars <= 200, "{chars}: {key} {text}");
    }
}

/// One character is at most 15 bits that stand together, and every change of so few is found.
#[test]
fn a_pack_with_any_one_character_changed_missing_or_added_is_damaged() {
    let [pack] = &Pack::all_of(&years::practise(1, 7)[..60])[..] else { panic!("one pack") };
    let letters: Vec<char> = pack.text().chars().collect();
    for place in 0..letters.len() {
        for other in ['0', '1', 'ā', 'Ā', '☃', ' '] {
            let mut changed = letters.clone();
            changed[place] = other;
            let text: String = changed.iter().collect();
            assert_eq!(Pack::read(&text).is_ok(), text == pack.text(), "{place} {other}");
        }
        let mut longer = letters.clone();
        longer.insert(place, letters[place]);
        let shorter: String = letters[..place].iter().chain(&letters[place + 1..]).collect();
        let cut: String = letters[..place].iter().collect();
        for text in [longer.into_iter().collect(), shorter, cut] {
            assert!(text == pack.text() || Pack::read(&text).is_err(), "{place}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is packed, nothing else changes: not what is shown, not what is exported, not a union.
    #[test]
    fn packing_changes_nothing_but_the_room_it_takes(seed: u64, days in 1_u32..4, order in any::<bool>()) {
        let (here, there) = (years::practise(days, seed), years::practise(days, seed ^ 0xff));
        let mut open = Journal::new();
        open.merge(here.iter().cloned());
        let mut packed = open.clone();
        packed.pack_closed_days(long_after());
        prop_assert_eq!(&packed, &open);
        prop_assert_eq!(packed.count(), open.count());

        // What another device wrote falls between, before and after what lies packed.
        let mut others = there.clone();
        if order {
            others.reverse();
        }
        prop_assert_eq!(packed.merge(others.clone()), open.merge(others));
        prop_assert_eq!(&packed, &open);
        packed.pack_closed_days(long_after());
        prop_assert_eq!(&packed, &open);
        prop_assert_eq!(packed.merge(here).added, 0);

        // An undo of something packed long ago.
        let entry = there[there.len() / 2].id;
        for journal in [&mut packed, &mut open] {
            journal.append(journal.next(DEVICE, Moment::new(0, 0), EntryKind::Retracted { entry }));
        }
        prop_assert_eq!(&packed, &open);
    }

    #[test]
    fn any_text_for_a_pack_is_read_or_refused(text: String, words in "1 [0-9]{1,4} [0-9]{1,3}-a [0-9]{1,3}-a [0-9]{1,3} [0-9a-f]{8} .{0,20}") {
        prop_assert!(Pack::read(&text).is_err());
        prop_assert!(Pack::read(&words).is_err());
    }
}

#[test]
fn a_closed_day_is_packed_when_the_next_one_is_opened_and_the_copies_follow() {
    let at = samples::moment("2026-10-04T08:00:00+02:00");
    let mut journal = Journal::new();
    for nth in 0..50 {
        let title = samples::piece(&nth.to_string());
        journal.append(journal.next(DEVICE, at.plus_ms(nth * 1_000), EntryKind::PieceAdded(title)));
    }
    let mut copies = [Texts::new(), Texts::new()];
    apply(&mut copies, &journal);
    let count = |copy: &Texts, start: &str| copy.keys().filter(|key| key.starts_with(start)).count();
    assert_eq!(count(&copies[0], "entry."), 50);

    let same_day = shelf::open(&copies, at.day());
    assert_eq!(shelf::changes(&same_day.journal, DEVICE, &copies[0]).remove, Vec::<String>::new());
    let next_day = shelf::open(&copies, at.day() + 1);
    assert_eq!(next_day.journal, journal);
    apply(&mut copies, &next_day.journal);
    for copy in &copies {
        assert_eq!((count(copy, "entry."), count(copy, "pack.")), (0, 1));
        assert_eq!(shelf::open(std::slice::from_ref(copy), at.day() + 1).journal, journal);
    }
}

fn apply(copies: &mut [Texts], journal: &Journal) {
    for copy in copies {
        let changes = shelf::changes(journal, DEVICE, copy);
        copy.extend(changes.put);
        changes.remove.iter().for_each(|key| _ = copy.remove(key));
    }
}

/// The page may die between any two writes.
#[test]
fn a_packing_broken_off_anywhere_loses_nothing() {
    let mut journal = Journal::new();
    journal.merge(years::practise(1, 11).into_iter().take(80));
    let mut before = Texts::new();
    apply(std::slice::from_mut(&mut before), &journal);
    let opened = shelf::open(std::slice::from_ref(&before), long_after());
    let changes = shelf::changes(&opened.journal, DEVICE, &before);
    let steps = changes.put.len() + changes.remove.len();
    for done in 0..=steps {
        let mut copy = before.clone();
        copy.extend(changes.put.iter().take(done).cloned());
        changes.remove.iter().take(done.saturating_sub(changes.put.len())).for_each(|key| _ = copy.remove(key));
        let again = shelf::open(&[copy, Texts::new()], long_after());
        assert_eq!((&again.journal, again.newly_set_aside), (&journal, 0), "after {done} of {steps}");
    }
}

/// One copy lost its latest days with the browser: its last pack is an older one.
#[test]
fn of_two_packs_that_begin_alike_each_entry_counts_once() {
    let entries = years::practise(4, 13);
    let (mut older, mut newer) = (Journal::new(), Journal::new());
    older.merge(entries[..1_000].iter().cloned());
    newer.merge(entries.iter().cloned());
    let mut copies = [Texts::new(), Texts::new()];
    for (copy, journal) in copies.iter_mut().zip([&mut older, &mut newer]) {
        journal.pack_closed_days(long_after());
        apply(std::slice::from_mut(copy), journal);
    }
    for copies in [copies.clone(), [copies[1].clone(), copies[0].clone()]] {
        let opened = shelf::open(&copies, long_after());
        assert_eq!((&opened.journal, opened.newly_set_aside), (&newer, 0));
    }
}

#[test]
fn a_damaged_pack_is_set_aside_and_the_other_copy_brings_what_was_in_it() {
    let journal = packed(2);
    let mut copies = [Texts::new(), Texts::new()];
    apply(&mut copies, &journal);
    let key = copies[0].keys().find(|key| key.starts_with("pack.")).expect("a pack").clone();
    let cut: String = copies[0][&key].chars().take(500).collect();
    copies[0].insert(key.clone(), cut.clone());
    let opened = shelf::open(&copies, long_after());
    assert!(opened.journal.entries().eq(journal.entries()));
    assert_eq!((opened.newly_set_aside, opened.device), (1, None));
    apply(&mut copies, &opened.journal);
    assert_ne!(copies[0][&key], cut);

    // With no whole copy the rest of the journal is there, and the damaged text stays.
    copies.iter_mut().for_each(|copy| _ = copy.insert(key.clone(), cut.clone()));
    let opened = shelf::open(&copies, long_after());
    apply(&mut copies, &opened.journal);
    assert!(copies[0].values().any(|text| text.contains(&cut)), "kept as it was");
}
