//! A browser of any engine: what a player does with it and what is seen.

use crate::harness::Spot;
use serde_json::Value;
use std::{
    os::unix::process::CommandExt,
    path::Path,
    process::{Child, Command},
    time::{Duration, Instant},
};
use tempfile::TempDir;

/// How long the page may take to show what is waited for.
const PATIENCE: Duration = Duration::from_secs(30);

/// How one engine is started and spoken to.
pub trait Engine: Sized {
    /// A name for pictures.
    const NAME: &'static str;

    /// A window on what an earlier browser left in the profile.
    async fn start(profile: &Path) -> Self;

    /// Goes to an address.
    async fn goto(&self, address: &str);

    /// What the body of an async function returns in the page.
    async fn run(&self, body: &str) -> Value;

    /// A finger goes down at a spot and comes up a moment later.
    async fn touch(&self, spot: Spot);

    /// What is seen, as PNG.
    async fn picture(&self) -> Vec<u8>;
}

/// A running browser with its profile. The engine ends its processes when it is dropped.
pub struct Browser<E> {
    engine: E,
    profile: TempDir,
}

impl<E: Engine> Browser<E> {
    pub async fn start(profile: TempDir) -> Self {
        Browser { engine: E::start(profile.path()).await, profile }
    }

    /// Opens `address` and waits for the page's heading.
    pub async fn open(&self, address: &str) {
        self.engine.goto(address).await;
        self.wait_for("h1").await;
    }

    /// Leaves the page.
    pub async fn leave(&self) {
        self.engine.goto("about:blank").await;
    }

    pub async fn run(&self, body: &str) -> Value {
        self.engine.run(body).await
    }

    /// Waits until something matches, and returns its middle.
    pub async fn wait_for(&self, selector: &str) -> Spot {
        let middle = format!(
            "const found = document.querySelector('{selector}')?.getBoundingClientRect();
            return found ? [found.left + found.width / 2, found.top + found.height / 2] : null"
        );
        let since = Instant::now();
        loop {
            let found = self.run(&middle).await;
            if let (Some(x), Some(y)) = (found[0].as_f64(), found[1].as_f64()) {
                return (x, y);
            }
            assert!(since.elapsed() < PATIENCE, "{}: {selector} never came", E::NAME);
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Touches the middle of what matches.
    pub async fn touch(&self, selector: &str) {
        let spot = self.wait_for(selector).await;
        self.engine.touch(spot).await;
    }

    /// Waits until the service worker answers for the page.
    pub async fn wait_until_kept(&self) {
        let since = Instant::now();
        while self.run("return !!navigator.serviceWorker.controller").await != true {
            assert!(since.elapsed() < PATIENCE, "{}: no service worker", E::NAME);
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// Keeps what is seen in `target/screenshots`.
    pub async fn screenshot(&self, name: &str) {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screenshots");
        std::fs::create_dir_all(&folder).expect("a folder");
        let picture = self.engine.picture().await;
        std::fs::write(folder.join(format!("{name}-{}.png", E::NAME)), picture).expect("written");
    }

    /// Kills the browser at once with all its processes, as a device would, and returns what it left.
    pub fn kill(self) -> TempDir {
        drop(self.engine);
        self.profile
    }
}

/// A process at the head of a group, which ends with all of it.
pub struct Group(Child);

impl Group {
    pub fn spawn(command: &mut Command) -> Group {
        let program = command.get_program().display().to_string();
        Group(command.process_group(0).spawn().unwrap_or_else(|error| panic!("{program} does not start: {error}")))
    }

    pub fn child(&mut self) -> &mut Child {
        &mut self.0
    }
}

impl Drop for Group {
    fn drop(&mut self) {
        let _it_may_have_ended = Command::new("sh").args(["-c", &format!("kill -s KILL -- -{}", self.0.id())]).status();
        let _it_has_ended = self.0.wait();
    }
}
