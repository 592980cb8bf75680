//! What the page can ask for, and how it is done.

use crate::{
    carry::{Raw, bytes_of, carry_enums, from_bytes},
    clock::{Day, Moment},
    journal::{DeviceId, Entries, ScoreFile, file::Head},
    music::musicxml,
    workshop::{
        answer::{Answer, Refusal, say_score},
        exchange,
    },
};
use std::io::{Read, Write};

/// Something that takes longer than a frame.
#[derive(Clone, Debug)]
pub enum Task {
    /// Read a file that the player picked, of this name, and pack it to be kept.
    TakeIn(String, Raw),
    /// Read a score that is kept.
    ReadAgain(ScoreFile),
    /// Take a file in among the entries that are here.
    Import {
        /// What is here.
        here: Entries,
        /// What was written before that is packed.
        today: Day,
        /// How large the file is.
        bytes: u64,
    },
    /// Write all entries into a file.
    Export {
        /// What is here.
        entries: Entries,
        /// What the file says besides.
        head: Head,
    },
}

carry_enums! {
    Task { 0 TakeIn(name, bytes), 1 ReadAgain(file), 2 Import { here, today, bytes }, 3 Export { entries, head } }
}

impl Task {
    /// To read a picked file.
    pub fn take_in(name: String, bytes: Vec<u8>) -> Task {
        Task::TakeIn(name, Raw(bytes))
    }

    /// To write all entries into a file of the moment `exported`, by `device`.
    pub fn export(entries: Entries, device: DeviceId, exported: Moment) -> Task {
        Task::Export { entries, head: Head { exported, device, set_aside: Vec::new() } }
    }

    /// As it is sent.
    pub fn sent(&self) -> Vec<u8> {
        bytes_of(self)
    }
}

/// The files beside a task and its answers.
pub struct Files<'a> {
    /// What is to be read.
    pub given: &'a mut dyn Read,
    /// What is to be written. It is whole when it has been flushed.
    pub made: &'a mut dyn Write,
}

/// Does the task that these bytes ask for, and says how it goes. The last answer is [`Answer::Whole`],
/// [`Answer::TakenIn`], [`Answer::Written`] or [`Answer::Refused`].
pub fn work(task: &[u8], files: Files, say: &mut dyn FnMut(Answer)) {
    let done = match from_bytes(task) {
        Some(Task::TakeIn(name, Raw(bytes))) => take_in(name, &bytes, say),
        Some(Task::ReadAgain(file)) => read_again(&file, say),
        Some(Task::Import { here, today, bytes }) => exchange::import(here, today, bytes, files.given, say),
        Some(Task::Export { entries, head }) => exchange::export(&entries, head, files.made, say),
        None => Err(Refusal::Garbled),
    };
    if let Err(why) = done {
        say(Answer::Refused(why));
    }
}

fn take_in(name: String, bytes: &[u8], say: &mut dyn FnMut(Answer)) -> Result<(), Refusal> {
    let reading = read(bytes, say)?;
    let file = ScoreFile::pack(name, bytes).map_err(Refusal::NotKept)?;
    say_score(reading, Some(file), say);
    Ok(())
}

fn read_again(file: &ScoreFile, say: &mut dyn FnMut(Answer)) -> Result<(), Refusal> {
    let bytes = file.unpack().map_err(Refusal::NotKept)?;
    say_score(read(&bytes, say)?, None, say);
    Ok(())
}

fn read(bytes: &[u8], say: &mut dyn FnMut(Answer)) -> Result<musicxml::Reading, Refusal> {
    let mut said = 0;
    let mut tell = |hundredths: u8| {
        if hundredths > said {
            said = hundredths;
            say(Answer::Done(hundredths));
        }
    };
    musicxml::read_telling(bytes, &mut tell).map_err(Refusal::Unread)
}
