//! Any entries at all, a line each: whatever order they come in, they add up to the same, and what is taken back is as if
//! it had never been.

#![no_main]

use libfuzzer_sys::fuzz_target;
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryKind, Journal, limits},
};

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let entries: Vec<Entry> = text.lines().filter_map(|line| Entry::read(line).ok()).collect();
    let fits = |entry: &&Entry| limits::check(entry).is_ok() && limits::may_be_numbered(entry.id, 100);
    // Each is taken in by itself once, at the cost of all that are there.
    let entries: Vec<Entry> = entries.iter().filter(fits).take(40).cloned().collect();
    let mut all = Journal::new();
    all.merge(entries.iter().cloned());
    let mut reversed = Journal::new();
    entries.into_iter().rev().for_each(|entry| _ = reversed.merge([entry]));
    assert!(all == reversed, "the order counts");
    let Some(last) = all.last() else { return };
    let before = all.state().clone();
    let (device, at) = (DeviceId(1), Moment::new(0, 0));
    let undo = all.next(device, at, EntryKind::Retracted { entry: last });
    let id = undo.id;
    all.append(undo);
    all.append(all.next(device, at, EntryKind::Retracted { entry: id }));
    assert!(*all.state() == before, "undone twice is another state");
});
