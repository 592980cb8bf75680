//! The native companion: packs the page into a folder and serves it on this machine.

mod companion;

use std::process::ExitCode;

fn main() -> ExitCode {
    match companion::run(lexopt::Parser::from_env()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("tailfirst: {sentence}");
            ExitCode::FAILURE
        }
    }
}
