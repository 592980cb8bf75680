//! The page: turns taps into entries and advice into pixels, and decides nothing.

pub mod device;

use wasm_bindgen::prelude::wasm_bindgen;
use yew::prelude::*;

#[component]
fn Page() -> Html {
    html! { <main><h1>{ "Tailfirst" }</h1></main> }
}

/// Called by the glue as soon as the program is loaded.
#[wasm_bindgen(start)]
pub fn start() {
    yew::Renderer::<Page>::new().render();
}
