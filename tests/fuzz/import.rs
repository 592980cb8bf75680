//! Any bytes at all as a journal's file: refused with nothing changed, or taken in whole and handed on as it came.

#![no_main]

use libfuzzer_sys::fuzz_target;
use tailfirst::journal::{
    Entries, Journal,
    file::{self, Head},
};

fuzz_target!(|bytes: &[u8]| {
    let mut here = Journal::new();
    let mut entries = Entries::clone(&here);
    let mut came = Vec::new();
    let read = file::read(bytes, &mut |entry| came.push(entry));
    match (read, entries.take_in(bytes)) {
        (Ok(Head { exported, device, set_aside }), Ok(_)) => {
            here.merge(came);
            assert!(here.entries().eq(entries.entries()), "one by one is another union than all at once");
            let mut again = Vec::new();
            file::write(&Head { exported, device, set_aside }, here.entries(), &mut again).expect("memory can be written");
            let mut elsewhere = Entries::default();
            elsewhere.take_in(&*again).expect("what was taken in is handed on");
            assert!(elsewhere.entries().eq(here.entries()));
        }
        (Err(_), Err(_)) => assert!(entries.entries().eq(here.entries()), "refused, and something changed"),
        _ => panic!("read is not taken in, or the other way round"),
    }
});
