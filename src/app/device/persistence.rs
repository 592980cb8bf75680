//! Whether the browser promises to keep what the page has stored.

use crate::{app::device::window, journal::keeping::Outlook};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;

/// What the browser says now.
pub async fn kept() -> Outlook {
    answer(manager().and_then(|manager| manager.persisted().ok())).await
}

/// Asks the browser to keep it; some ask the player.
pub async fn ask() -> Outlook {
    answer(manager().and_then(|manager| manager.persist().ok())).await
}

fn manager() -> Option<StorageManager> {
    let manager = navigator_has("storage");
    manager.is_object().then(|| manager.unchecked_into())
}

async fn answer<T: JsCast + AsRef<JsValue>>(asked: Option<T>) -> Outlook {
    let persisted = match asked {
        Some(asked) => {
            let promise: js_sys::Promise = asked.as_ref().clone().unchecked_into();
            JsFuture::from(promise).await.ok().and_then(|answer| answer.as_bool())
        }
        None => None,
    };
    let vendor = navigator_has("vendor").as_string().unwrap_or_default();
    Outlook::of(persisted, &vendor, is_on_home_screen())
}

/// Whether the page was opened from the home screen; on iOS only `navigator.standalone` tells.
fn is_on_home_screen() -> bool {
    let query = window().match_media("(display-mode: standalone)").ok().flatten();
    navigator_has("standalone").is_truthy() || query.is_some_and(|query| query.matches())
}

/// What not every browser has.
fn navigator_has(name: &str) -> JsValue {
    js_sys::Reflect::get(&window().navigator(), &JsValue::from_str(name)).unwrap_or_default()
}
