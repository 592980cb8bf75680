//! Any bytes at all as the columns of a pack whose check value agrees: what comes out is as the head says and goes in
//! again, or the pack is damaged.

#![no_main]

use libfuzzer_sys::fuzz_target;
use tailfirst::journal::{DeviceId, EntryId, pack::Pack};

fuzz_target!(|bytes: &[u8]| {
    let [count, number, last, columns @ ..] = bytes else { return };
    let id = |number: u8| EntryId { number: u64::from(number), device: DeviceId(1) };
    let Ok(pack) = Pack::read(Pack::of_columns(columns, usize::from(*count), id(*number), id(*last)).text()) else { return };
    let mut entries = Vec::new();
    if pack.unpack(&mut |entry| entries.push(entry)).is_ok() {
        assert_eq!(entries.len(), usize::from(*count));
        let again: Vec<_> = Pack::all_of(&entries).iter().flat_map(Pack::entries).collect();
        assert!(again == entries, "packed again, other entries come out");
    }
});
