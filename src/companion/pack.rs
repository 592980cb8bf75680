//! The page put together: the compiled programs, its start page and everything static.

use crate::companion::{
    build::{self, Effort},
    folder::Folder,
};
use std::{fs, path::Path};

/// Files named after their contents, each before those that refer to it; besides them every style sheet.
const STAMPED: [&str; 6] = ["workshop.wasm", "workshop.js", "worker.js", "tailfirst.wasm", "tailfirst.js", "boot.js"];
const STYLE: &str = "style/";
/// Served beside the page for those who write other programs or read licences; the page itself has no use for them.
const BESIDE: [&str; 3] = ["journal.schema.json", "licences/apache-2.0.txt", "licences/mit.txt"];
/// Where `static/sw.js` wants the list of files.
const LIST: &str = "[/* the packed files */]";

/// Packs the page into `out`, which then needs nothing but a web server.
pub fn pack(out: &Path, effort: Effort) -> Result<(), String> {
    let project = Path::new(build::PROJECT);
    let [page, workshop] = build::build(effort)?;
    let mut folder = Folder::default();
    let start = project.join("index.html");
    folder.insert("index.html", fs::read(&start).map_err(|error| format!("cannot read {}: {error}", start.display()))?);
    folder.insert_all(&project.join("static"))?;
    folder.insert("tailfirst.wasm", page.wasm);
    folder.insert("tailfirst.js", page.glue);
    folder.insert("workshop.wasm", workshop.wasm);
    folder.insert("workshop.js", workshop.glue);
    for name in folder.below(STYLE).iter().map(String::as_str).chain(STAMPED) {
        folder.stamp(name)?;
    }
    folder.list_in_worker(LIST, &BESIDE)?;
    folder.replace(out)?;
    let (files, bytes) = folder.size();
    println!("packed {files} files, {} kB, into {}", bytes.div_ceil(1000), out.display());
    Ok(())
}
