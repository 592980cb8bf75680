//! Engraved sheets to be looked at, in `target/gallery`: each sign at least once. What was seen in them is
//! written down in `GALLERY.md`.

use super::{
    cases::cases,
    forms::practice_sheet,
    pinned::pin,
    read_cases::read_cases,
    sheet,
    written::{With, bar, onsets, part},
};
use tailfirst::{
    music::{Part, musicxml, study, written::Clef},
    notation::{
        Glyph,
        drawing::Form,
        engraving::{Focus, Scroll, Sheet},
    },
};

fn write(name: &str, sheet: &Sheet) {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("gallery");
    std::fs::create_dir_all(&folder).expect("a folder");
    for (theme_name, theme) in [("light", sheet::LIGHT), ("dark", sheet::DARK)] {
        let path = folder.join(format!("{name}-{theme_name}.svg"));
        std::fs::write(path, sheet::svg(&sheet.drawing, theme)).expect("a file");
    }
}

/// The part with a span in ink, as large as it can be.
fn focused(
    part: &Part,
    (first, last): (usize, usize),
    plays: &dyn Fn(u8) -> bool,
    (width, height): (f32, f32),
) -> Sheet {
    let onsets = onsets(part);
    let last = last.min(onsets.len() - 1);
    practice_sheet(
        part,
        &Focus { onsets: &onsets, span: (first.min(last), last), goal: last, aim: last, plays },
        width,
        height,
    )
}

#[test]
fn the_study_is_drawn_for_every_screen() {
    let score = study::score();
    let both = |_| true;
    let right = |staff| staff == 1;
    let left = |staff| staff == 2;
    type Case<'a> = (&'a str, std::ops::RangeInclusive<usize>, (usize, usize), &'a dyn Fn(u8) -> bool);
    let spans: [Case; 5] = [
        ("bars", 0..=4, (7, 15), &both),
        ("long", 3..=8, (9, 32), &both),
        ("right", 7..=8, (2, 9), &right),
        ("left", 6..=8, (4, 15), &left),
        ("goal", 4..=8, (12, 12), &both),
    ];
    for (name, bars, span, plays) in spans {
        let cut = score.parts[0].excerpt(bars);
        for (screen, size) in [
            ("tablet", (1180.0, 330.0)),
            ("upright", (820.0, 420.0)),
            ("tall", (820.0, 640.0)),
            ("phone", (370.0, 260.0)),
        ] {
            let sheet = focused(&cut, span, plays, size);
            println!("study-{name} {screen}: {:.1} px a space", sheet.space);
            assert!(sheet.places.len() > span.1.min(onsets(&cut).len() - 1) - span.0, "the span is shown");
            write(&format!("study-{name}-{screen}"), &sheet);
        }
    }
    let scroll = Scroll::new(&score.parts[0], 1180.0, 12.0);
    for system in 0..scroll.systems.len() {
        let sheet = scroll.draw(&score.parts[0], system, None);
        write(&format!("scroll-{system}"), &sheet);
        pin(&format!("scroll-{system}"), &sheet);
    }
}

#[test]
fn constructed_cases_show_each_sign() {
    for (name, part) in cases().into_iter().chain(read_cases()) {
        let all = onsets(&part).len() - 1;
        let sheet = focused(&part, (0, all), &|_| true, (1180.0, 420.0));
        println!("case-{name}: {:.1} px a space", sheet.space);
        assert_eq!(sheet.places.len(), all + 1, "{name} is shown whole");
        write(&format!("case-{name}"), &sheet);
        pin(&format!("case-{name}"), &sheet);
    }
}

/// What changes where a system begins is announced at the end of the one before, and there alone.
#[test]
fn a_change_at_a_new_system_is_announced_at_the_end_of_the_one_before() {
    let quiet = |meter, fifths, clefs: &[Clef]| bar(meter, fifths, &[(1, "C5:2"), (2, "C3:2")]).clefs(clefs);
    let usual = [Clef::TREBLE, Clef::BASS];
    let score = |before: usize| {
        let bars = (0..before + 4).map(|nth| match nth < before {
            true => quiet("2/4", 2, &usual),
            false => quiet("2/2", -3, &[Clef::BASS, Clef::BASS]),
        });
        part(bars.collect())
    };
    let broken = |before: usize| {
        let part = score(before);
        let scroll = Scroll::new(&part, 300.0, 9.0);
        let change = scroll.systems.iter().position(|system| system.bars.start == before)?;
        Some((part, scroll, change))
    };
    let (part, scroll, change) = (2..9).find_map(broken).expect("a system that begins with the change");
    let count = |system, wanted: &[Glyph]| {
        let sheet = scroll.draw(&part, system, None);
        write(&format!("courtesy-{system}"), &sheet);
        pin(&format!("courtesy-{system}"), &sheet);
        let is_wanted = |form: &Form| matches!(form, Form::Glyph { glyph, .. } if wanted.contains(glyph));
        sheet.drawing.shapes.iter().filter(|shape| is_wanted(&shape.form)).count()
    };
    let flats: Vec<usize> = (0..scroll.systems.len()).map(|system| count(system, &[Glyph::Flat])).collect();
    let bass: Vec<usize> = (0..scroll.systems.len()).map(|system| count(system, &[Glyph::FClef])).collect();
    let expected = |before, at, behind, nth: usize| match nth + 1 {
        next if next < change => before,
        next if next == change => at,
        _ => behind,
    };
    // On each of two staves three flats; one bass clef more.
    assert_eq!(flats, (0..scroll.systems.len()).map(|nth| expected(0, 6, 6, nth)).collect::<Vec<_>>());
    assert_eq!(bass, (0..scroll.systems.len()).map(|nth| expected(1, 2, 2, nth)).collect::<Vec<_>>());
}

/// The scores that the reader is tested with, scrolled through, and practised from in the middle.
#[test]
fn whole_scores_are_drawn_system_by_system() {
    for name in ["aloha_oe", "polonaise_op1n1", "polonaise_op1n3"] {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/scores/{name}.mxl"));
        let score = musicxml::read(&std::fs::read(path).expect("a file")).expect("a score").score;
        let part = score.parts.iter().max_by_key(|part| part.staves).expect("a part");
        let scroll = Scroll::new(part, 1180.0, 11.0);
        for system in 0..scroll.systems.len() {
            let sheet = scroll.draw(part, system, None);
            assert!((sheet.drawing.height - scroll.systems[system].height).abs() < 0.1);
            write(&format!("score-{name}-{system:02}"), &sheet);
        }
        let cut = part.excerpt(4..=9);
        for (screen, size) in [("tablet", (1180.0, 330.0)), ("tall", (820.0, 700.0))] {
            let sheet = focused(&cut, (12, 60), &|_| true, size);
            println!("practise-{name} {screen}: {:.1} px a space", sheet.space);
            write(&format!("practise-{name}-{screen}"), &sheet);
        }
    }
}
