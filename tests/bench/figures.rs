//! `cargo bench`: every figure the project promises, measured, one row each, and a count of them.
//!
//! A module a subject; each hands its figures to the [`figure::Sheet`]. `cargo bench -- coach` measures one subject,
//! `cargo bench -- histories 1000000` so many histories of it; `cargo bench -- --tune` looks for better numbers of the method
//! instead.

mod beside;
#[path = "../support/yardsticks/binomial.rs"]
mod binomial;
mod calendar;
mod coach;
#[allow(dead_code, reason = "the journal's tests use the rest of it")]
#[path = "../support/devices.rs"]
mod devices;
mod engraving;
#[allow(dead_code, reason = "the journal's tests use the rest of it")]
#[path = "../support/exported.rs"]
mod exported;
mod figure;
mod first_run;
mod first_visit;
#[allow(dead_code, unused_imports, reason = "the browser tests use the rest of it")]
#[path = "../support/harness/mod.rs"]
mod harness;
mod histories;
#[path = "../support/invented.rs"]
mod invented;
mod kept;
mod native;
mod opening;
#[path = "../support/players/mod.rs"]
mod players;
mod practised;
#[allow(dead_code, reason = "the journal's tests use the rest of it")]
#[path = "../journal/samples.rs"]
mod samples;
mod screens;
mod tap;
#[path = "../support/yardsticks/sequential.rs"]
mod wald;
#[path = "../support/years.rs"]
mod years;

use players::dice;

type Measure = fn(&mut figure::Sheet);

/// What can be measured.
const SUBJECTS: [(&str, Measure); 12] = [
    ("calendar", calendar::measure),
    ("coach", coach::measure),
    ("native", native::measure),
    ("kept", kept::measure),
    ("histories", histories::measure),
    ("first-run", first_run::measure),
    ("first-visit", first_visit::measure),
    ("opening", opening::measure),
    ("tap", tap::measure),
    ("screens", screens::measure),
    ("engraving", engraving::measure),
    ("beside", beside::measure),
];

/// `cargo bench -- native` measures that subject alone; without a name all are.
fn is_wanted(subject: &str) -> bool {
    let is_name = |argument: &String| !argument.starts_with("--") && argument.parse::<u32>().is_err();
    let mut named = std::env::args().skip(1).filter(is_name).peekable();
    named.peek().is_none() || named.any(|name| name == subject)
}

fn main() {
    // Only `cargo bench` says so; `cargo test --all-targets` comes here too and has nothing to measure.
    if !std::env::args().any(|argument| argument == "--bench") {
        return;
    }
    if std::env::args().any(|argument| argument == "--tune") {
        return coach::tune::search();
    }
    let mut sheet = figure::Sheet::default();
    for (subject, measure) in SUBJECTS {
        if is_wanted(subject) {
            measure(&mut sheet);
        }
    }
    println!("{sheet}");
}
