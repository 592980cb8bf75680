//! What this device can do, tried out rather than asked.

use super::{audio, local, window};
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
                Some(0.0) => (true, "every click falls on its exact sample.".to_string()),
                Some(samples) => (false, format!("clicks are up to {} samples off.", samples as i64)),
                None => (false, "a click was lost.".to_string()),
            }
        }
        Err(_) => (false, "the browser renders no sound; the pulse can still be seen.".to_string()),
    };
    Check { name: "click", good, found }
}

fn storage() -> Check {
    let good = local::write("check", "written").is_ok() && local::read("check").as_deref() == Some("written");
    let found = if good { "what is written can be read back." } else { "nothing can be stored for this page." };
    Check { name: "storage", good, found: found.into() }
}

fn awake() -> Check {
    let good = js_sys::Reflect::has(&window().navigator(), &JsValue::from_str("wakeLock")).unwrap_or(false);
    let found = if good {
        "the screen can be kept awake during a block."
    } else {
        "the screen cannot be kept awake; lengthen the device's own time-out."
    };
    Check { name: "awake", good, found: found.into() }
}

fn offline() -> Check {
    let controlled = js_sys::Reflect::get(&window().navigator(), &JsValue::from_str("serviceWorker"))
        .and_then(|container| js_sys::Reflect::get(&container, &JsValue::from_str("controller")))
        .is_ok_and(|controller| controller.is_object());
    let found = if controlled {
        "the page opens without a network."
    } else {
        "the page is not yet kept for use without a network; open it once more over HTTPS."
    };
    Check { name: "offline", good: controlled, found: found.into() }
}
