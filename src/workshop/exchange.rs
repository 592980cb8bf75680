//! A journal's file taken in and written.

use crate::{
    clock::Day,
    journal::{
        Entries, EntryKind,
        file::{self, Head},
        retracted,
    },
    workshop::{Answer, Refusal, answer::in_pieces},
};
use std::io::{self, Read, Write};

/// Most entries, or what speaks of one, in one message.
const MOST_AT_ONCE: usize = 500;

/// How many hundredths of an import are the reading of the file; the rest is what the page takes in.
const READING: u64 = 80;

/// Takes the file of so many bytes in among the entries that are here, and says what they are from then on.
pub fn import(
    mut here: Entries,
    today: Day,
    bytes: u64,
    file: &mut dyn Read,
    say: &mut dyn FnMut(Answer),
) -> Result<(), Refusal> {
    let told = Told { file, read: 0, bytes, hundredths: 0, say };
    let brought = here.take_in(told).map_err(Refusal::NotTakenIn)?;
    here.pack_closed_days(today);
    if brought.merged.added > 0 || brought.set_aside > 0 {
        say_entries(&here, say)?;
    }
    say(Answer::TakenIn(brought));
    Ok(())
}

fn say_entries(entries: &Entries, say: &mut dyn FnMut(Answer)) -> Result<(), Refusal> {
    let mut retractions = Vec::new();
    let each = entries.each(&mut |entry| {
        if let EntryKind::Retracted { entry: earlier } = entry.kind {
            retractions.push((entry.id, earlier));
        }
    });
    each.map_err(|_| Refusal::Garbled)?;
    let retracted = retracted(&retractions).into_iter();
    in_pieces(retracted.collect(), |_| 1, MOST_AT_ONCE, |ids| say(Answer::Retracted(ids)));
    let packs = entries.packs();
    for (place, pack) in packs.iter().enumerate() {
        say(Answer::Packed(pack.clone()));
        say(Answer::Done((READING + (100 - READING) * (place as u64 + 1) / packs.len() as u64) as u8));
    }
    in_pieces(entries.recent().cloned().collect(), |_| 1, MOST_AT_ONCE, |recent| say(Answer::Recent(recent)));
    in_pieces(entries.set_aside().cloned().collect(), |_| 1, MOST_AT_ONCE, |aside| say(Answer::SetAside(aside)));
    Ok(())
}

/// A file that tells how much of it has been read.
struct Told<'a> {
    file: &'a mut dyn Read,
    read: u64,
    bytes: u64,
    hundredths: u8,
    say: &'a mut dyn FnMut(Answer),
}

impl Read for Told<'_> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let read = self.file.read(into)?;
        self.read += read as u64;
        let hundredths = (self.read * READING / self.bytes.max(1)).min(READING) as u8;
        if hundredths > self.hundredths {
            self.hundredths = hundredths;
            (self.say)(Answer::Done(hundredths));
        }
        Ok(read)
    }
}

/// Writes all entries into a file.
pub fn export(
    entries: &Entries,
    mut head: Head,
    file: &mut dyn Write,
    say: &mut dyn FnMut(Answer),
) -> Result<(), Refusal> {
    head.set_aside = entries.set_aside().cloned().collect();
    let (all, mut written, mut said) = (entries.count(), 0, 0);
    let told = entries.entries().inspect(|_| {
        written += 1;
        let hundredths = (written * 100 / all) as u8;
        if hundredths > said {
            said = hundredths;
            say(Answer::Done(hundredths));
        }
    });
    file::write(&head, told, file).map_err(|_| Refusal::NotWritten)?;
    say(Answer::Written);
    Ok(())
}
