//! Waiting for the browser, but not for ever.

use gloo::timers::callback::Timeout;
use js_sys::{Function, Promise};
use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// The result of the work, if it is there within `ms` milliseconds. The work goes on; `late` is called with a result
/// that comes later.
pub async fn within<T: 'static>(
    ms: u32,
    work: impl Future<Output = T> + 'static,
    late: impl FnOnce(T) + 'static,
) -> Option<T> {
    let (in_time, given_up) = (Rc::new(RefCell::new(None)), Rc::new(Cell::new(false)));
    let (slot, is_late) = (Rc::clone(&in_time), Rc::clone(&given_up));
    let (ended, end) = signal();
    let timer = {
        let end = end.clone();
        Timeout::new(ms, move || sound(&end))
    };
    spawn_local(async move {
        let result = work.await;
        if is_late.get() {
            late(result);
        } else {
            slot.replace(Some(result));
            sound(&end);
        }
    });
    let _a_signal_is_never_refused = JsFuture::from(ended).await;
    drop(timer);
    let result = in_time.take();
    given_up.set(result.is_none());
    result
}

/// Ends when the page has done what waits: a frame, a tap.
pub async fn a_moment() {
    let (ended, end) = signal();
    let timer = Timeout::new(0, move || sound(&end));
    let _a_signal_is_never_refused = JsFuture::from(ended).await;
    drop(timer);
}

/// A promise and what fulfils it.
fn signal() -> (Promise, Option<Function>) {
    let mut end = None;
    let ended = Promise::new(&mut |fulfil, _| end = Some(fulfil));
    (ended, end)
}

fn sound(end: &Option<Function>) {
    let _a_signal_without_a_listener = end.as_ref().map(|end| end.call0(&JsValue::UNDEFINED));
}
