//! Practise: where the player lives. One snippet, in one of its four faces: ready, being played,
//! resting, done for today.

mod face;
mod panels;
mod playing;
mod ready;
mod resting;
mod targets;

use super::super::{
    components::absent::absent,
    desk::use_desk,
    hooks::{use_coach, use_now, use_page},
    route::Route,
};
use crate::{
    clock::Moment,
    journal::SnippetId,
    method::{Advice, Coach, Happening, Settings, What},
};
use face::Face;
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
    let running = use_state(|| false);
    let state = desk.state();
    let (Some(record), Some(coach), Some(page)) = (state.snippet(props.id), coach, page) else {
        return absent("snippet", Route::Today, "Back to today");
    };
    let advice = coach.advice(now);
    let face = Face::of(record, &state.preferences.method, now, *running);
    let snippet = record.snippet.clone();
    let run = {
        let running = running.setter();
        Callback::from(move |run| running.set(run))
    };
    match face {
        Face::Ready { goes_on } => {
            let advice = if goes_on { advice } else { once_begun(&coach, state.preferences.method, now) };
            html! { <ready::Ready id={props.id} {snippet} {page} {advice} {goes_on} {run} /> }
        }
        Face::Playing { ends } => {
            html! { <playing::Playing id={props.id} {snippet} {page} {coach} {advice} {now} {ends} {run} /> }
        }
        Face::Resting { until } => html! { <resting::Resting id={props.id} {advice} {now} {until} {run} /> },
    }
}

/// What the coach will advise as the block begins, so that the player sees it coming.
fn once_begun(coach: &Coach, settings: Settings, at: Moment) -> Advice {
    let mut coach = coach.clone();
    coach.follow(&Happening { at, what: What::BlockBegan(settings) });
    coach.advice(at)
}
