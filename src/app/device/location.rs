//! The part of the address after `#`, which names the screen, and the look of the page as a whole.

use crate::app::device::window;
use gloo::events::EventListener;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// What stands after `#`.
pub fn hash() -> String {
    window().location().hash().unwrap_or_default().trim_start_matches('#').to_string()
}

/// Goes to another screen, so that the browser's back leads here again.
pub fn go(hash: &str) {
    let _a_hash_is_always_accepted = window().location().set_hash(hash);
}

/// Calls `changed` with what stands after `#` whenever it changes.
pub fn on_hash(changed: impl Fn(String) + 'static) -> EventListener {
    EventListener::new(&window(), "hashchange", move |_| changed(hash()))
}

/// Whether the page was opened because the program had broken down; `static/boot.js` opens it so.
pub fn has_stopped() -> bool {
    window().location().search().is_ok_and(|search| search == "?stopped")
}

/// Opens the page again as if for the first time.
pub fn start_again() {
    if let Err(error) = window().location().replace("./") {
        web_sys::console::warn_1(&error);
    }
}

/// Names the theme on the document's root, where the style sheet looks for it.
pub fn set_theme(name: &str) {
    let root = window().document().and_then(|document| document.document_element());
    if let Some(root) = root {
        let _attributes_are_always_writable = root.set_attribute("data-theme", name);
    }
}

/// Names the screen in the window's title.
pub fn set_title(title: &str) {
    if let Some(document) = window().document() {
        document.set_title(title);
    }
}

/// Moves the focus to the heading if the focused element is gone.
pub fn keep_focus() {
    let focused = window().document().and_then(|document| document.active_element());
    if focused.is_none_or(|element| element.tag_name() == "BODY") {
        focus_heading();
    }
}

/// Moves the focus to the screen's heading, so that a screen reader says which screen it is.
pub fn focus_heading() {
    let heading = window().document().and_then(|document| document.query_selector("h1").ok().flatten());
    if let Some(heading) = heading.and_then(|heading| heading.dyn_into::<HtmlElement>().ok()) {
        let _focus_is_a_courtesy = heading.focus();
    }
}
