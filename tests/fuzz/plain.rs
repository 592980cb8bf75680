//! Any bytes at all as a score. Half of the changes are blind, half move, drop, double and renumber whole
//! elements, so that most inputs stay well-formed.

#![no_main]

mod elements;
#[path = "../scores/whole.rs"]
mod whole;

use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};

fuzz_target!(|bytes: &[u8]| whole::use_up(bytes));

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    match elements::change(&data[..size], seed).filter(|changed| seed % 2 == 0 && changed.len() <= max_size) {
        Some(changed) => {
            data[..changed.len()].copy_from_slice(&changed);
            changed.len()
        }
        None => fuzzer_mutate(data, size, max_size),
    }
});
