//! What the page can ask for, and how it is done.

use crate::{
    carry::{Raw, bytes_of, carry_enums, from_bytes},
    journal::ScoreFile,
    music::musicxml,
    workshop::answer::{Answer, Refusal, say_score},
};

/// Something that takes longer than a frame.
#[derive(Clone, Debug, PartialEq)]
pub enum Task {
    /// Read a file that the player picked, of this name, and pack it to be kept.
    TakeIn(String, Raw),
    /// Read a score that is kept.
    ReadAgain(ScoreFile),
}

carry_enums! {
    Task { 0 TakeIn(name, bytes), 1 ReadAgain(file) }
}

impl Task {
    /// To read a picked file.
    pub fn take_in(name: String, bytes: Vec<u8>) -> Task {
        Task::TakeIn(name, Raw(bytes))
    }

    /// As it is sent.
    pub fn sent(&self) -> Vec<u8> {
        bytes_of(self)
    }
}

/// Does the task that these bytes ask for, and says how it goes. The last answer is [`Answer::Whole`] or
/// [`Answer::Refused`].
pub fn work(task: &[u8], say: &mut dyn FnMut(Answer)) {
    let done = match from_bytes(task) {
        Some(Task::TakeIn(name, Raw(bytes))) => take_in(name, &bytes, say),
        Some(Task::ReadAgain(file)) => read_again(&file, say),
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
