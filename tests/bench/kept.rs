//! Ten years of practice as they are kept on a device: the room they take, and how soon they are opened.

use crate::{
    figure::{Figure, Sheet, median, milliseconds},
    practised::TEN_YEARS,
    years,
};
use tailfirst::{
    clock::Moment,
    journal::{
        DeviceId, EntryKind, Journal,
        shelf::{self, Texts},
    },
};

/// An odd number, so that there is a middle one.
const OPENINGS: usize = 5;

pub fn measure(sheet: &mut Sheet) {
    let entries = years::practise(TEN_YEARS, 1);
    let now = Moment::new(entries.last().expect("ten years").at.unix_ms(), 0);
    let repetitions = entries.iter().filter(|entry| matches!(entry.kind, EntryKind::Played { .. })).count();
    let mut journal = Journal::new();
    journal.merge(entries);
    journal.pack_closed_days(now.day());
    let device = DeviceId(1);
    let copy: Texts = shelf::changes(&journal, device, &Texts::new()).put.into_iter().collect();
    let chars: usize =
        copy.iter().map(|(key, text)| "tailfirst.".len() + key.len() + text.encode_utf16().count()).sum();
    println!("{repetitions} repetitions in {} entries, kept under {} keys", journal.count(), copy.len());
    sheet.add(Figure { name: "ten-years-kept", value: chars as f64 / 1e6, unit: "million characters", target: 4.0 });

    let copies = [copy.clone(), copy];
    let openings = (0..OPENINGS).map(|_| milliseconds(|| shelf::open(&copies, now.day())));
    sheet.add(Figure { name: "ten-years-opened", value: median(openings.collect()), unit: "ms", target: 300.0 });
}
