//! The player's own choice of another step, one tap each; it opens over the coach's line.

use super::super::super::{desk::DeskNow, words};
use crate::{
    journal::{Event, SnippetId},
    method::{Snippet, Step, overrule},
};
use yew::prelude::*;

/// Overruling the coach, and learning it again from its first step.
pub fn other_step(desk: &DeskNow, id: SnippetId, snippet: &Snippet, step: Step, close: &Callback<()>) -> Html {
    let choices = [
        ("Longer", overrule::longer(snippet, step)),
        ("Shorter", overrule::shorter(snippet, step)),
        ("Other hand", overrule::other_hand(snippet, step)),
        ("Slower", overrule::slower(step)),
        ("Faster", overrule::faster(step)),
    ];
    let choice = |(word, chosen): (&'static str, Option<Step>)| {
        let choose = chosen.map(|step| desk.on_tap(Event::Overruled { snippet: id, step }));
        html! { <button onclick={choose} disabled={chosen.is_none()}>{ word }</button> }
    };
    let afresh = {
        let (desk, close) = (desk.clone(), close.clone());
        Callback::from(move |_: MouseEvent| {
            desk.record(Event::StartedAfresh { snippet: id });
            close.emit(());
        })
    };
    html! {
        <section class="panel other-step" aria-label="Another step">
            { for choices.into_iter().map(choice) }
            <p class="afresh">
                <button onclick={afresh}>{ "Start afresh" }</button>
                <span>{ words::say::afresh_keeps_history() }</span>
            </p>
            <button onclick={close.reform(|_| ())}>{ "Close" }</button>
        </section>
    }
}
