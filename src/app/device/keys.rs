//! Keys, pedals (which act as keys) and the page coming into view.

use crate::app::device::window;
use gloo::events::{EventListener, EventListenerOptions};
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlElement, KeyboardEvent, VisibilityState};

/// Something is listened to while this lives.
pub struct Listening(EventListener);

impl Listening {
    /// Listens for as long as the page is there.
    pub fn for_ever(self) {
        self.0.forget();
    }
}

/// Calls `pressed` with the name of each key as it goes down; what it returns `true` for is done
/// with. Held keys do not repeat, and a key pressed in a text field is the field's.
pub fn on_key(pressed: impl Fn(&str) -> bool + 'static) -> Listening {
    let options = EventListenerOptions::enable_prevent_default();
    Listening(EventListener::new_with_options(&window(), "keydown", options, move |event| {
        let Some(key) = event.dyn_ref::<KeyboardEvent>() else { return };
        let chord = key.ctrl_key() || key.alt_key() || key.meta_key();
        if !key.repeat() && !chord && !typing(event) && pressed(&key.key()) {
            event.prevent_default();
        }
    }))
}

/// Calls `pressed` when Escape goes down. What stands in a text field then is taken in first.
pub fn on_escape(pressed: impl Fn() + 'static) -> Listening {
    Listening(EventListener::new(&window(), "keydown", move |event| {
        if event.dyn_ref::<KeyboardEvent>().is_some_and(|key| key.key() == "Escape") {
            field_of(event).into_iter().for_each(|field| _ = field.blur());
            pressed();
        }
    }))
}

fn typing(event: &Event) -> bool {
    field_of(event).is_some()
}

/// The field in which the key was pressed, where it was in one.
fn field_of(event: &Event) -> Option<HtmlElement> {
    let element = event.target().and_then(|target| target.dyn_into::<HtmlElement>().ok());
    element.filter(|element| matches!(element.tag_name().as_str(), "INPUT" | "SELECT" | "TEXTAREA"))
}

/// Calls `seen` whenever the page comes back into view.
pub fn on_visible(seen: impl Fn() + 'static) -> Listening {
    let document = window().document();
    let target = document.clone().map_or_else(|| window().into(), |document| document.unchecked_into());
    Listening(EventListener::new(&target, "visibilitychange", move |_| {
        if document.as_ref().is_none_or(|document| document.visibility_state() == VisibilityState::Visible) {
            seen();
        }
    }))
}
