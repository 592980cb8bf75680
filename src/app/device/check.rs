//! What this device can do, found by trying.

use crate::{
    app::device::{audio, local, window},
    words::{Count, say},
};
use wasm_bindgen::JsValue;

/// One thing tried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Check {
    pub name: &'static str,
    pub good: bool,
    /// What was found, as a sentence.
    pub found: String,
}

/// Everything that the program leans on.
pub async fn all() -> Vec<Check> {
    vec![click().await, storage(), awake(), offline()]
}

/// Seconds at which clicks are rendered: quarters, eighths and triplets at quarter = 120 and 72.
const CLICKS: [f64; 6] = [0.0, 0.25, 0.5, 2.0 / 3.0, 5.0 / 6.0, 1.0 + 5.0 / 6.0];

/// Renders clicks without a loudspeaker and looks where they begin.
async fn click() -> Check {
    let (good, found) = match audio::rendered_clicks(&CLICKS).await {
        Ok(rendered) => {
            let off = |(at, began): (&f64, &Option<u32>)| {
                began.map(|began| (f64::from(began) - (at * audio::RENDERED_RATE).round()).abs())
            };
            let worst = CLICKS.iter().zip(&rendered).map(off).try_fold(0.0_f64, |worst, off| Some(worst.max(off?)));
            match worst {
                Some(0.0) => (true, say::clicks_exact().to_string()),
                Some(samples) => (false, say::clicks_off(Count(samples as u64))),
                None => (false, say::click_lost().to_string()),
            }
        }
        Err(_) => (false, say::no_sound().to_string()),
    };
    Check { name: "click", good, found }
}

fn storage() -> Check {
    let good = local::write("check", "written").is_ok() && local::read("check").as_deref() == Some("written");
    let found = if good { say::can_store() } else { say::cannot_store() };
    Check { name: "storage", good, found: found.into() }
}

fn awake() -> Check {
    let good = js_sys::Reflect::has(&window().navigator(), &JsValue::from_str("wakeLock")).unwrap_or(false);
    let found = if good { say::stays_awake() } else { say::falls_asleep() };
    Check { name: "awake", good, found: found.into() }
}

fn offline() -> Check {
    let controlled = js_sys::Reflect::get(&window().navigator(), &JsValue::from_str("serviceWorker"))
        .and_then(|container| js_sys::Reflect::get(&container, &JsValue::from_str("controller")))
        .is_ok_and(|controller| controller.is_object());
    let found = if controlled { say::opens_offline() } else { say::not_yet_offline() };
    Check { name: "offline", good: controlled, found: found.into() }
}
