//! What a first visit brings over the wire: every file that the worker keeps for offline use, and the worker.

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

pub fn measure(sheet: &mut Sheet) {
    let packed = Site::packed();
    let worker = fs::read_to_string(packed.join("sw.js")).expect("the worker");
    // The worker asks for the start page by its folder.
    let is_kept = |name: &str| name == "sw.js" || name == "index.html" || worker.contains(&format!("\"{name}\""));
    let name = |path: &Path| path.strip_prefix(packed).expect("a packed file").display().to_string();
    let kept = files_below(packed).into_iter().filter(|path| is_kept(&name(path)));
    let bytes: usize = kept.map(|path| brotli(&fs::read(path).expect("a packed file")).len()).sum();
    sheet.add(Figure { name: "first-visit-brotli", value: bytes as f64 / 1000.0, unit: "kB", target: 300.0 });
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
