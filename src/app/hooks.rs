//! What several screens ask of the page: the time going by, the coach of a snippet, the size of an
//! element.

use super::{
    desk::DeskNow,
    device::{clock, frame, keys},
    scores::Known,
};
use crate::{
    clock::Moment,
    journal::SnippetId,
    method::{Coach, Happening, Snippet},
    music::{Marks, Page, Score},
};
use gloo::timers::callback::Interval;
use std::{collections::BTreeMap, rc::Rc};
use web_sys::HtmlElement;
use yew::prelude::*;

/// The device's time, drawn anew every second and whenever the page comes back into view.
#[hook]
pub fn use_now() -> Moment {
    let now = use_state(clock::now);
    let set = now.setter();
    use_effect_with((), move |()| {
        let on_visible = set.clone();
        let ticking = Interval::new(1_000, move || set.set(clock::now()));
        let seen = keys::on_visible(move || on_visible.set(clock::now()));
        move || drop((ticking, seen))
    });
    // A state is as old as the last tick; what is drawn between ticks must not lag behind.
    clock::now().max(*now)
}

/// A coach who has followed part of a history.
struct Following {
    snippet: Rc<Snippet>,
    coach: Rc<Coach>,
    followed: Vec<Happening>,
}

/// The coach of a snippet, up to date with its history at the cost of what is new.
#[hook]
pub fn use_coach(desk: &DeskNow, id: SnippetId) -> Option<Rc<Coach>> {
    let following = use_mut_ref(|| None::<Following>);
    let state = desk.state();
    let record = state.snippet(id)?;
    let mut following = following.borrow_mut();
    let history = record.history();
    let goes_on = following.as_ref().is_some_and(|following| {
        Rc::ptr_eq(&following.snippet, &record.snippet) && history.starts_with(&following.followed)
    });
    if !goes_on {
        let snippet = Rc::clone(&record.snippet);
        *following = Some(Following { coach: Rc::new(Coach::new(Rc::clone(&snippet))), snippet, followed: Vec::new() });
    }
    let following = following.as_mut()?;
    for happening in &history[following.followed.len()..] {
        Rc::make_mut(&mut following.coach).follow(happening);
        following.followed.push(happening.clone());
    }
    Some(Rc::clone(&following.coach))
}

/// The page that a snippet is read from, with what the player wrote into it.
#[hook]
pub fn use_page(desk: &DeskNow, id: SnippetId) -> Option<Rc<Page>> {
    let open = use_mut_ref(|| None::<(Rc<Snippet>, Rc<BTreeMap<usize, Marks>>, Option<Rc<Score>>, Rc<Page>)>);
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
        let mut page = Page::of(passage, score.as_deref());
        for (onset, marks) in record.marks.iter() {
            passage.onsets().get(*onset).into_iter().for_each(|onset| page.pencil_in(onset.at, marks));
        }
        *open = Some((Rc::clone(&record.snippet), Rc::clone(&record.marks), score, Rc::new(page)));
    }
    open.as_ref().map(|(.., page)| Rc::clone(page))
}

/// The size of an element in CSS px, measured whenever it changes; `None` before the first.
#[hook]
pub fn use_size(of: &NodeRef) -> Option<(f32, f32)> {
    let size = use_state_eq(|| None);
    let (set, of) = (size.setter(), of.clone());
    use_effect_with((), move |()| {
        let element = of.cast::<HtmlElement>();
        let resizing = element.map(|element| {
            let measured = element.clone();
            set.set(Some(frame::size_of(&measured)));
            frame::Resizing::of(&element, move || set.set(Some(frame::size_of(&measured))))
        });
        move || drop(resizing)
    });
    *size
}
