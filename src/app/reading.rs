//! Scores read beside the page, by a worker.

use crate::{
    app::device::workshop::{self, Work},
    journal::ScoreFile,
    music::musicxml::Reading,
    words::{self, say},
    workshop::{Answer, Gathered, Outcome, Task},
};
use std::{cell::RefCell, rc::Rc};

/// How far a reading is.
pub enum Heard {
    /// So many hundredths are done.
    Hundredths(u8),
    /// What was read, and its file where it is to be kept.
    Read(Reading, Option<ScoreFile>),
    /// There is no score to be had, as a sentence.
    Refused(String),
}

/// Begins to read; to drop the work is to call it off. Where this browser starts no worker there is none, and `hear`
/// has been told so.
pub fn begin(task: &Task, hear: impl Fn(Heard) + 'static) -> Option<Work> {
    let hear = Rc::new(hear);
    let (gathered, tell) = (Rc::new(RefCell::new(Gathered::default())), Rc::clone(&hear));
    let begun = workshop::begin(task.sent(), move |message| {
        let Some(message) = message else { return tell(Heard::Refused(say::worker_stopped().into())) };
        let mut gathered = gathered.borrow_mut();
        tell(match gathered.take(Answer::arrived(&message)) {
            None => Heard::Hundredths(gathered.hundredths()),
            Some(Outcome::Read { reading, file }) => Heard::Read(reading, file),
            Some(Outcome::Refused(why)) => Heard::Refused(words::refusal(why)),
        });
    });
    if begun.is_err() {
        hear(Heard::Refused(say::no_worker().into()));
    }
    begun.ok()
}
