//! Any bytes at all: a score or a refusal, never a panic.

use crate::{
    ALOHA_OE, POLONAISE_1, POLONAISE_3,
    texts::{chord, note, score},
    whole::use_up,
};
use proptest::prelude::*;
use std::io::Cursor;
use tailfirst::music::musicxml::read;

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

/// What fuzzing found (DEVELOPERS.md), brought to its point.
#[test]
fn inputs_that_once_broke_the_reader_are_read() {
    let endless = note("C4", 999_999, "").replace("999999", "999999999").repeat(3);
    let long = note("C4", 4_000_000, "").repeat(3);
    let chord_alone = chord("E4", 4, "");
    let octaves = "<direction><direction-type><octave-shift type='up' size='15'/></direction-type></direction>";
    let stop = octaves.replace("'up'", "'stop'");
    let over_staves = octaves.to_owned() + &note("C4", 12, "") + &chord("C5", 12, "<staff>2</staff>") + &stop;
    let no_time = "<note><rest measure='yes'/><duration>-0</duration></note>".to_owned() + &note("C4", 4, "");
    let chord_on_a_rest = "<note><rest/><duration>12</duration></note>".to_owned() + &chord("E4", 12, "");
    for bar in [endless, long, chord_alone, over_staves, no_time, chord_on_a_rest] {
        assert!(read(score(&[&bar]).as_bytes()).is_ok(), "{bar}");
        use_up(score(&[&bar]).as_bytes());
    }
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
