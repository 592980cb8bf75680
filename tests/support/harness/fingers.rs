//! Fingers on the glass, a mouse and keys, as the device itself would report them: pressed, held, released.

use super::chromium::Chromium;
use serde_json::json;
use std::{path::Path, time::Duration};

/// A point of the window in CSS pixels.
pub type Spot = (f64, f64);

impl Chromium {
    /// What lies on the glass now: fingers that were not there go down, those that are missing come up.
    pub async fn fingers(&self, before: &[Spot], now: &[Spot]) {
        let points: Vec<_> = now.iter().enumerate().map(|(id, (x, y))| json!({ "x": x, "y": y, "id": id })).collect();
        let kind = if now.len() > before.len() { "touchStart" } else { "touchEnd" };
        self.devtools("Input.dispatchTouchEvent", json!({ "type": kind, "touchPoints": points })).await;
    }

    /// One finger goes down, stays for a while and comes up.
    pub async fn touch(&self, spot: Spot, hold: Duration) {
        self.fingers(&[], &[spot]).await;
        tokio::time::sleep(hold).await;
        self.fingers(&[spot], &[]).await;
    }

    /// The mouse's button goes down at a spot, or comes up there.
    pub async fn mouse(&self, down: bool, (x, y): Spot) {
        let kind = if down { "mousePressed" } else { "mouseReleased" };
        let event = json!({ "type": kind, "x": x, "y": y, "button": "left", "clickCount": 1 });
        self.devtools("Input.dispatchMouseEvent", event).await;
    }

    /// A file is dragged onto the page and dropped in its middle.
    pub async fn drop_file(&self, path: &Path) {
        let held = json!({ "items": [], "files": [path.display().to_string()], "dragOperationsMask": 1 });
        for kind in ["dragEnter", "dragOver", "drop"] {
            self.devtools("Input.dispatchDragEvent", json!({ "type": kind, "x": 300, "y": 300, "data": held })).await;
        }
    }

    /// A key goes down and comes up.
    pub async fn press(&self, key: &str) {
        let (code, text) = match key {
            " " => (32, " "),
            "Enter" => (13, "\r"),
            "Escape" => (27, ""),
            other => panic!("no code for {other}"),
        };
        for kind in ["keyDown", "keyUp"] {
            let text = if kind == "keyDown" { text } else { "" };
            let event = json!({ "type": kind, "key": key, "windowsVirtualKeyCode": code, "text": text });
            self.devtools("Input.dispatchKeyEvent", event).await;
        }
    }

    /// The Enter key goes down, repeats while it is held, and comes up.
    pub async fn hold_enter(&self, repeats: usize) {
        let key = |kind: &str, repeat: bool| json!({ "type": kind, "key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13, "text": "\r", "autoRepeat": repeat });
        for repeat in 0..=repeats {
            self.devtools("Input.dispatchKeyEvent", key("keyDown", repeat > 0)).await;
        }
        self.devtools(
            "Input.dispatchKeyEvent",
            json!({ "type": "keyUp", "key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13 }),
        )
        .await;
    }
}
