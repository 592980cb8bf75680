//! A screen whose piece or snippet is not on this device.

use super::super::route::Route;
use yew::prelude::*;

/// Says that `what` is not here, and leads on.
pub fn absent(what: &str, on: Route, word: &str) -> Html {
    html! {
        <main class="page">
            <h1 tabindex="-1">{ format!("This {what} is not here") }</h1>
            <p>{ "It was removed, or it has not been imported to this device yet." }</p>
            <button class="primary" onclick={on.on_tap()}>{ word }</button>
        </main>
    }
}
