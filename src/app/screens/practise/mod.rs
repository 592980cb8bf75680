//! Practise: where the player lives. One snippet, in one of its faces: ready, being played, resting; or
//! the reasons behind the advice.

mod face;
mod judging;
mod other_step;
mod playing;
mod ready;
mod resting;
mod targets;
mod why;

use super::super::{
    components::absent::absent,
    desk::use_desk,
    device::location,
    hooks::{use_coach, use_now, use_page},
    route::Route,
    words,
};
use crate::journal::SnippetId;
use face::Face;
use std::rc::Rc;
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct PractiseProps {
    pub id: SnippetId,
}

#[component]
pub fn Practise(props: &PractiseProps) -> Html {
    let (desk, now) = (use_desk(), use_now());
    let coach = use_coach(&desk, props.id);
    let page = use_page(&desk, props.id);
    let (running, asking) = (use_state(|| false), use_state_eq(|| false));
    use_effect_with(*asking, |_| location::focus_heading());
    let state = desk.state();
    let (Some(record), Some(coach), Some(page)) = (state.snippet(props.id), coach, page) else {
        return absent(Route::Today, words::say::back_to_today());
    };
    let face = Face::of(record, &state.preferences.method, now, *running);
    let coach = match face {
        Face::Ready { goes_on: false, .. } => Rc::new(coach.once_begun(state.preferences.method, now)),
        _ => coach,
    };
    let (id, snippet, advice) = (props.id, record.snippet.clone(), coach.advice(now));
    let (run, ask) = (told(&running), told(&asking));
    if *asking {
        return why::why(&advice, &coach, &snippet, now, &ask);
    }
    match face {
        Face::Ready { goes_on, again } => {
            html! { <ready::Ready {id} {snippet} {page} {advice} {goes_on} {again} {run} {ask} /> }
        }
        Face::Playing { ends } => {
            html! { <playing::Playing {id} {snippet} {page} {coach} {advice} {now} {ends} {run} {ask} /> }
        }
        Face::Resting(rest) => html! { <resting::Resting {id} {advice} {now} {rest} {run} {ask} /> },
    }
}

/// A callback that sets the state.
fn told(state: &UseStateHandle<bool>) -> Callback<bool> {
    let set = state.setter();
    Callback::from(move |to| set.set(to))
}
