//! Firefox, spoken to over WebDriver BiDi, which it serves itself.

use crate::{
    bidi::Line,
    browser::{Engine, Group},
    harness::{
        Spot,
        install::{self, Program},
    },
};
use base64::{Engine as _, prelude::BASE64_STANDARD};
use serde_json::{Value, json};
use std::{
    fs,
    io::{BufRead, BufReader},
    path::Path,
    process::{Command, Stdio},
};

const PROGRAMS: [Program; 1] = [("firefox-esr", "firefox-esr")];

/// It asks nobody for updates, settings or experiments, and takes pointers for fingers.
const PREFERENCES: &str = r#"
user_pref("app.update.disabledForTesting", true);
user_pref("app.normandy.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("dom.w3c_touch_events.enabled", 1);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("services.settings.server", "data:,none");
user_pref("toolkit.telemetry.enabled", false);
"#;

pub struct Firefox {
    _processes: Group,
    line: Line,
    context: String,
}

impl Engine for Firefox {
    const NAME: &'static str = "firefox";

    async fn start(profile: &Path) -> Self {
        install::have(&PROGRAMS);
        fs::write(profile.join("user.js"), PREFERENCES).expect("written");
        let mut processes = Group::spawn(
            Command::new("firefox-esr")
                .args(["--headless", "--no-remote", "--remote-debugging-port", "0", "--profile"])
                .arg(profile)
                .env("HOME", profile)
                .stderr(Stdio::piped())
                .stdout(Stdio::null()),
        );
        let mut said = BufReader::new(processes.child().stderr.take().expect("a pipe")).lines().map_while(Result::ok);
        let address = said.find_map(|line| Some(line.split_once("BiDi listening on ")?.1.to_owned()));
        let address = address.expect("Firefox says its address");
        // What it says further is read, or it would stop at a full pipe.
        std::thread::spawn(move || said.for_each(drop));
        let line = Line::to(&format!("{address}/session")).await;
        line.ask("session.new", json!({ "capabilities": {} })).await;
        let tree = line.ask("browsingContext.getTree", json!({})).await;
        let context = tree["contexts"][0]["context"].as_str().expect("a window").to_owned();
        let viewport = json!({ "context": context, "viewport": { "width": 1180, "height": 820 } });
        line.ask("browsingContext.setViewport", viewport).await;
        Firefox { _processes: processes, line, context }
    }

    async fn goto(&self, address: &str) {
        let to = json!({ "context": self.context, "url": address, "wait": "complete" });
        self.line.ask("browsingContext.navigate", to).await;
    }

    async fn run(&self, body: &str) -> Value {
        let expression = format!("(async () => JSON.stringify(await (async () => {{ {body} }})() ?? null))()");
        let asked = json!({ "expression": expression, "target": { "context": self.context }, "awaitPromise": true });
        let answer = self.line.ask("script.evaluate", asked).await;
        let value = answer["result"]["value"].as_str().unwrap_or_else(|| panic!("in the page: {answer}"));
        serde_json::from_str(value).expect("JSON")
    }

    async fn touch(&self, (x, y): Spot) {
        let finger = json!({ "type": "pointer", "id": "finger", "parameters": { "pointerType": "touch" }, "actions": [
            { "type": "pointerMove", "x": x.round(), "y": y.round() },
            { "type": "pointerDown", "button": 0 },
            { "type": "pause", "duration": 60 },
            { "type": "pointerUp", "button": 0 },
        ] });
        self.line.ask("input.performActions", json!({ "context": self.context, "actions": [finger] })).await;
    }

    async fn picture(&self) -> Vec<u8> {
        let seen = self.line.ask("browsingContext.captureScreenshot", json!({ "context": self.context })).await;
        BASE64_STANDARD.decode(seen["data"].as_str().expect("a picture")).expect("base64")
    }
}
