//! Any entries at all in a packed score: the input is a list of names and contents, separated by zero bytes; what
//! follows the last whole pair is laid over the end of the packed bytes.

#![no_main]

#[path = "../scores/whole.rs"]
mod whole;

use libfuzzer_sys::fuzz_target;
use std::io::{Cursor, Write};
use zip::{ZipWriter, write::SimpleFileOptions};

fuzz_target!(|bytes: &[u8]| {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let pieces: Vec<&[u8]> = bytes.split(|byte| *byte == 0).collect();
    let (pairs, rest) = pieces.as_chunks::<2>();
    for [name, content] in pairs {
        if zip.start_file(String::from_utf8_lossy(name), SimpleFileOptions::default()).is_ok() {
            zip.write_all(content).expect("written to memory");
        }
    }
    let mut packed = zip.finish().expect("a zip").into_inner();
    let damage = rest.first().copied().unwrap_or(&[]);
    let end = packed.len();
    let from = end.saturating_sub(damage.len());
    packed[from..].iter_mut().zip(damage).for_each(|(byte, damage)| *byte ^= damage);
    whole::use_up(&packed);
});
