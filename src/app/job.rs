//! What a screen has done beside the page, one task at a time: begun, called off by a tap, or called off because the player
//! has left the screen, which is said.

use crate::{
    app::{
        beside::{self, Heard},
        device::{files::Chosen, workshop::Work},
        notices::use_taken,
    },
    workshop::Task,
};
use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};
use yew::prelude::*;

/// The task under way, if any.
#[derive(Clone, Default)]
pub struct Job {
    work: Rc<RefCell<Option<Work>>>,
    runs: Rc<Cell<bool>>,
}

impl Job {
    /// Begins a task with the file that belongs to it, in the place of the one before.
    pub fn begin(&self, task: &Task, file: Option<Chosen>, hear: impl Fn(Heard) + 'static) {
        self.runs.set(true);
        let runs = Rc::clone(&self.runs);
        let work = beside::begin(task, file, move |heard| {
            runs.set(matches!(heard, Heard::Hundredths(_)));
            hear(heard);
        });
        self.work.replace(work);
    }

    /// Calls the task off, and says whether it was under way.
    fn call_off(&self) -> bool {
        self.work.take();
        self.runs.take()
    }
}

/// The stage that a screen shows, at first `waiting`; the job behind it; and what calls it off. `called_off` says that it was,
/// where the screen is left.
#[hook]
pub fn use_job<S: 'static>(
    waiting: fn() -> S,
    called_off: &'static str,
) -> (UseStateHandle<S>, Job, Callback<MouseEvent>) {
    let (stage, job, taken) = (use_state(waiting), use_memo((), |()| Job::default()), use_taken());
    let (stage_then, job_then) = (stage.setter(), Rc::clone(&job));
    let call_off = Callback::from(move |_: MouseEvent| {
        job_then.call_off();
        stage_then.set(waiting());
    });
    let leaving = Rc::clone(&job);
    use_effect_with((), move |()| {
        move || {
            if leaving.call_off() {
                taken.called_off(called_off);
            }
        }
    });
    (stage, Job::clone(&job), call_off)
}
