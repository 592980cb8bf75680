//! How a verdict gets from a target, a key or a pedal into the journal, and the cause of a miss after it.

use crate::{
    agenda::{ending::ends_block, practice::Miss},
    app::{
        desk::DeskNow,
        device::{clock::steady_seconds, keys, timers},
        screens::practise::targets::Knock,
        sound::Conductor,
    },
    journal::{EntryId, EntryKind, SnippetId},
    method::{Cause, Coach, Step, Verdict, block},
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

/// Records a verdict on what was `played` and, where it ends the block, the end of the block. A tap that comes sooner
/// than the step can be played counts as a bounce. `told` holds two callbacks: one is given `false` when the block
/// ends, the other marks each verdict that counts.
#[hook]
pub fn use_judge(
    desk: &DeskNow,
    played: (SnippetId, Step),
    coach: &Rc<Coach>,
    conductor: &Rc<RefCell<Conductor>>,
    told: (&Callback<bool>, &Callback<Knock>),
) -> Callback<Knock> {
    let (snippet, step) = played;
    let judged_at = use_mut_ref(steady_seconds);
    let (desk, coach, conductor) = (desk.clone(), coach.clone(), conductor.clone());
    let (run, taken) = (told.0.clone(), told.1.clone());
    Callback::from(move |knock: Knock| {
        let since = steady_seconds() - *judged_at.borrow();
        if since < conductor.borrow().shortest_seconds() {
            return;
        }
        *judged_at.borrow_mut() = steady_seconds();
        desk.record(EntryKind::Played { snippet, step, verdict: knock.verdict });
        taken.emit(knock);
        if is_over(&desk, snippet, &coach) {
            run.emit(false);
            desk.record(EntryKind::BlockEnded { snippet });
        }
    })
}

/// Whether the repetition just written down, which the coach `before` had not heard of, ends the block.
fn is_over(desk: &DeskNow, snippet: SnippetId, before: &Coach) -> bool {
    let (state, now) = (desk.state(), desk.now());
    let (Some(record), Some(after)) = (state.snippet(snippet), desk.coach(snippet)) else { return true };
    let standing = block::standing(record.history(), &state.preferences.method, now);
    ends_block(&before.advice(now), &after.advice(now), standing)
}

/// How long a verdict that was taken is marked, in ms: shorter than the least time between two verdicts, so
/// that each has its own mark, and none comes more than three times a second.
const MARKED_MS: u32 = 300;

/// The verdict that was taken just now, and what to tell of the next one.
#[hook]
pub fn use_taken_knock() -> (Option<Knock>, Callback<Knock>) {
    let taken = use_state(|| None::<Knock>);
    let fading = use_mut_ref(|| None::<timers::Once>);
    let set = taken.setter();
    let take = use_callback((), move |knock: Knock, ()| {
        set.set(Some(knock));
        let set = set.clone();
        *fading.borrow_mut() = Some(timers::after(MARKED_MS, move || set.set(None)));
    });
    (*taken, take)
}

/// Keys and pedals: which keys a pedal sends is no standard, so the common pairs all do.
#[hook]
pub fn use_keys(judge: &Callback<Knock>, undo: &Callback<()>) {
    let latest = use_mut_ref(|| (judge.clone(), undo.clone()));
    *latest.borrow_mut() = (judge.clone(), undo.clone());
    use_effect_with((), move |()| {
        let listening = keys::on_key(move |key| {
            let (judge, undo) = latest.borrow().clone();
            let judged = |verdict| judge.emit(Knock { verdict, spot: None });
            match key {
                "ArrowRight" | "ArrowDown" | "PageDown" | "c" => judged(Verdict::Clean),
                "ArrowLeft" | "ArrowUp" | "PageUp" | "n" => judged(Verdict::NotYet),
                "Backspace" | "u" => undo.emit(()),
                _ => return false,
            }
            true
        });
        move || drop(listening)
    });
}

/// What a tap on an onset does: after a miss it says that it broke there; where that was said already, or says nothing, what
/// is written at the onset opens.
#[hook]
pub fn use_points(desk: &DeskNow, miss: Option<Miss>, open: &Callback<usize>) -> Callback<usize> {
    use_callback((desk.clone(), miss, open.clone()), |onset: usize, (desk, miss, open)| {
        match miss.and_then(|miss| miss.broke_at(onset)) {
            Some(broke) => _ = desk.record(broke),
            None => open.emit(onset),
        }
    })
}

/// Names the cause of a repetition.
pub fn names_cause(desk: &DeskNow, repetition: EntryId) -> Callback<Cause> {
    let desk = desk.clone();
    Callback::from(move |cause| {
        desk.record(EntryKind::CauseNamed { repetition, cause });
    })
}
