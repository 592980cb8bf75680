//! Whether the browser promises to keep what the page has stored.

use crate::app::device::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;

/// What the browser says about keeping.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Persistence {
    /// Kept until the player deletes it.
    Promised,
    /// May be cleared when the device is short of room or the page is long unused.
    NotPromised,
    /// The browser does not say.
    Unknown,
}

/// What the browser says now.
pub async fn kept() -> Persistence {
    answer(manager().and_then(|manager| manager.persisted().ok())).await
}

/// Asks the browser to keep it; some ask the player.
pub async fn ask() -> Persistence {
    answer(manager().and_then(|manager| manager.persist().ok())).await
}

fn manager() -> Option<StorageManager> {
    let navigator = window().navigator();
    let manager = js_sys::Reflect::get(&navigator, &JsValue::from_str("storage")).ok()?;
    manager.is_object().then(|| manager.unchecked_into())
}

async fn answer<T: JsCast + AsRef<JsValue>>(asked: Option<T>) -> Persistence {
    let Some(asked) = asked else { return Persistence::Unknown };
    let promise: js_sys::Promise = asked.as_ref().clone().unchecked_into();
    match JsFuture::from(promise).await.ok().and_then(|answer| answer.as_bool()) {
        Some(true) => Persistence::Promised,
        Some(false) => Persistence::NotPromised,
        None => Persistence::Unknown,
    }
}
