//! The page and the worker beside it compiled for the browser, and the JavaScript glue that starts each there.

use serde_json::Value;
use std::{
    env,
    ffi::OsString,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};
use wasm_bindgen_cli_support::Bindgen;

const TARGET: &str = "wasm32-unknown-unknown";

/// The folder this program was built from.
pub const PROJECT: &str = env!("CARGO_MANIFEST_DIR");

/// The programs that browsers load: the page, and the worker beside it.
const PROGRAMS: [&str; 2] = ["page", "workshop"];

/// A program as browsers load it.
pub struct Program {
    pub wasm: Vec<u8>,
    /// An ES module whose default export takes `{ module_or_path }` and starts the program.
    pub glue: String,
}

/// How well the page is optimised: a profile of `Cargo.toml`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// Compiled soon, for a first look.
    Quick,
    /// As it ships: small and fast.
    Full,
}

/// Compiles the page and its worker and makes their glue.
pub fn build(effort: Effort) -> Result<[Program; 2], String> {
    have_target()?;
    let profile = match effort {
        Effort::Quick => "quick",
        Effort::Full => "web",
    };
    let [page, workshop] = compile(profile)?;
    Ok([glue(&page)?, glue(&workshop)?])
}

/// Adds the browser's target to this machine's Rust where it is missing.
fn have_target() -> Result<(), String> {
    let rustc = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let asked = Command::new(&rustc)
        .args(["--print", "target-libdir", "--target", TARGET])
        .output()
        .map_err(|error| format!("cannot run {}: {error}", rustc.display()))?;
    let folder = String::from_utf8_lossy(&asked.stdout);
    if asked.status.success() && Path::new(folder.trim_end()).is_dir() {
        return Ok(());
    }
    eprintln!("adding the target {TARGET} to Rust");
    match Command::new("rustup").args(["target", "add", TARGET]).status() {
        Ok(status) if status.success() => Ok(()),
        _ => Err(format!(
            "Rust cannot compile for the browser yet: run `rustup target add {TARGET}`, \
             or where there is no rustup, install the standard library for {TARGET} the way Rust was installed"
        )),
    }
}

/// Runs cargo and returns the paths of the compiled modules, wherever the target folder is.
fn compile(profile: &str) -> Result<[PathBuf; 2], String> {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| OsString::from("cargo"));
    let output = Command::new(&cargo)
        .current_dir(PROJECT)
        .args(["build", "--profile", profile, "--target", TARGET])
        .args(PROGRAMS.iter().flat_map(|program| ["--bin", program]))
        .args(["--message-format", "json-render-diagnostics"])
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| format!("cannot run {}: {error}", cargo.display()))?;
    if !output.status.success() {
        return Err("the page does not compile; the compiler's own words are above".into());
    }
    let messages = String::from_utf8_lossy(&output.stdout);
    match PROGRAMS.map(|program| module_named_in(&messages, program)) {
        [Some(page), Some(workshop)] => Ok([page, workshop]),
        _ => Err("cargo did not name both wasm files".into()),
    }
}

/// The wasm file of this program in cargo's messages, one JSON object a line.
fn module_named_in(messages: &str, program: &str) -> Option<PathBuf> {
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok())
        .filter(|message| message["target"]["name"] == program)
        .filter_map(|message| message["filenames"].as_array().cloned())
        .flatten()
        .filter_map(|name| name.as_str().map(PathBuf::from))
        .find(|path| path.extension().is_some_and(|extension| extension == "wasm"))
}

fn glue(module: &Path) -> Result<Program, String> {
    let sentence = |error| format!("no glue for {}: {error:#}", module.display());
    let mut output = Bindgen::new()
        .input_path(module)
        .web(true)
        .map_err(sentence)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate_output()
        .map_err(sentence)?;
    let inline = output.snippets().values().flatten().count();
    if inline + output.local_modules().len() > 0 {
        return Err("a library of the page brings JavaScript of its own, which is not packed".into());
    }
    Ok(Program { wasm: output.wasm_mut().emit_wasm(), glue: output.js().into() })
}
