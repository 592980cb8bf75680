//! How soon the first command of a newcomer has the page on the screen: `cargo run` with nothing compiled yet, beside the
//! same at the commit from which it was to become quicker.

use crate::figure::{Paired, Ratio, Sheet, milliseconds};
use std::{
    env,
    ffi::OsString,
    io::{BufRead, BufReader},
    path::Path,
    process::{Command, Stdio},
};

/// Full optimisation for the page, and one profile for all that runs natively.
const BEFORE: &str = "0fee7fc";
const PROJECT: &str = env!("CARGO_MANIFEST_DIR");

pub fn measure(sheet: &mut Sheet) {
    let folder = tempfile::tempdir().expect("a folder");
    let before = folder.path().join("before");
    git(&["worktree", "add", "--detach", &before.display().to_string(), BEFORE]);
    let mut paired = Paired::default();
    paired.yardstick.push(first_run(&before, &folder.path().join("target-before")));
    paired.work.push(first_run(Path::new(PROJECT), &folder.path().join("target-now")));
    git(&["worktree", "remove", "--force", &before.display().to_string()]);
    sheet.add_ratio(Ratio { name: "first-run", paired, beside: "the same at commit 0fee7fc", target: 0.6 });
}

fn git(arguments: &[&str]) {
    let ended = Command::new("git").current_dir(PROJECT).args(arguments).status();
    let ended =
        ended.unwrap_or_else(|error| panic!("the first run is measured against a commit, which needs git: {error}"));
    assert!(ended.success(), "git has no commit {BEFORE} here to measure against; clone with the whole history");
}

/// Milliseconds from the command to the sentence that says where the page is, all packages being on this machine.
fn first_run(project: &Path, target: &Path) -> f64 {
    let manifest = project.join("Cargo.toml");
    let cargo = |does: &str| {
        let mut cargo = Command::new(env::var_os("CARGO").unwrap_or_else(|| OsString::from("cargo")));
        cargo.arg(does).arg("--manifest-path").arg(&manifest).env("CARGO_TARGET_DIR", target);
        // What is packed lands where the command is given.
        cargo.current_dir(target.parent().expect("the temporary folder"));
        cargo
    };
    assert!(cargo("fetch").status().is_ok_and(|ended| ended.success()), "the packages cannot be fetched");
    let mut running = cargo("run").stdout(Stdio::piped()).spawn().expect("cargo");
    let said = BufReader::new(running.stdout.take().expect("what it says"));
    let taken = milliseconds(|| {
        let serves = |line: &String| line.contains(" is at http://");
        said.lines().map_while(Result::ok).find(serves).expect("the page is compiled and served")
    });
    running.kill().expect("it serves until it is ended");
    running.wait().expect("it ends");
    taken
}
