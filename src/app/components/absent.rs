//! A screen whose piece or snippet is not on this device.

use crate::{app::route::Route, words::say};
use yew::prelude::*;

/// Says so, and leads on.
pub fn absent(on: Route, word: &'static str) -> Html {
    html! {
        <main class="page">
            <h1 tabindex="-1">{ say::not_here() }</h1>
            <p>{ say::why_not_here() }</p>
            <button class="primary" onclick={on.on_tap()}>{ word }</button>
        </main>
    }
}
