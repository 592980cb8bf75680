//! The page: turns taps into entries and advice into pixels, and decides nothing.

mod device;

use device::offline;
use wasm_bindgen::prelude::wasm_bindgen;
use yew::prelude::*;

#[component]
fn Page() -> Html {
    let newer = use_state(|| false);
    {
        let newer = newer.setter();
        use_effect_with((), move |()| offline::register(Callback::from(move |()| newer.set(true))));
    }
    html! {
        <main>
            <h1>{ "Tailfirst" }</h1>
            if *newer {
                <button onclick={|_| offline::take_over()}>{ "Use the newer version" }</button>
            }
        </main>
    }
}

/// Called by the glue as soon as the program is loaded.
#[wasm_bindgen(start)]
pub fn start() {
    yew::Renderer::<Page>::new().render();
}
