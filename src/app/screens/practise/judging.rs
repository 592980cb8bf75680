//! How a verdict gets from a target, a key or a pedal into the journal, and the cause of a miss after it.

use super::super::super::{
    conductor::Conductor,
    desk::DeskNow,
    device::{clock::steady_seconds, keys},
};
use crate::{
    journal::{EntryId, Event, SnippetId},
    method::{Cause, Coach, Move, Step, Verdict, What},
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

/// Writes a verdict on what was `played` down and, where the coach says so, that the block is over: then nothing is to
/// `run` any more. A tap that comes sooner than the step can be played is taken for a bounce.
#[hook]
pub fn use_judge(
    desk: &DeskNow,
    played: (SnippetId, Step),
    coach: &Rc<Coach>,
    conductor: &Rc<RefCell<Conductor>>,
    run: &Callback<bool>,
) -> Callback<Verdict> {
    let (snippet, step) = played;
    let judged_at = use_mut_ref(steady_seconds);
    let (desk, coach, conductor, run) = (desk.clone(), coach.clone(), conductor.clone(), run.clone());
    Callback::from(move |verdict| {
        let since = steady_seconds() - *judged_at.borrow();
        if since < conductor.borrow().shortest_seconds() {
            return;
        }
        *judged_at.borrow_mut() = steady_seconds();
        desk.record(Event::Played { snippet, step, verdict });
        let over = {
            let state = desk.state();
            let last = state.snippet(snippet).and_then(|record| record.history().last());
            let mut coach = (*coach).clone();
            last.into_iter().for_each(|happening| coach.follow(happening));
            coach.advice(desk.now()).led_by == Move::Leave
        };
        if over {
            run.emit(false);
            desk.record(Event::BlockEnded { snippet });
        }
    })
}

/// Keys and pedals: which keys a pedal sends is no standard, so the common pairs all do.
#[hook]
pub fn use_keys(judge: &Callback<Verdict>, undo: &Callback<()>) {
    let latest = use_mut_ref(|| (judge.clone(), undo.clone()));
    *latest.borrow_mut() = (judge.clone(), undo.clone());
    use_effect_with((), move |()| {
        let listening = keys::on_key(move |key| {
            let (judge, undo) = latest.borrow().clone();
            match key {
                "ArrowRight" | "ArrowDown" | "PageDown" | "c" => judge.emit(Verdict::Clean),
                "ArrowLeft" | "ArrowUp" | "PageUp" | "n" => judge.emit(Verdict::NotYet),
                "Backspace" | "u" => undo.emit(()),
                _ => return false,
            }
            true
        });
        move || drop(listening)
    });
}

/// The latest happening, where it is a repetition that was not yet clean, with its cause.
pub fn last_miss(desk: &DeskNow, id: SnippetId) -> Option<(EntryId, Option<Cause>)> {
    let state = desk.state();
    let record = state.snippet(id)?;
    match record.history().last()?.what {
        What::Played { verdict: Verdict::NotYet, cause, .. } => {
            Some((record.entry(record.history().len() - 1)?, cause))
        }
        _ => None,
    }
}

/// Names the cause of a repetition.
pub fn names_cause(desk: &DeskNow, repetition: EntryId) -> Callback<Cause> {
    let desk = desk.clone();
    Callback::from(move |cause| {
        desk.record(Event::CauseNamed { repetition, cause });
    })
}
