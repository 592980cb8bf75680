//! The companion's own commands, as they are typed.

use std::process::{Command, Stdio};

#[test]
fn a_reader_that_has_seen_enough_of_a_score_is_no_error() {
    let score = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/scores/polonaise_op1n3.mxl");
    let mut process = Command::new(env!("CARGO_BIN_EXE_tailfirst"))
        .args(["read", score])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the companion starts");
    drop(process.stdout.take());
    let ended = process.wait_with_output().expect("the companion ends");
    assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stderr));
}
