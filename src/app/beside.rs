//! What is done beside the page, by a worker.

use crate::{
    app::device::{
        files::{Chosen, Made},
        workshop::{self, Message, Work},
    },
    words::{self, say},
    workshop::{Answer, Gathered, Outcome, Task},
};
use std::{cell::RefCell, rc::Rc};

/// How far a task is.
pub enum Heard {
    /// So many hundredths are done.
    Hundredths(u8),
    /// A file was made.
    Made(Made),
    /// It has come to this, which is no refusal.
    Ended(Outcome),
    /// It comes to nothing, as a sentence.
    Refused(String),
}

/// Begins a task with the file that belongs to it; dropping the work cancels it. `None` where this browser starts no
/// worker; `hear` is then told so.
pub fn begin(task: &Task, file: Option<Chosen>, hear: impl Fn(Heard) + 'static) -> Option<Work> {
    let hear = Rc::new(hear);
    let (gathered, tell) = (Rc::new(RefCell::new(Gathered::default())), Rc::clone(&hear));
    let begun = workshop::begin(task.sent(), file, move |message| {
        tell(match message {
            Message::Stopped => Heard::Refused(say::worker_stopped().into()),
            Message::Made(file) => Heard::Made(file),
            Message::Answer(answer) => answered(&mut gathered.borrow_mut(), &answer),
        });
    });
    if begun.is_err() {
        hear(Heard::Refused(say::no_worker().into()));
    }
    begun.ok()
}

fn answered(gathered: &mut Gathered, answer: &[u8]) -> Heard {
    match gathered.take(Answer::arrived(answer)) {
        None => Heard::Hundredths(gathered.hundredths()),
        Some(Outcome::Refused(why)) => Heard::Refused(words::refusal(why)),
        Some(outcome) => Heard::Ended(outcome),
    }
}
