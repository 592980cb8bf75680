//! Keeping the screen awake, where the platform allows it.

use crate::app::device::window;
use js_sys::Promise;
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen::{JsCast, JsValue, prelude::wasm_bindgen};
use wasm_bindgen_futures::{JsFuture, spawn_local};

#[wasm_bindgen]
extern "C" {
    /// The Screen Wake Lock API (W3C), which the bindings treat as unstable.
    type WakeLock;
    #[wasm_bindgen(method)]
    fn request(this: &WakeLock, kind: &str) -> Promise;

    type WakeLockSentinel;
    #[wasm_bindgen(method)]
    fn release(this: &WakeLockSentinel) -> Promise;
}

/// The screen stays awake while this lives. The browser lets go of it whenever the page is hidden,
/// so it is asked for again when the page is seen again.
pub struct Awake {
    held: Rc<RefCell<Option<WakeLockSentinel>>>,
    _seen: crate::app::device::keys::Listening,
}

impl Awake {
    /// Asks for the screen to stay awake; a platform that cannot simply does not.
    pub fn ask() -> Self {
        let held = Rc::default();
        request(&held);
        let again = Rc::clone(&held);
        let seen = crate::app::device::keys::on_visible(move || request(&again));
        Awake { held, _seen: seen }
    }
}

impl Drop for Awake {
    fn drop(&mut self) {
        if let Some(sentinel) = self.held.borrow_mut().take() {
            let _released_or_gone_already = sentinel.release();
        }
    }
}

fn request(held: &Rc<RefCell<Option<WakeLockSentinel>>>) {
    let offered = js_sys::Reflect::get(&window().navigator(), &JsValue::from_str("wakeLock"));
    let Some(offered) = offered.ok().filter(JsValue::is_object) else { return };
    let asked = offered.unchecked_into::<WakeLock>().request("screen");
    let held = Rc::downgrade(held);
    spawn_local(async move {
        let granted = JsFuture::from(asked).await;
        if let (Ok(sentinel), Some(held)) = (granted, held.upgrade()) {
            *held.borrow_mut() = Some(sentinel.unchecked_into());
        }
    });
}
