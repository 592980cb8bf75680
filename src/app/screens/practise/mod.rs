//! Practise: where the player lives. One snippet, in one of its states: ready, being played, resting; or the reasons
//! behind the advice.

mod judging;
mod other_step;
mod playing;
mod ready;
mod resting;
mod targets;
mod why;

use crate::{
    agenda::Shown,
    app::{
        components::absent::absent,
        desk::use_desk,
        device::location,
        hooks::{use_awake, use_escape, use_now, use_printed_page},
        route::Route,
        words,
    },
    journal::SnippetId,
};
use std::{mem::discriminant, rc::Rc};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct PractiseProps {
    pub id: SnippetId,
}

#[component]
pub fn Practise(props: &PractiseProps) -> Html {
    let (desk, now) = (use_desk(), use_now());
    let coach = desk.coach(props.id);
    let page = use_printed_page(&desk, props.id);
    let (running, asking) = (use_state(|| false), use_state_eq(|| false));
    let state = desk.state();
    let record = state.snippet(props.id);
    let shown = record.map(|record| Shown::of(record, &state.preferences.method, now, *running));
    use_effect_with((*asking, shown.as_ref().map(discriminant)), |_| location::keep_focus());
    use_escape(told(&asking).reform(|()| false));
    use_awake(shown.is_some_and(Shown::keeps_awake));
    let (Some(record), Some(shown), Some(coach), Some(page)) = (record, shown, coach, page) else {
        return absent(Route::Today, words::say::back_to_today());
    };
    let coach = match shown {
        Shown::Ready { .. } => Rc::new(coach.once_begun(state.preferences.method, now)),
        _ => coach,
    };
    let (id, snippet, advice) = (props.id, record.snippet.clone(), coach.advice(now));
    let (run, ask) = (told(&running), told(&asking));
    if *asking {
        return why::why(&why::Question { advice: &advice, coach: &coach, record, page: &page }, now, &ask);
    }
    match shown {
        Shown::Ready { again } => {
            html! { <ready::Ready {id} {snippet} {page} {advice} {again} {run} {ask} /> }
        }
        Shown::Paused { ends } => {
            let left_ms = Some(ends.ms_since(now));
            html! { <ready::Ready {id} {snippet} {page} {advice} {left_ms} again=true {run} {ask} /> }
        }
        Shown::Playing { ends } => {
            html! { <playing::Playing {id} {snippet} {page} {coach} {advice} {now} {ends} {run} {ask} /> }
        }
        Shown::Resting(rest) => html! { <resting::Resting {id} {advice} {now} {rest} {run} {ask} /> },
    }
}

/// A callback that sets the state.
fn told(state: &UseStateHandle<bool>) -> Callback<bool> {
    let set = state.setter();
    Callback::from(move |to| set.set(to))
}
