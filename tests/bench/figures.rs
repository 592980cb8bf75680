//! `cargo bench`: every figure the project promises, measured, one row each, and a count of them.
//!
//! A module a subject; each hands its figures to the [`figure::Sheet`].

mod engraving;
mod figure;
mod first_visit;
#[allow(dead_code, unused_imports, reason = "the browser tests use the rest of it")]
#[path = "../harness/mod.rs"]
mod harness;
mod native;
mod opening;

fn main() {
    // Only `cargo bench` says so; `cargo test --all-targets` comes here too and has nothing to measure.
    if !std::env::args().any(|argument| argument == "--bench") {
        return;
    }
    let mut sheet = figure::Sheet::default();
    native::measure(&mut sheet);
    first_visit::measure(&mut sheet);
    opening::measure(&mut sheet);
    engraving::measure(&mut sheet);
    println!("{sheet}");
}
