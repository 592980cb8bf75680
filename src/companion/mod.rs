//! The command-line program. Errors are sentences for the terminal.
//!
//! - [`command`] what was asked for
//! - [`build`] the library compiled for the browser, with its glue
//! - [`folder`] the files of the page, stamped with their contents
//! - [`pack`] the page put together
//! - [`read`] what was understood of a score
//! - [`serve`] a folder shown to the browsers of this machine

mod build;
mod command;
mod folder;
mod pack;
mod read;
mod serve;

use build::Effort;
use command::Command;
use std::io::{self, ErrorKind, Write};

/// Does what the arguments ask for. Serving ends only with the process.
pub fn run(arguments: lexopt::Parser) -> Result<(), String> {
    match Command::parse(arguments)? {
        Command::Help => print(command::HELP)?,
        Command::Pack { out } => pack::pack(&out, Effort::Full)?,
        Command::Read { score } => print(&(read::read(&score)? + "\n"))?,
        Command::Serve { port, dir } => serve::serve(&dir, port)?,
        Command::PackAndServe { dir } => {
            pack::pack(&dir, Effort::Quick)?;
            serve::serve(&dir, None)?;
        }
    }
    Ok(())
}

/// Prints a text. A closed pipe, as from `head`, is not an error.
fn print(text: &str) -> Result<(), String> {
    match io::stdout().lock().write_all(text.as_bytes()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(format!("cannot print: {error}")),
        _ => Ok(()),
    }
}
