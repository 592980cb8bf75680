//! Browsers and their drivers, on the machine or put there.

use std::{env, path::Path, process::Command, sync::Mutex};

/// A program and the Debian package that brings it.
pub type Program = (&'static str, &'static str);

/// Makes sure that all the programs can be run. As root on Debian they are installed; elsewhere the test stops and
/// says what to run.
pub fn have(programs: &[Program]) {
    /// One at a time: the package manager serves one only.
    static INSTALLING: Mutex<()> = Mutex::new(());
    let _turn = INSTALLING.lock().unwrap_or_else(|other_test_failed| other_test_failed.into_inner());
    if programs.iter().all(|(program, _)| is_on_path(program)) {
        return;
    }
    let packages: Vec<&str> = programs.iter().map(|(_, package)| *package).collect();
    let by_hand = format!("apt-get update && apt-get install --yes {}", packages.join(" "));
    assert!(is_on_path("apt-get") && may_install(), "a browser or its driver is missing; as root, run: {by_hand}");
    eprintln!("the browser tests need {0}, which are not here yet; running: {by_hand}", packages.join(" and "));
    apt_get(&["update"]);
    apt_get(&[&["install", "--yes", "--no-install-recommends"], &packages[..]].concat());
}

fn is_on_path(program: &str) -> bool {
    env::var_os("PATH").is_some_and(|path| env::split_paths(&path).any(|folder| folder.join(program).is_file()))
}

/// Root owns its own process folder.
fn may_install() -> bool {
    use std::os::unix::fs::MetadataExt;
    Path::new("/proc/self").metadata().is_ok_and(|process| process.uid() == 0)
}

fn apt_get(arguments: &[&str]) {
    let status = Command::new("apt-get").args(arguments).env("DEBIAN_FRONTEND", "noninteractive").status();
    assert!(status.is_ok_and(|status| status.success()), "apt-get {} failed", arguments.join(" "));
}
