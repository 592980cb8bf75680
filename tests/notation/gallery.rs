//! Engraved sheets to be looked at, in `target/gallery`.

use super::sheet;
use tailfirst::{
    music::{Page, Part, Quarters, study},
    notation::engraving::{Focus, Scroll, Sheet, practice_sheet},
};

fn write(name: &str, sheet: &Sheet) {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("gallery");
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join(format!("{name}.svg")), sheet::svg(&sheet.drawing, sheet::LIGHT)).expect("a file");
}

/// The places where something begins that is no tied continuation.
fn onsets(part: &Part) -> Vec<Quarters> {
    let mut start = Quarters::ZERO;
    let mut onsets = Vec::new();
    for bar in &part.bars {
        onsets.extend(bar.attacks.iter().map(|attack| start + attack.at));
        start += bar.length;
    }
    onsets.sort_unstable();
    onsets.dedup();
    onsets
}

#[test]
fn the_study() {
    let score = study::score();
    let part = &score.parts[0];
    let hands = part.usual_hands();
    for (name, bars, first, last, right_only) in [
        ("study-a", 0..=4, 6, 14, false),
        ("study-b", 3..=8, 10, 30, false),
        ("study-rest", 7..=8, 2, 9, true),
        ("study-goal", 4..=8, 12, 12, false),
    ] {
        let passage = part.cut(bars.clone(), &hands).expect("a passage");
        let cut = part.excerpt(bars);
        let has_written = cut.bars.iter().any(|bar| !bar.written.voices.is_empty());
        let page = Page::of(&passage, has_written.then_some(&score));
        let places: Vec<Quarters> =
            if has_written { onsets(&page.part) } else { passage.onsets().iter().map(|onset| onset.at).collect() };
        let last = last.min(places.len() - 1);
        let plays = |staff: u8| !right_only || staff == 1;
        let focus = Focus { onsets: &places, span: (first, last), goal: last, aim: last, plays: &plays };
        for (size, width, height) in [("tablet", 1180.0, 330.0), ("upright", 820.0, 420.0), ("phone", 370.0, 260.0)] {
            let sheet = practice_sheet(&page.part, &focus, width, height);
            println!("{name} {size}: {:.1} px a space, {} shapes", sheet.space, sheet.drawing.shapes.len());
            write(&format!("{name}-{size}"), &sheet);
        }
    }
    let page = Page::of(&part.cut(0..=8, &hands).expect("a passage"), None);
    let scroll = Scroll::new(&page.part, 1180.0, 12.0);
    for system in 0..scroll.systems.len() {
        write(&format!("scroll-{system}"), &scroll.draw(&page.part, system, None));
    }
}
