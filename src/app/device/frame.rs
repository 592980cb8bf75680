//! Animation frames and the few things that are drawn past the component tree because they move
//! with every frame.

use crate::app::{
    decimal::{decimal, px},
    device::window,
};
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Element, HtmlElement, ResizeObserver};
use yew::NodeRef;

/// The function that draws, which asks for the next frame by itself.
type Drawing = Rc<RefCell<Option<Closure<dyn FnMut()>>>>;

/// Calls a function before every repaint until it is dropped.
pub struct EveryFrame {
    stopped: Rc<RefCell<bool>>,
}

impl EveryFrame {
    /// Starts calling `draw`.
    pub fn new(mut draw: impl FnMut() + 'static) -> Self {
        let stopped = Rc::new(RefCell::new(false));
        let next: Drawing = Rc::default();
        let (own, until) = (next.clone(), stopped.clone());
        *next.borrow_mut() = Some(Closure::new(move || {
            if *until.borrow() {
                // The closure owns itself through `own`; dropping it here frees both.
                let ended = own.borrow_mut().take();
                gloo::timers::callback::Timeout::new(0, move || drop(ended)).forget();
                return;
            }
            draw();
            request(&own);
        }));
        request(&next);
        EveryFrame { stopped }
    }
}

impl Drop for EveryFrame {
    fn drop(&mut self) {
        *self.stopped.borrow_mut() = true;
    }
}

fn request(next: &Drawing) {
    if let Some(closure) = &*next.borrow() {
        let _no_frame_without_a_screen = window().request_animation_frame(closure.as_ref().unchecked_ref());
    }
}

/// Moves an HTML element by `x` of its parent's width (0..=1) and scales its height by `tall`.
pub fn place(element: &NodeRef, x: f64, tall: f64) {
    let Some(element) = element.cast::<HtmlElement>() else { return };
    let style = element.style();
    let _styles_are_always_writable = style.set_property("left", &format!("{}%", decimal(100.0 * x, 3)));
    let _styles_are_always_writable =
        style.set_property("transform", &format!("translateX(-50%) scaleY({})", decimal(tall, 3)));
}

/// Moves an SVG element to `x`, `y` in its drawing's px, or hides it.
pub fn place_in_drawing(element: &NodeRef, at: Option<(f64, f64)>) {
    let Some(element) = element.cast::<Element>() else { return };
    let (visibility, (x, y)) = at.map_or(("hidden", (0.0, 0.0)), |at| ("visible", at));
    let _attributes_are_always_writable = element.set_attribute("visibility", visibility);
    let _attributes_are_always_writable =
        element.set_attribute("transform", &format!("translate({} {})", px(x), px(y)));
}

/// Shows or hides a part of a drawing.
pub fn show(element: &NodeRef, visible: bool) {
    let Some(element) = element.cast::<Element>() else { return };
    let visibility = if visible { "visible" } else { "hidden" };
    let _attributes_are_always_writable = element.set_attribute("visibility", visibility);
}

/// Keeps an HTML element at least so many CSS px high.
pub fn hold_open(element: &NodeRef, height: f64) {
    let Some(element) = element.cast::<HtmlElement>() else { return };
    let _styles_are_always_writable = element.style().set_property("min-height", &format!("{}px", px(height)));
}

/// Width and height of the page in CSS px.
pub fn screen() -> (f32, f32) {
    let length = |value: Result<JsValue, JsValue>| value.ok().and_then(|value| value.as_f64()).unwrap_or(0.0) as f32;
    (length(window().inner_width()), length(window().inner_height()))
}

/// Whether the player asked the device for less motion.
pub fn prefers_stillness() -> bool {
    let query = window().match_media("(prefers-reduced-motion: reduce)").ok().flatten();
    query.is_some_and(|query| query.matches())
}

/// Tells the size of an element's content box in CSS px, at once and whenever it changes, until it is dropped.
pub struct Resizing {
    observer: Option<ResizeObserver>,
    _told: Closure<dyn FnMut()>,
}

impl Resizing {
    /// `None` where the element is not on the page.
    pub fn of(element: &NodeRef, told: impl Fn((f32, f32)) + 'static) -> Option<Resizing> {
        let element = element.cast::<HtmlElement>()?;
        told(size_of(&element));
        let measured = element.clone();
        let told = Closure::<dyn FnMut()>::new(move || told(size_of(&measured)));
        let observer = ResizeObserver::new(told.as_ref().unchecked_ref()).ok();
        observer.iter().for_each(|observer| observer.observe(&element));
        Some(Resizing { observer, _told: told })
    }
}

impl Drop for Resizing {
    fn drop(&mut self) {
        self.observer.iter().for_each(ResizeObserver::disconnect);
    }
}

/// Changes an element's text where it differs.
pub fn write(element: &NodeRef, text: &str) {
    let Some(element) = element.cast::<Element>() else { return };
    if element.text_content().as_deref() != Some(text) {
        element.set_text_content(Some(text));
    }
}

/// How far an element is scrolled down, in CSS px.
pub fn scrolled(element: &NodeRef) -> f32 {
    element.cast::<HtmlElement>().map_or(0.0, |element| element.scroll_top() as f32)
}

/// Scrolls an element down to `top`, in CSS px.
pub fn scroll_to(element: &NodeRef, top: i32) {
    element.cast::<HtmlElement>().into_iter().for_each(|element| element.set_scroll_top(top));
}

fn size_of(element: &HtmlElement) -> (f32, f32) {
    (element.client_width() as f32, element.client_height() as f32)
}
