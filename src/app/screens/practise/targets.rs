//! The two targets, as large as the screen allows, and the row of causes.

use super::super::super::words;
use crate::method::{Cause, Verdict};
use yew::prelude::*;

/// *Not yet* on the left, outlined; *Clean* on the right, filled. A target answers to the finger
/// going down: a knuckle that slides off still counts.
pub fn targets(judged: &Callback<Verdict>) -> Html {
    let target = |verdict: Verdict, class: &'static str| {
        let (down, key) = (judged.clone(), judged.clone());
        let onpointerdown = Callback::from(move |event: PointerEvent| {
            event.prevent_default();
            down.emit(verdict);
        });
        // A click without a pointer comes from a keyboard or a screen reader.
        let onclick = Callback::from(move |event: MouseEvent| {
            if event.detail() == 0 {
                key.emit(verdict);
            }
        });
        html! { <button {class} {onpointerdown} {onclick}>{ words::verdict(verdict) }</button> }
    };
    html! {
        <div class="targets">
            { target(Verdict::NotYet, "target not-yet") }
            { target(Verdict::Clean, "target clean") }
        </div>
    }
}

/// The causes, of which one may be `named` already; they may be tapped or ignored.
pub fn causes(named: Option<Cause>, name: &Callback<Cause>) -> Html {
    let button = |cause: Cause| {
        let onclick = name.reform(move |_: MouseEvent| cause);
        let pressed = (named == Some(cause)).to_string();
        html! { <button class="cause" aria-pressed={pressed} {onclick}>{ words::cause(cause) }</button> }
    };
    html! {
        <div class="causes" role="group" aria-label="What was not yet right?">
            { for Cause::ALL.into_iter().map(button) }
        </div>
    }
}
