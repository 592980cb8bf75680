//! WebKit, in the small browser that comes with WebKitGTK, on a screen that nobody sees.

use crate::{
    browser::{Engine, Group},
    harness::{
        Spot,
        install::{self, Program},
    },
};
use fantoccini::{
    Client, ClientBuilder,
    actions::{InputSource, PointerAction, TouchActions},
};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use std::{
    fs,
    io::{BufRead, BufReader},
    net::TcpListener,
    path::{Path, PathBuf},
    process::{Command, Stdio},
    time::Duration,
};

const PROGRAMS: [Program; 2] = [("WebKitWebDriver", "webkit2gtk-driver"), ("Xvfb", "xvfb")];

pub struct WebKit {
    client: Client,
    _driver: Group,
    _screen: Group,
}

impl Engine for WebKit {
    const NAME: &'static str = "webkit";

    async fn start(profile: &Path) -> Self {
        install::have(&PROGRAMS);
        let (screen, display) = screen();
        // The driver takes a port and does not say which: one that is free now.
        let port = TcpListener::bind("127.0.0.1:0").and_then(|free| free.local_addr()).expect("a free port").port();
        let driver = Group::spawn(
            Command::new("WebKitWebDriver")
                .arg(format!("--port={port}"))
                .envs([("DISPLAY", display.as_str()), ("GDK_BACKEND", "x11"), ("GSETTINGS_BACKEND", "memory")])
                .envs([("LIBGL_ALWAYS_SOFTWARE", "1"), ("WEBKIT_DISABLE_DMABUF_RENDERER", "1"), ("NO_AT_BRIDGE", "1")])
                .env("HOME", profile)
                .env("XDG_DATA_HOME", profile.join("data"))
                .env("XDG_CACHE_HOME", profile.join("cache"))
                .stdout(Stdio::null())
                .stderr(Stdio::null()),
        );
        let client = client(port).await;
        client.set_window_rect(0, 0, 1180, 900).await.expect("a size");
        WebKit { client, _driver: driver, _screen: screen }
    }

    async fn goto(&self, address: &str) {
        self.client.goto(address).await.expect("the page opens");
    }

    async fn run(&self, body: &str) -> Value {
        let script = format!(
            "const done = arguments[arguments.length - 1]; (async () => {{ {body} }})()
                .then((value) => done({{ value }}), (error) => done({{ error: String(error) }}));"
        );
        let answer = self.client.execute_async(&script, vec![]).await.expect("the script runs");
        assert!(answer["error"].is_null(), "in the page: {}", answer["error"]);
        answer["value"].clone()
    }

    async fn touch(&self, (x, y): Spot) {
        let finger = TouchActions::new("finger".into())
            .then(PointerAction::MoveTo { duration: None, x: x.round(), y: y.round() })
            .then(PointerAction::Down { button: 0 })
            .then(PointerAction::Pause { duration: Duration::from_millis(60) })
            .then(PointerAction::Up { button: 0 });
        self.client.perform_actions(finger).await.expect("a touch");
    }

    async fn picture(&self) -> Vec<u8> {
        self.client.screenshot().await.expect("a screenshot")
    }
}

/// A screen in memory, and its name.
fn screen() -> (Group, String) {
    let mut screen = Group::spawn(
        Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1400x1000x24"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null()),
    );
    let said = BufReader::new(screen.child().stdout.take().expect("a pipe")).lines().next();
    let number = said.and_then(Result::ok).expect("the screen says its number");
    (screen, format!(":{number}"))
}

/// A session, as soon as the driver listens.
async fn client(port: u16) -> Client {
    let capabilities = json!({
        "webkitgtk:browserOptions": { "binary": small_browser(), "args": ["--automation"] },
    });
    let capabilities: fantoccini::wd::Capabilities = serde_json::from_value(capabilities).expect("an object");
    let address = format!("http://127.0.0.1:{port}");
    for _ in 0..100 {
        let mut builder = ClientBuilder::new(HttpConnector::new());
        if let Ok(client) = builder.capabilities(capabilities.clone()).connect(&address).await {
            return client;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    panic!("no session with WebKit");
}

/// Debian keeps it beside the library, under the machine's name.
fn small_browser() -> PathBuf {
    let machines = fs::read_dir("/usr/lib").expect("a folder").map(|entry| entry.expect("an entry").path());
    let there = |machine: PathBuf| {
        ["4.1", "4.0"]
            .map(|version| machine.join(format!("webkit2gtk-{version}/MiniBrowser")))
            .into_iter()
            .find(|path| path.is_file())
    };
    machines.into_iter().find_map(there).expect("MiniBrowser, which comes with webkit2gtk-driver")
}
