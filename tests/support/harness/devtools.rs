//! What WebDriver itself cannot do, over the Chrome DevTools Protocol.

use super::chromium::Chromium;
use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::{Value, json};
use std::time::{SystemTime, UNIX_EPOCH};
use url::{ParseError, Url};

/// A screen that is touched.
#[derive(Clone, Copy)]
pub struct Viewport {
    pub name: &'static str,
    /// In CSS pixels.
    pub width: u32,
    pub height: u32,
    /// Device pixels in a CSS pixel.
    pub scale: u32,
    /// How large text is wanted, in percent of the usual.
    pub text: u32,
}

impl Viewport {
    pub const LANDSCAPE: Viewport = Viewport { name: "landscape", width: 1180, height: 820, scale: 2, text: 100 };
    /// A smaller tablet under the browser's own bars.
    pub const LOW: Viewport = Viewport { name: "low", width: 1024, height: 690, scale: 2, text: 100 };
    pub const PORTRAIT: Viewport = Viewport { name: "portrait", width: 820, height: 1180, scale: 2, text: 100 };
    pub const PHONE: Viewport = Viewport { name: "phone", width: 390, height: 844, scale: 3, text: 100 };
    pub const SIDEWAYS: Viewport = Viewport { name: "sideways", width: 844, height: 390, scale: 3, text: 100 };
    /// Text made twice as large in the browser's settings.
    pub const LARGE_TEXT: Viewport = Viewport { name: "large-text", text: 200, ..Viewport::LANDSCAPE };
    pub const LARGE_TEXT_PHONE: Viewport = Viewport { name: "large-text-phone", text: 200, ..Viewport::PHONE };
    /// The whole page made twice as large.
    pub const ZOOMED: Viewport = Viewport { name: "zoomed", width: 590, height: 410, scale: 4, text: 100 };
    pub const ALL: [Viewport; 8] = [
        Viewport::LANDSCAPE,
        Viewport::LOW,
        Viewport::PORTRAIT,
        Viewport::PHONE,
        Viewport::SIDEWAYS,
        Viewport::LARGE_TEXT,
        Viewport::LARGE_TEXT_PHONE,
        Viewport::ZOOMED,
    ];

    /// Whether it lies on the music stand and is read from there; what is narrower is held nearer.
    pub fn is_tablet(self) -> bool {
        self.width.min(self.height) >= 500
    }
}

impl Chromium {
    /// Makes the window this screen exactly, with touch.
    pub async fn set_viewport(&self, viewport: Viewport) {
        let Viewport { width, height, scale, text, .. } = viewport;
        let sizes = json!({ "fontSizes": { "standard": 16 * text / 100, "fixed": 13 * text / 100 } });
        self.devtools("Page.setFontSizes", sizes).await;
        let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": scale, "mobile": true });
        self.devtools("Emulation.setDeviceMetricsOverride", metrics).await;
        self.devtools("Emulation.setTouchEmulationEnabled", json!({ "enabled": true, "maxTouchPoints": 5 })).await;
    }

    /// The theme the player's system asks for: `light` or `dark`.
    pub async fn set_color_scheme(&self, scheme: &str) {
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.devtools("Emulation.setEmulatedMedia", json!({ "features": features })).await;
    }

    /// Makes the page's processor `times` slower.
    pub async fn slow_down(&self, times: f64) {
        self.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": times })).await;
    }

    /// From the next page load on, `window.thereAt` is the time in milliseconds since the navigation began at which an
    /// element that matches was about to be painted.
    pub async fn note_when_there(&self, selector: &str) {
        let source = format!(
            "new MutationObserver((_, observer) => {{
                if (!document.querySelector({})) return;
                observer.disconnect();
                requestAnimationFrame(() => {{ window.thereAt = performance.now(); }});
            }}).observe(document, {{ childList: true, subtree: true }})",
            json!(selector)
        );
        self.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source })).await;
    }

    /// How long the page's main thread has been busy so far, in milliseconds.
    pub async fn busy_milliseconds(&self) -> f64 {
        self.devtools("Performance.enable", json!({})).await;
        let answer = self.devtools("Performance.getMetrics", json!({})).await;
        let metrics = answer["metrics"].as_array().expect("metrics");
        let busy = metrics.iter().find(|metric| metric["name"] == "TaskDuration").expect("the time in tasks");
        1e3 * busy["value"].as_f64().expect("seconds")
    }

    /// From the next page load on, the page's clock shows `unix_ms` (since 1970) now and goes on from there.
    pub async fn set_clock(&mut self, unix_ms: i64) {
        let now = SystemTime::now().duration_since(UNIX_EPOCH).expect("a clock after 1970").as_millis() as i64;
        let script = format!(
            "{{
                const Real = Date, offset = {};
                globalThis.Date = class Date extends Real {{
                    constructor(...given) {{ given.length ? super(...given) : super(Real.now() + offset); }}
                    static now() {{ return Real.now() + offset; }}
                }};
            }}",
            unix_ms - now
        );
        if let Some(identifier) = self.clock_script.take() {
            self.devtools("Page.removeScriptToEvaluateOnNewDocument", json!({ "identifier": identifier })).await;
        }
        let added = self.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await;
        self.clock_script = added["identifier"].as_str().map(str::to_owned);
    }

    /// Runs a script in every page from now on, before the page's own.
    pub async fn run_before_pages(&self, script: &str) {
        self.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await;
    }

    /// Where files that the page hands out are put from now on.
    pub async fn download_to(&self, folder: &std::path::Path) {
        let parameters = json!({ "behavior": "allow", "downloadPath": folder });
        self.devtools("Browser.setDownloadBehavior", parameters).await;
    }

    pub(super) async fn devtools(&self, command: &str, parameters: Value) -> Value {
        let body = json!({ "cmd": command, "params": parameters });
        let message = Message { path: "goog/cdp/execute", body };
        self.client.issue_cmd(message).await.unwrap_or_else(|error| panic!("{command}: {error}"))
    }
}

/// A command of the driver's own beside the standard ones.
#[derive(Debug)]
pub struct Message {
    pub path: &'static str,
    pub body: Value,
}

impl WebDriverCompatibleCommand for Message {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(self.body.to_string()))
    }
}
