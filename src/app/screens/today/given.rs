//! How long the player has, said with one tap.

use crate::{
    agenda::plan::minutes_until,
    app::{components::field::text_field, desk::use_desk},
    clock::Moment,
    journal::EntryKind,
    words::say,
};
use yew::prelude::*;

/// What can be said with one tap, in minutes.
const OFFERED: [u16; 4] = [10, 20, 40, 60];

#[derive(PartialEq, Properties)]
pub struct GivenProps {
    pub now: Moment,
    /// The minutes that were said last, while they run.
    pub given: Option<u16>,
}

#[component]
pub fn Given(props: &GivenProps) -> Html {
    let desk = use_desk();
    let wrong = use_state_eq(|| false);
    let button = |minutes: u16| {
        let onclick = desk.on_tap(EntryKind::TimeGiven { minutes });
        let pressed = (props.given == Some(minutes)).to_string();
        html! {
            <button {onclick} aria-pressed={pressed} aria-label={say::minutes(u32::from(minutes).into())}>{ minutes }</button>
        }
    };
    let until = {
        let (desk, wrong) = (desk.clone(), wrong.setter());
        Callback::from(move |typed: String| {
            let minutes = minutes_until(&typed, desk.now());
            wrong.set(minutes.is_none());
            minutes.into_iter().for_each(|minutes| _ = desk.record(EntryKind::TimeGiven { minutes }));
        })
    };
    let told = wrong.then(say::give_a_later_time);
    html! {
        <section class="given" aria-label={say::how_many_minutes()}>
            <p>{ say::how_many_minutes() }</p>
            <p class="ways">{ for OFFERED.map(button) }</p>
            { text_field(say::or_until(), "time", String::new(), &until, told) }
        </section>
    }
}
