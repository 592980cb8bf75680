//! What several screens ask of the page: the time going by, the screen kept awake, the page of a snippet, the
//! size of an element.

use crate::{
    agenda::DayPlan,
    app::{
        desk::DeskNow,
        device::{clock, frame, keys, timers, wake::Awake},
        scores::Known,
    },
    clock::Moment,
    journal::SnippetId,
    method::Snippet,
    music::{Marks, PrintedPage, Score},
};
use std::{collections::BTreeMap, rc::Rc};
use yew::prelude::*;

/// The device's time, redrawn every second and whenever the page comes back into view.
#[hook]
pub fn use_now() -> Moment {
    let now = use_state(clock::now);
    let set = now.setter();
    use_effect_with((), move |()| {
        let on_visible = set.clone();
        let ticking = timers::every(1_000, move || set.set(clock::now()));
        let seen = keys::on_visible(move || on_visible.set(clock::now()));
        move || drop((ticking, seen))
    });
    // A state is as old as the last tick; what is drawn between ticks must not lag behind.
    clock::now().max(*now)
}

/// Keeps the screen awake while `on`.
#[hook]
pub fn use_awake(on: bool) {
    use_effect_with(on, |on| {
        let awake = on.then(Awake::ask);
        move || drop(awake)
    });
}

/// Calls `close` when Escape is pressed.
#[hook]
pub fn use_escape(close: Callback<()>) {
    let latest = use_mut_ref(|| close.clone());
    *latest.borrow_mut() = close;
    use_effect_with((), move |()| {
        let listening = keys::on_escape(move || {
            let close = latest.borrow().clone();
            close.emit(());
        });
        move || drop(listening)
    });
}

/// The page that a snippet is read from, with what the player wrote into it.
#[hook]
pub fn use_printed_page(desk: &DeskNow, id: SnippetId) -> Option<Rc<PrintedPage>> {
    let open = use_mut_ref(|| None::<(Rc<Snippet>, Rc<BTreeMap<usize, Marks>>, Option<Rc<Score>>, Rc<PrintedPage>)>);
    let state = desk.state();
    let record = state.snippet(id)?;
    let mut open = open.borrow_mut();
    let score = desk.score(record.piece).and_then(Known::read);
    let known = open.as_ref().filter(|(snippet, marks, of, _)| {
        let same_score = of.as_ref().map(Rc::as_ptr) == score.as_ref().map(Rc::as_ptr);
        Rc::ptr_eq(snippet, &record.snippet) && Rc::ptr_eq(marks, &record.marks) && same_score
    });
    if known.is_none() {
        let passage = record.snippet.passage();
        let mut page = PrintedPage::of(passage, score.as_deref());
        for (onset, marks) in record.marks.iter() {
            passage.onsets().get(*onset).into_iter().for_each(|onset| page.pencil_in(onset.at, marks));
        }
        *open = Some((Rc::clone(&record.snippet), Rc::clone(&record.marks), score, Rc::new(page)));
    }
    open.as_ref().map(|(.., page)| Rc::clone(page))
}

/// The plan of the minutes there are, made anew once a minute and whenever something is written down.
#[hook]
pub fn use_plan(desk: &DeskNow, now: Moment) -> Rc<Option<DayPlan>> {
    const MINUTE_MS: i64 = 60_000;
    let written = (desk.journal().count(), desk.journal().last());
    let desk = desk.clone();
    use_memo((written, now.unix_ms() / MINUTE_MS), move |_| DayPlan::at(&desk.state(), |id| desk.followed(id), now))
}

/// The size of an element in CSS px, measured whenever it changes; `None` before the first.
#[hook]
pub fn use_size(of: &NodeRef) -> Option<(f32, f32)> {
    let size = use_state_eq(|| None);
    let (set, of) = (size.setter(), of.clone());
    use_effect_with((), move |()| {
        let resizing = frame::Resizing::of(&of, move |size| set.set(Some(size)));
        move || drop(resizing)
    });
    *size
}
