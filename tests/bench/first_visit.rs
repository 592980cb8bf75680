//! What a first visit brings over the wire: every file that is kept for offline use, and what keeps them. What works
//! beside the page comes later and is counted apart.

use crate::{
    figure::{Figure, Sheet},
    harness::Site,
};
use brotli::{CompressorWriter, enc::BrotliEncoderParams};
use std::{
    fs,
    io::Write,
    path::{Path, PathBuf},
};

/// What the files of the worker beside the page are called: they are fetched after the first paint.
const BESIDE: [&str; 2] = ["worker-", "workshop-"];

pub fn measure(sheet: &mut Sheet) {
    let packed = Site::packed();
    let keeps = fs::read_to_string(packed.join("sw.js")).expect("the service worker");
    // The service worker asks for the start page by its folder.
    let is_kept = |name: &str| name == "sw.js" || name == "index.html" || keeps.contains(&format!("\"{name}\""));
    let name = |path: &Path| path.strip_prefix(packed).expect("a packed file").display().to_string();
    let kept = files_below(packed).into_iter().filter(|path| is_kept(&name(path)));
    let is_beside = |path: &PathBuf| BESIDE.iter().any(|beside| name(path).starts_with(beside));
    let (beside, at_first): (Vec<PathBuf>, Vec<PathBuf>) = kept.partition(is_beside);
    let kilobytes = |files: &[PathBuf]| {
        let bytes = files.iter().map(|path| brotli(&fs::read(path).expect("a packed file")).len());
        bytes.sum::<usize>() as f64 / 1000.0
    };
    sheet.add(Figure { name: "first-visit-brotli", value: kilobytes(&at_first), unit: "kB", target: 350.0 });
    sheet.add(Figure { name: "worker-brotli", value: kilobytes(&beside), unit: "kB", target: 150.0 });
}

fn files_below(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    entries.flat_map(|path| if path.is_dir() { files_below(&path) } else { vec![path] }).collect()
}

/// At quality 11, as a server sends files that were compressed beforehand.
fn brotli(contents: &[u8]) -> Vec<u8> {
    let parameters = BrotliEncoderParams { quality: 11, ..Default::default() };
    let mut writer = CompressorWriter::with_params(Vec::new(), 4096, &parameters);
    writer.write_all(contents).expect("memory can be written");
    writer.into_inner()
}
