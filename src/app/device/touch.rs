//! The guard over every touch of the page: what [`Touches`] says may not act never reaches a screen.

use crate::{
    app::device::{clock::steady_seconds, window},
    touches::{Pointer, PointerKind, Touches},
};
use gloo::events::{EventListener, EventListenerOptions, EventListenerPhase};
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, KeyboardEvent, MouseEvent, PointerEvent};

/// What can be tapped. A label is one control with its field: the browser clicks both in one touch.
const CONTROLS: &str = "button, a, summary, input, select, textarea, [role=button]";

thread_local! {
    static TOUCHES: Rc<RefCell<Touches<Element>>> = Rc::default();
}

/// Guards the page for as long as it is there.
///
/// A control that acts on pointer down prevents the event's default; that is how the guard knows.
pub fn guard() {
    listen("pointerdown", EventListenerPhase::Capture, |event: &PointerEvent, touches| {
        let spot = (f64::from(event.client_x()), f64::from(event.client_y()));
        touches.goes_down(pointer(event), control(event), spot, now());
    });
    listen("pointerdown", EventListenerPhase::Bubble, |event: &PointerEvent, touches| {
        if event.default_prevented() {
            touches.acts(event.pointer_id(), now());
        }
    });
    for over in ["pointerup", "pointercancel"] {
        listen(over, EventListenerPhase::Capture, |event: &PointerEvent, touches| touches.comes_up(event.pointer_id()));
    }
    listen("click", EventListenerPhase::Capture, |event: &MouseEvent, touches| {
        // A click without a pointer comes from a keyboard or a screen reader.
        let id = event.dyn_ref::<PointerEvent>().map(PointerEvent::pointer_id);
        if event.detail() != 0 && !touches.may_click(id, control(event), now()) {
            swallow(event);
        }
    });
    listen("keydown", EventListenerPhase::Capture, |event: &KeyboardEvent, _| {
        if event.repeat() && event.key() == "Enter" && control(event).is_some_and(|on| on.tag_name() != "TEXTAREA") {
            swallow(event);
        }
    });
}

/// Whether what goes down with this event may act at once: not while another finger is still on what it
/// tapped.
pub fn may_act(event: &PointerEvent) -> bool {
    TOUCHES.with(|touches| touches.borrow().may_act(event.pointer_id()))
}

fn listen<E: JsCast + 'static>(event: &'static str, phase: EventListenerPhase, heard: fn(&E, &mut Touches<Element>)) {
    let touches = TOUCHES.with(Rc::clone);
    let options = EventListenerOptions { phase, passive: false };
    let listener = EventListener::new_with_options(&window(), event, options, move |event| {
        event.dyn_ref::<E>().into_iter().for_each(|event| heard(event, &mut touches.borrow_mut()));
    });
    listener.forget();
}

fn swallow(event: &Event) {
    event.stop_immediate_propagation();
    event.prevent_default();
}

fn pointer(event: &PointerEvent) -> Pointer {
    let kind = match event.pointer_type().as_str() {
        "touch" => PointerKind::Touch,
        "pen" => PointerKind::Pen,
        _ => PointerKind::Mouse,
    };
    Pointer { id: event.pointer_id(), kind, primary: event.is_primary() }
}

fn control(event: &Event) -> Option<Element> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    ["label", CONTROLS].into_iter().find_map(|which| target.closest(which).ok().flatten())
}

fn now() -> f64 {
    1000.0 * steady_seconds()
}
