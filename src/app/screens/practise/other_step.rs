//! The player's own choice of another step, one tap each; it opens over the coach's line.

use crate::{
    app::desk::DeskNow,
    journal::{EntryKind, SnippetId},
    method::{Snippet, Step, overrule},
    words::say,
};
use yew::prelude::*;

/// Overruling the coach, and learning it again from its first step.
pub fn other_step(desk: &DeskNow, id: SnippetId, snippet: &Snippet, step: Step, close: &Callback<()>) -> Html {
    let choices = [
        (say::longer(), overrule::longer(snippet, step)),
        (say::shorter(), overrule::shorter(snippet, step)),
        (say::other_hand(), overrule::other_hand(snippet, step)),
        (say::slower(), overrule::slower(step)),
        (say::faster(), overrule::faster(step)),
    ];
    let choice = |(word, chosen): (&'static str, Option<Step>)| {
        let choose = chosen.map(|step| desk.on_tap(EntryKind::Overruled { snippet: id, step }));
        html! { <button onclick={choose} disabled={chosen.is_none()}>{ word }</button> }
    };
    let afresh = {
        let (desk, close) = (desk.clone(), close.clone());
        Callback::from(move |_: MouseEvent| {
            desk.record(EntryKind::StartedAfresh { snippet: id });
            close.emit(());
        })
    };
    html! {
        <section class="panel other-step" aria-label={say::another_step()}>
            { for choices.into_iter().map(choice) }
            <p class="afresh">
                <button onclick={afresh}>{ say::start_afresh() }</button>
                <span>{ say::afresh_keeps_history() }</span>
            </p>
            <button onclick={close.reform(|_| ())}>{ say::close() }</button>
        </section>
    }
}
