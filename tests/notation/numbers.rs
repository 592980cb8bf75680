//! The numbers in `GALLERY.md`, measured anew. `WRITE=gallery cargo test --test notation` writes them there.

use super::{
    cases::cases,
    forms::{beams, everything, stems},
    read_cases::read_cases,
    written::{bar, part},
};
use std::path::Path;
use tailfirst::{
    music::Part,
    notation::engraving::{Scroll, Sheet},
};

const BEGIN: &str = "<!-- measured by tests/notation/numbers.rs -->\n";
const END: &str = "<!-- end of what is measured -->";

fn line(meter: &str, notes: &str) -> Sheet {
    everything(&part(vec![bar(meter, 0, &[(1, notes)])]), 1180.0, 300.0)
}

fn joined(numbers: impl IntoIterator<Item = f32>) -> String {
    numbers.into_iter().map(|number| format!("{number:.2}")).collect::<Vec<_>>().join(", ")
}

/// Spaces of a half, a quarter, an eighth and a sixteenth in one stretched bar, and how each is wider than the next.
fn spaces() -> [String; 2] {
    let sheet = line("4/1", "G4:2 G4:2 G4:4 G4:4 G4:8 G4:8 G4:16 G4:16 r:4. r:2 r:1 r:1");
    let xs: Vec<f32> = sheet.places.iter().map(|place| place.x / sheet.space).collect();
    let spaces = [0, 2, 4, 6].map(|onset| xs[onset + 1] - xs[onset]);
    [joined(spaces), joined(spaces.windows(2).map(|pair| pair[0] / pair[1]))]
}

/// From the middle of the head, without the line's own ends.
fn stem(note: &str) -> f32 {
    let sheet = line("1/4", &format!("{note}:4"));
    let [_, top, _, bottom] = stems(&sheet)[0];
    (bottom - top) / sheet.space - 0.12 + 0.16
}

fn slant(notes: &str) -> f32 {
    let sheet = line("4/4", notes);
    let [a, b, ..] = beams(&sheet)[0];
    ((b.1 - a.1) / sheet.space).abs()
}

fn drawn(part: &Part) -> Sheet {
    Scroll::new(part, 2000.0, 14.0).draw(part, 0, None)
}

/// Over all cases of the gallery: the steepest beam and the shortest stem.
fn extremes() -> [f32; 2] {
    let sheets: Vec<Sheet> = cases().into_iter().chain(read_cases()).map(|(_, part)| drawn(&part)).collect();
    let beams = sheets.iter().flat_map(beams).filter(|[a, b, ..]| b.0 - a.0 > 20.0);
    let steepest = beams.map(|[a, b, ..]| ((b.1 - a.1) / (b.0 - a.0)).abs()).fold(0.0, f32::max);
    let lengths = sheets
        .iter()
        .flat_map(|sheet| stems(sheet).into_iter().map(|[_, top, _, bottom]| (bottom - top) / sheet.space - 0.12));
    // Those of grace notes are shorter, as they are smaller.
    [steepest, lengths.filter(|length| *length > 2.2).fold(f32::MAX, f32::min)]
}

fn measured() -> String {
    let ([spaces, ratios], [steepest, shortest]) = (spaces(), extremes());
    let rows = [
        (
            "space of a half, a quarter, an eighth, a sixteenth",
            "each doubling wider by √2 (Gould: 7, 5, 3.5, 2.5)",
            spaces,
        ),
        ("each beside the next", "1.41", ratios),
        ("stem of C4, G4, B4, F5", "3.5, an octave (Ross, Gould)", joined(["C4", "G4", "B4", "F5"].map(stem))),
        ("stem of A3, C6, E6", "to the middle line (Ross, Gould)", joined(["A3", "C6", "E6"].map(stem))),
        (
            "slant of a second, a third, a sixth",
            "0.25, 0.5, at most 1.25 (Ross), and the beam's overhang of half a stem at each end",
            joined(["C5:8 D5:8 r:2.", "E5:8 C5:8 r:2.", "E4:8 C5:8 r:2."].map(slant)),
        ),
        ("slant where an inner note is nearest", "level (Ross, Gould)", joined([slant("C5:8 A5:8 E5:8 C5:8 r:2")])),
        ("steepest beam of the cases", "a quarter, about 14° (common practice, no source)", joined([steepest])),
        ("shortest stem of the cases, grace notes aside", "2.5 (Gould), less what the head covers", joined([shortest])),
    ];
    let row = |(what, rule, number): &(&str, &str, String)| format!("| {what} | {rule} | {number} |\n");
    format!("| what | the rule | measured |\n| --- | --- | --- |\n{}", rows.iter().map(row).collect::<String>())
}

#[test]
fn the_numbers_of_the_gallery_are_those_that_are_measured() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/notation/GALLERY.md");
    let text = std::fs::read_to_string(&path).expect("a text");
    let (before, rest) = text.split_once(BEGIN).expect("where the numbers begin");
    let (written, after) = rest.split_once(END).expect("where the numbers end");
    let measured = measured();
    if std::env::var_os("WRITE").is_some_and(|what| what == "gallery") {
        return std::fs::write(&path, format!("{before}{BEGIN}{measured}{END}{after}")).expect("written");
    }
    assert_eq!(written, measured);
}
