//! The command line: arguments in, a [`Command`] out.

use lexopt::{Arg, Parser, ValueExt};
use std::path::PathBuf;

/// What was asked for.
#[derive(Debug, PartialEq, Eq)]
pub enum Command {
    Help,
    PackAndServe { dir: PathBuf },
    Pack { out: PathBuf },
    Read { score: PathBuf },
    Serve { port: Option<u16>, dir: PathBuf },
}

/// The answer to `--help`.
pub const HELP: &str = "\
Tailfirst prepares the hard few seconds of a piece backward from a goal, in the pulse.

  tailfirst                             compile the page quickly, pack it into dist and serve it on this machine
  tailfirst pack [--out DIR]            pack the page as it ships into DIR (dist): a folder any web server can show
  tailfirst serve [--port N] [--dir DIR]  serve a packed folder (dist) on this machine only
  tailfirst read SCORE                  print what is understood of a MusicXML file, as JSON
  tailfirst --help                      this text
";

const PACKED: &str = "dist";

impl Command {
    /// Reads the arguments, or says in a sentence which one is wrong.
    pub fn parse(mut arguments: Parser) -> Result<Command, String> {
        Command::read(&mut arguments).map_err(|error| format!("{error}; see tailfirst --help"))
    }

    fn read(arguments: &mut Parser) -> Result<Command, lexopt::Error> {
        let mut command = Command::PackAndServe { dir: PACKED.into() };
        let mut at_start = true;
        while let Some(argument) = arguments.next()? {
            match (&mut command, argument) {
                (_, Arg::Short('h') | Arg::Long("help")) => return Ok(Command::Help),
                (_, Arg::Value(word)) if at_start && word == "pack" => {
                    command = Command::Pack { out: PACKED.into() };
                }
                (_, Arg::Value(word)) if at_start && word == "read" => {
                    command = Command::Read { score: arguments.value()?.into() };
                }
                (_, Arg::Value(word)) if at_start && word == "serve" => {
                    command = Command::Serve { port: None, dir: PACKED.into() };
                }
                (Command::Pack { out }, Arg::Long("out")) => *out = arguments.value()?.into(),
                (Command::Serve { dir, .. }, Arg::Long("dir")) => *dir = arguments.value()?.into(),
                (Command::Serve { port, .. }, Arg::Long("port")) => *port = Some(arguments.value()?.parse()?),
                (_, other) => return Err(other.unexpected()),
            }
            at_start = false;
        }
        Ok(command)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(words: &[&str]) -> Result<Command, String> {
        Command::parse(Parser::from_args(words))
    }

    #[test]
    fn without_arguments_the_page_is_packed_and_served() {
        assert_eq!(parse(&[]), Ok(Command::PackAndServe { dir: "dist".into() }));
    }

    #[test]
    fn options_belong_to_their_command() {
        let serve = Command::Serve { port: Some(8001), dir: "elsewhere".into() };
        assert_eq!(parse(&["serve", "--port", "8001", "--dir=elsewhere"]), Ok(serve));
        assert_eq!(parse(&["pack", "--out", "elsewhere"]), Ok(Command::Pack { out: "elsewhere".into() }));
        assert!(parse(&["pack", "--port", "8001"]).is_err_and(|sentence| sentence.contains("--port")));
        assert!(parse(&["pack", "serve"]).is_err());
        assert!(parse(&["serve", "--port", "70000"]).is_err());
    }
}
