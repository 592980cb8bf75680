//! The page packed once and served by the companion, each test from its own copy.

use base64::{Engine, prelude::BASE64_STANDARD};
use sha2::{Digest, Sha256};
use std::{
    fs,
    io::{BufRead, BufReader},
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    sync::OnceLock,
};
use tempfile::TempDir;

const COMPANION: &str = env!("CARGO_BIN_EXE_tailfirst");

/// The page at an address of its own.
pub struct Site {
    folder: TempDir,
    port: u16,
    server: Option<Child>,
}

impl Site {
    /// The folder the companion packs, once a process.
    pub fn packed() -> &'static Path {
        static PACKED: OnceLock<PathBuf> = OnceLock::new();
        PACKED.get_or_init(|| {
            let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("packed");
            let status = Command::new(COMPANION).args(["pack", "--out"]).arg(&folder).status();
            assert!(status.is_ok_and(|status| status.success()), "the page is not packed");
            folder
        })
    }

    /// A copy of the packed page, served on a free port.
    pub fn serve() -> Site {
        let folder = tempfile::tempdir().expect("a folder for the page");
        copy(Site::packed(), folder.path());
        let mut site = Site { folder, port: 0, server: None };
        site.start();
        site
    }

    /// Serves again, at the same address.
    pub fn start(&mut self) {
        let mut server = Command::new(COMPANION)
            .args(["serve", "--port", &self.port.to_string(), "--dir"])
            .arg(self.folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the companion starts");
        let said = BufReader::new(server.stdout.take().expect("a pipe")).lines().next();
        let said = said.and_then(Result::ok).expect("the companion says its address");
        let port = said.split_once("127.0.0.1:").and_then(|(_, rest)| rest.split('/').next()?.parse().ok());
        self.port = port.unwrap_or_else(|| panic!("no address in “{said}”"));
        self.server = Some(server);
    }

    /// Stops serving: from now on there is no network to the page.
    pub fn stop(&mut self) {
        if let Some(mut server) = self.server.take() {
            server.kill().expect("the companion is ended");
            server.wait().expect("the companion has ended");
        }
    }

    /// `http://127.0.0.1:PORT`.
    pub fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// What is served; a test may spoil it.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// Puts other contents into the file whose stamped name is `NAME-….KIND`, under the same name.
    pub fn put_in_place_of(&self, name: &str, kind: &str, contents: &[u8]) {
        let is_it = |path: &Path| {
            let file = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            file.starts_with(&format!("{name}-")) && file.ends_with(&format!(".{kind}"))
        };
        let files = fs::read_dir(self.folder.path()).expect("a folder").map(|entry| entry.expect("an entry").path());
        let file = files.into_iter().find(|path| is_it(path)).expect("a file of this name");
        let worker = self.folder.path().join("sw.js");
        let list = fs::read_to_string(&worker).expect("the worker");
        let newer_list = list.replace(&revision(fs::read(&file).expect("a file")), &revision(contents));
        assert!(newer_list != list, "the worker does not keep {}", file.display());
        fs::write(file, contents).and_then(|()| fs::write(worker, newer_list)).expect("put in place");
    }

    /// Puts a newer version of the page there: the same with another description.
    pub fn publish(&self, description: &str) {
        let (start, worker) = (self.folder.path().join("index.html"), self.folder.path().join("sw.js"));
        let old = fs::read_to_string(&start).expect("the start page");
        let (before, after) = old.split_once("name=\"description\" content=\"").expect("a description");
        let (_, after) = after.split_once('"').expect("its end");
        let new = format!("{before}name=\"description\" content=\"{description}\"{after}");
        let list = fs::read_to_string(&worker).expect("the worker");
        let newer_list = list.replace(&revision(&old), &revision(&new));
        assert!(new != old && newer_list != list, "the newer version is the old one");
        fs::write(start, new).and_then(|()| fs::write(worker, newer_list)).expect("published");
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        self.stop();
    }
}

fn revision(contents: impl AsRef<[u8]>) -> String {
    format!("sha256-{}", BASE64_STANDARD.encode(Sha256::digest(contents)))
}

fn copy(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).expect("a folder") {
        let entry = entry.expect("an entry");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            fs::create_dir(&target).expect("a folder");
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).expect("copied");
        }
    }
}
