//! Any bytes at all: a score or a refusal, never a panic.

use crate::{ALOHA_OE, POLONAISE_1, POLONAISE_3, whole::use_up};
use proptest::prelude::*;
use std::io::Cursor;

fn unpacked(bytes: &[u8]) -> Vec<u8> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).expect("a zip");
    let name = zip
        .file_names()
        .map(|name| name.expect("a name").into_owned())
        .find(|name| !name.starts_with("META"))
        .expect("a score");
    let mut content = Vec::new();
    std::io::copy(&mut zip.by_name(&name).expect("the score"), &mut content).expect("unpacked");
    content
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_packed_files_never_panic(
        which in 0..3usize,
        flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..20),
        kept in 0.3..1.3f64,
    ) {
        let mut bytes = [POLONAISE_1, POLONAISE_3, ALOHA_OE][which].to_vec();
        flips.iter().for_each(|(place, value)| *place.get_mut(&mut bytes) = *value);
        bytes.truncate((bytes.len() as f64 * kept) as usize);
        use_up(&bytes);
    }

    /// Figures inside the text are changed, so that most of the files stay well-formed and are read.
    #[test]
    fn scores_with_any_numbers_in_them_never_panic(
        edits in prop::collection::vec((any::<prop::sample::Index>(), "-?[0-9]{1,12}(\\.[0-9]{1,9})?|x|"), 1..60),
    ) {
        let text = String::from_utf8(unpacked(ALOHA_OE)).expect("UTF-8");
        let mut pieces: Vec<_> = text.split('>').map(String::from).collect();
        let figures = |piece: &String| piece.starts_with(|letter: char| letter.is_ascii_digit());
        let places: Vec<_> = (0..pieces.len()).filter(|place| figures(&pieces[*place])).collect();
        for (place, figure) in &edits {
            let piece = &mut pieces[*place.get(&places)];
            *piece = format!("{figure}{}", piece.trim_start_matches(|letter: char| letter != '<'));
        }
        use_up(pieces.join(">").as_bytes());
    }
}
