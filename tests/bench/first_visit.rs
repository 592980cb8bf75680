//! What a first visit brings over the wire: every packed file, since all are kept for offline use.

use crate::{
    figure::{Figure, Sheet},
    harness::Site,
};
use brotli::{CompressorWriter, enc::BrotliEncoderParams};
use std::{fs, io::Write, path::Path};

pub fn measure(sheet: &mut Sheet) {
    let bytes: usize = contents_below(Site::packed()).iter().map(|contents| brotli(contents).len()).sum();
    sheet.add(Figure { name: "first-visit-brotli", value: bytes as f64 / 1000.0, unit: "kB", target: 300.0 });
}

fn contents_below(folder: &Path) -> Vec<Vec<u8>> {
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    entries
        .flat_map(
            |path| {
                if path.is_dir() { contents_below(&path) } else { vec![fs::read(path).expect("a packed file")] }
            },
        )
        .collect()
}

/// At quality 11, as a server sends files that were compressed beforehand.
fn brotli(contents: &[u8]) -> Vec<u8> {
    let parameters = BrotliEncoderParams { quality: 11, ..Default::default() };
    let mut writer = CompressorWriter::with_params(Vec::new(), 4096, &parameters);
    writer.write_all(contents).expect("memory can be written");
    writer.into_inner()
}
