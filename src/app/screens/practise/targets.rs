//! The two targets, as large as the screen allows, and the row of causes.

use crate::{
    app::{device::touch, words},
    method::{Cause, Verdict},
};
use yew::prelude::*;

/// A verdict as it was given: on a target, at a spot in its px where a finger gave it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knock {
    pub verdict: Verdict,
    pub spot: Option<(i32, i32)>,
}

/// *Not yet* on the left, outlined; *Clean* on the right, filled. A target answers to the finger
/// going down: a knuckle that slides off still counts. The one that was `taken` just now is marked where
/// it was knocked.
pub fn targets(judged: &Callback<Knock>, taken: Option<Knock>) -> Html {
    let target = |verdict: Verdict, class: &'static str| {
        let (down, key) = (judged.clone(), judged.clone());
        let onpointerdown = Callback::from(move |event: PointerEvent| {
            event.prevent_default();
            if touch::may_act(&event) {
                down.emit(Knock { verdict, spot: Some((event.offset_x(), event.offset_y())) });
            }
        });
        // A click without a pointer comes from a keyboard or a screen reader.
        let onclick = Callback::from(move |event: MouseEvent| {
            if event.detail() == 0 {
                key.emit(Knock { verdict, spot: None });
            }
        });
        let mark = taken.filter(|taken| taken.verdict == verdict).map(mark);
        html! { <button {class} {onpointerdown} {onclick}>{ words::verdict(verdict) }{ for mark }</button> }
    };
    html! {
        <div class="targets">
            { target(Verdict::NotYet, "target not-yet") }
            { target(Verdict::Clean, "target clean") }
        </div>
    }
}

/// A still ring where the knock was taken; in the middle where it came from a key.
fn mark(taken: Knock) -> Html {
    let (x, y) = taken.spot.map_or(("50%".into(), "50%".into()), |(x, y)| (x.to_string(), y.to_string()));
    html! { <svg class="taken" aria-hidden="true"><circle cx={x} cy={y} r="44" /></svg> }
}

/// The causes, of which one may be `named` already; they may be tapped or ignored.
pub fn causes(named: Option<Cause>, name: &Callback<Cause>) -> Html {
    let button = |cause: Cause| {
        let onclick = name.reform(move |_: MouseEvent| cause);
        let pressed = (named == Some(cause)).to_string();
        html! { <button class="cause" aria-pressed={pressed} {onclick}>{ words::cause(cause) }</button> }
    };
    html! {
        <div class="causes" role="group" aria-label={words::say::what_was_not_right()}>
            { for Cause::ALL.into_iter().map(button) }
        </div>
    }
}
