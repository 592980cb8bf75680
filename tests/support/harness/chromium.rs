//! Chromium with its driver: started, spoken to over WebDriver on the loopback address, and ended.
//!
//! Dereferences to the WebDriver client, so that `browser.find(..)` and `browser.goto(..)` are there.

use super::{
    devtools::Message,
    install::{self, Program},
};
use fantoccini::{Client, ClientBuilder, Locator, elements::Element, error::CmdError};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use std::{
    cell::Cell,
    fs,
    io::{BufRead, BufReader},
    ops::Deref,
    os::unix::process::CommandExt,
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    thread,
    time::{Duration, Instant},
};
use tempfile::TempDir;

/// How long the page may take to show what is waited for.
pub const PATIENCE: Duration = Duration::from_secs(20);

/// Least time between two taps of a player who looks at what has changed.
const PACE: Duration = Duration::from_millis(450);

const PROGRAMS: [Program; 2] = [("chromium", "chromium"), ("chromedriver", "chromium-driver")];

const FLAGS: [&str; 11] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
    "--autoplay-policy=user-gesture-required",
];

/// A running browser. Ends with [`Chromium::finish`], which fails on errors the page left behind, or
/// with [`Chromium::kill`].
pub struct Chromium {
    pub(super) client: Client,
    driver: Driver,
    profile: Option<TempDir>,
    pub(super) clock_script: Option<String>,
    tapped: Cell<Option<Instant>>,
}

impl Deref for Chromium {
    type Target = Client;
    fn deref(&self) -> &Client {
        &self.client
    }
}

impl Chromium {
    /// A browser that has never been used.
    pub async fn start() -> Chromium {
        Chromium::resume(tempfile::tempdir().expect("a folder for the profile")).await
    }

    /// A browser with what an earlier one left in its profile.
    pub async fn resume(profile: TempDir) -> Chromium {
        install::have(&PROGRAMS);
        let driver = Driver::start(profile.path());
        let capabilities = capabilities(profile.path());
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities)
            .connect(&driver.address)
            .await
            .expect("a session with Chromium");
        Chromium { client, driver, profile: Some(profile), clock_script: None, tapped: Cell::new(None) }
    }

    /// Opens `address` and waits for the page's heading.
    pub async fn open(&self, address: &str) -> Element {
        self.client.goto(address).await.expect("the page opens");
        self.wait_for("h1").await
    }

    /// The first element that matches, as soon as there is one.
    pub async fn wait_for(&self, selector: &str) -> Element {
        let found = self.client.wait().at_most(PATIENCE).for_element(Locator::Css(selector)).await;
        found.unwrap_or_else(|error| panic!("{selector} never came: {error}"))
    }

    /// Clicks as soon as a player may tap again: sooner after the click before, at the same place, it would be a bounce.
    ///
    /// # Errors
    /// Where the element cannot be clicked.
    pub async fn click(&self, element: &Element) -> Result<(), CmdError> {
        let since = self.tapped.get().map(|tapped| tapped.elapsed());
        tokio::time::sleep(since.map_or(Duration::ZERO, |since| PACE.saturating_sub(since))).await;
        let clicked = element.click().await;
        self.tapped.set(Some(Instant::now()));
        clicked
    }

    /// What the body of an async function returns in the page.
    pub async fn run(&self, body: &str) -> Value {
        let script = format!(
            "const done = arguments[arguments.length - 1]; (async () => {{ {body} }})()
                .then((value) => done({{ value }}), (error) => done({{ error: String(error) }}));"
        );
        let answer = self.client.execute_async(&script, vec![]).await.expect("the script runs");
        assert!(answer["error"].is_null(), "in the page: {}", answer["error"]);
        answer["value"].clone()
    }

    /// Waits until the service worker answers for the page.
    pub async fn wait_until_kept(&self) {
        self.run(
            "if (!navigator.serviceWorker.controller)
                await new Promise((go) => navigator.serviceWorker.addEventListener('controllerchange', go));",
        )
        .await;
    }

    /// What the console has called an error since it was last asked: uncaught exceptions, refused or
    /// failed requests, and what the page itself reports.
    pub async fn errors(&self) -> Vec<String> {
        let entries = self.log("browser").await;
        let severe = entries.iter().filter(|entry| entry["level"] == "SEVERE");
        severe.map(|entry| entry["message"].as_str().unwrap_or_default().to_owned()).collect()
    }

    /// The addresses the page has asked for since this was last asked.
    pub async fn requests(&self) -> Vec<String> {
        let entries = self.log("performance").await;
        let events = entries.iter().filter_map(|entry| serde_json::from_str::<Value>(entry["message"].as_str()?).ok());
        let sent = events.filter(|event| event["message"]["method"] == "Network.requestWillBeSent");
        let sent = sent.map(|event| event["message"]["params"].clone());
        // The browser's own first screen asks for its own parts.
        let ours =
            sent.filter(|request| !request["documentURL"].as_str().is_some_and(|url| url.starts_with("chrome:")));
        ours.map(|request| request["request"]["url"].as_str().expect("an address").to_owned()).collect()
    }

    async fn log(&self, kind: &'static str) -> Vec<Value> {
        let message = Message { path: "se/log", body: json!({ "type": kind }) };
        let entries = self.client.issue_cmd(message).await.expect("the log");
        entries.as_array().cloned().unwrap_or_else(|| panic!("the {kind} log is no list: {entries}"))
    }

    /// Keeps what is seen as `target/screenshots/NAME.png` and returns its path.
    pub async fn screenshot(&self, name: &str) -> PathBuf {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screenshots");
        let path = folder.join(name).with_extension("png");
        let picture = self.client.screenshot().await.expect("a screenshot");
        fs::create_dir_all(&folder).and_then(|()| fs::write(&path, picture)).expect("the screenshot is written");
        path
    }

    /// The end of a test: no error may be left in the console.
    pub async fn finish(mut self) {
        let errors = self.errors().await;
        self.client.clone().close().await.expect("Chromium closes");
        self.driver.kill();
        self.profile = None;
        assert!(errors.is_empty(), "the console holds errors: {errors:#?}");
    }

    /// Kills the browser at once with all its processes, as a device would, and returns what it left.
    pub fn kill(mut self) -> TempDir {
        self.driver.kill();
        self.profile.take().expect("a browser has a profile until it ends")
    }
}

impl Drop for Chromium {
    fn drop(&mut self) {
        if self.profile.is_some() && !thread::panicking() {
            panic!("a browser must be ended by finish() or kill(), or its errors go unseen");
        }
    }
}

fn capabilities(profile: &Path) -> fantoccini::wd::Capabilities {
    let arguments: Vec<String> =
        FLAGS.iter().map(|&flag| flag.into()).chain([format!("--user-data-dir={}", profile.display())]).collect();
    let capabilities = json!({
        "goog:chromeOptions": { "args": arguments },
        "goog:loggingPrefs": { "browser": "ALL", "performance": "ALL" },
    });
    serde_json::from_value(capabilities).expect("an object")
}

/// The driver's process, at the head of a group to which the browser's belong.
struct Driver {
    process: Child,
    address: String,
}

impl Driver {
    fn start(scratch: &Path) -> Driver {
        let mut process = Command::new("chromedriver")
            .arg("--port=0")
            .process_group(0)
            .env("TMPDIR", scratch)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("chromedriver starts");
        let said = BufReader::new(process.stdout.take().expect("a pipe"));
        let port = said.lines().map_while(Result::ok).find_map(|line| {
            let (_, port) = line.split_once("started successfully on port ")?;
            Some(port.trim_end_matches('.').to_owned())
        });
        let port = port.expect("chromedriver says its port");
        Driver { process, address: format!("http://127.0.0.1:{port}") }
    }

    fn kill(&mut self) {
        let group = format!("kill -s KILL -- -{}", self.process.id());
        // Once the driver has been waited for, its number may be another process's.
        if let Ok(None) = self.process.try_wait() {
            let killed = Command::new("sh").args(["-c", &group]).status();
            assert!(killed.is_ok_and(|status| status.success()), "{group} failed");
            self.process.wait().expect("chromedriver has ended");
        }
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.kill();
    }
}
