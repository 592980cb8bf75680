//! The browser and its driver, on the machine or put there.

use std::{env, path::Path, process::Command, sync::OnceLock};

/// What must be there, by program and Debian package.
const PROGRAMS: [(&str, &str); 2] = [("chromium", "chromium"), ("chromedriver", "chromium-driver")];

/// Makes sure, once a process, that Chromium and its driver can be run. As root on Debian they are
/// installed; elsewhere the test stops and says what to run.
pub fn have_chromium() {
    static DONE: OnceLock<()> = OnceLock::new();
    DONE.get_or_init(|| {
        if PROGRAMS.iter().all(|(program, _)| is_on_path(program)) {
            return;
        }
        let packages = PROGRAMS.map(|(_, package)| package);
        let by_hand = format!("apt-get update && apt-get install --yes {}", packages.join(" "));
        assert!(is_on_path("apt-get") && may_install(), "no Chromium with its driver here; as root, run: {by_hand}");
        eprintln!("the browser tests need {0}, which are not here yet; running: {by_hand}", packages.join(" and "));
        apt_get(&["update"]);
        apt_get(&[&["install", "--yes", "--no-install-recommends"], &packages[..]].concat());
    });
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
