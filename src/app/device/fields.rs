//! The fields of the screen as the player left them.

use crate::app::device::window;
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlElement, HtmlInputElement, HtmlSelectElement};

/// Moves the focus to the first field that says what is wrong with it; whether there is one.
pub fn to_first_wrong() -> bool {
    let document = window().document();
    let wrong = document.and_then(|document| document.query_selector("main [aria-invalid=true]").ok().flatten());
    let wrong = wrong.and_then(|field| field.dyn_into::<HtmlElement>().ok());
    wrong.iter().for_each(|field| {
        let _focus_is_a_courtesy = field.focus();
    });
    wrong.is_some()
}

/// Brings the first element that matches to the top of the window and moves the focus to it.
pub fn turn_to(selector: &str) {
    let found = window().document().and_then(|document| document.query_selector(selector).ok().flatten());
    if let Some(found) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
        found.scroll_into_view();
        let _focus_is_a_courtesy = found.focus();
    }
}

/// What stands in the input field that `event` came from.
pub fn typed(event: &Event) -> String {
    let field = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
    field.map(|field| field.value()).unwrap_or_default()
}

/// Index of what is chosen in the list that `event` came from.
pub fn chosen(event: &Event) -> usize {
    let list = event.target().and_then(|target| target.dyn_into::<HtmlSelectElement>().ok());
    list.map_or(0, |list| usize::try_from(list.selected_index()).unwrap_or(0))
}
