//! Engraved sheets to be looked at, in `target/gallery`: each sign at least once. What was seen in them is
//! written down in `GALLERY.md`.

use super::{
    sheet,
    written::{With, bar, onsets, part, quarters, span},
};
use tailfirst::{
    music::{
        Part, musicxml, study,
        written::{Barline, Clef, ClefChange, ClefSign, Ending, EndingEnd, MeterSign, Pedalling, Says, Spans, Value},
    },
    notation::{
        drawing::Form,
        engraving::{Focus, Glyph, Scroll, Sheet, practice_sheet},
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
        write(&format!("scroll-{system}"), &scroll.draw(&score.parts[0], system, None));
    }
}

/// Values from the breve to the 128th, notes and rests.
fn values() -> Part {
    part(vec![
        bar("4/4", 0, &[(1, "G4:2 B4:4 D5:8 F5:8"), (2, "C3:1")]).sign(MeterSign::Common),
        bar(
            "4/4",
            0,
            &[
                (1, "C5:16 D5:16 E5:8 F5:32 G5:32 A5:32 B5:32 C6:8. B5:16 A5:4"),
                (2, "r:4 r:8 r:16 r:32 r:64 r:128 C3:128 r:2"),
            ],
        ),
        bar("4/2", 0, &[(1, "A4:0"), (2, "R:0")]),
    ])
}

/// Keys, meters, accidentals of every kind, chords with seconds.
fn keys() -> Part {
    part(vec![
        bar("3/4", 4, &[(1, "E5:4 G5:8 Gb5:8 G##5:4"), (2, "E3:2 Gbb3:4")]),
        bar("3/4", -5, &[(1, "D?5:4 Gb4+Ab4+Bb4:2"), (2, "C3:2.")]),
        bar("2/2", 0, &[(1, "C#5+E5+F#5+G#5:2 C5+Db5+F5:2"), (2, "F3+G3+A3+B3:1")]).sign(MeterSign::Cut),
        bar("12/8", 2, &[(1, "D5:4. E5:4. F5:4. F#5:4."), (2, "D3:2. A2:2.")]),
    ])
}

/// Flags up and down, dotted rests, ledger lines.
fn flags() -> Part {
    part(vec![
        bar(
            "4/4",
            0,
            &[
                (1, "C4:8 r:8 A5:8 r:8 D4:16 r:8. B5:32 r:16. r:8"),
                (2, "E2:64 r:8... r:32. E4:128 r:4 r:8 C3:8. r:16 r:4"),
            ],
        ),
        bar("4/4", 0, &[(1, "G6:4 A3:4 C4+C6:2"), (2, "C5:4 B1:4 E2+C3+G3+E4:2")]),
    ])
}

/// Beams: level, slanting, broken, of up to four.
fn beams() -> Part {
    part(vec![
        bar(
            "4/4",
            0,
            &[
                (1, "C5:8 D5:8 E5:8 F5:8 G4:8 C6:8 C6:8 G4:8"),
                (2, "C3:16 E3:16 G3:16 C4:16 C4:16 G2:16 C4:16 G2:16 F3:8 A3:8 F3:8 A3:8"),
            ],
        ),
        bar(
            "4/4",
            0,
            &[
                (1, "E5:8. D5:16 C5:16 D5:8. A4:16 B4:8 C5:16 D5:32 C5:32 B4:32 A4:32 G4:8"),
                (2, "C4:8 B3:8 A3:8 G3:8 F3:64 E3:64 D3:64 C3:64 F3:16 r:8 E3:4"),
            ],
        ),
        bar("6/8", 0, &[(1, "E4:8 F4:8 G4:8 A4:8 r:8 C5:8"), (2, "C3:4 D3:8 E3:16 F3:16 G3:8 A3:8")]),
    ])
}

/// Two voices on a staff: seconds, shared and unlike unisons, rests.
fn voices() -> Part {
    part(vec![
        bar(
            "4/4",
            -1,
            &[(1, "A4:4 B4:8 C5:8 D5:4 E5:4"), (1, "F4:2 D5:4 r:4"), (2, "F3:4 A3:4 G3:4 B3:4"), (2, "F2:2. r:4")],
        ),
        bar(
            "4/4",
            -1,
            &[
                (1, "G4:2 F4:4. E4:8"),
                (1, "G4:4 F4:4 G4:2"),
                (2, "r:2 C4:4 C4:4"),
                (2, "C3:8 D3:8 E3:8 F3:8 G3:4. F3:8"),
            ],
        ),
    ])
}

/// Articulations, ornaments, arpeggios, fermatas.
fn signs() -> Part {
    part(vec![
        bar("4/4", 0, &[(1, "C5:4/. D5:4/- E5:4/> F5:4/^"), (2, "C3:4/! D3:4/-. E3:4/.,> F3:4/-,>")]),
        bar(
            "4/4",
            0,
            &[
                (1, "A4:4/trill G4:4/turn,f3 F4:4/mordent E4:4/short"),
                (2, "C3+E3+G3+C4:2/{,f5,f3,f2,f1 C3:4/inverted G2:4/tremolo"),
            ],
        ),
        bar("4/4", 0, &[(1, "C4+G4+E5:2/{,f1,f3,f5 B4:2/o,f2-3"), (2, "C3:2/f1 D3:2/o,f5")]),
    ])
}

/// Dynamic marks, hairpins, pedal.
fn dynamics() -> Part {
    let mut drawn = part(vec![
        bar("3/4", 1, &[(1, "G4:4 A4:4 B4:4"), (2, "G2:4 D3:4 G3:4")]).dynamic("0", 1, "pp"),
        bar("3/4", 1, &[(1, "C5:4 D5:4 E5:4"), (2, "A2:4 E3:4 A3:4")]).dynamic("2", 1, "mf"),
        bar("3/4", 1, &[(1, "F#5:4 D5:2"), (2, "D3:4 D2+F#3:2")]).dynamic("0", 1, "sfz").dynamic("1", 1, "rf"),
    ]);
    span(&mut drawn, Spans::Crescendo, 1, "", "1:1", "2:2");
    span(&mut drawn, Spans::Diminuendo, 1, "", "3:3/2", "3:5/2");
    span(&mut drawn, Spans::Pedal(Pedalling::Signs), 2, "", "1:0", "2:0");
    span(&mut drawn, Spans::Pedal(Pedalling::Signs), 2, "", "2:0", "3:1");
    drawn
}

/// Ties and slurs.
fn curves() -> Part {
    let mut drawn = part(vec![
        bar("4/4", 0, &[(1, "E4:8 G4:8 C5:8 E5:8 G5:4. F5:8~"), (2, "C3+G3:1~")]),
        bar("4/4", 0, &[(1, "=F5:4 E5:8 D5:8 C5:2"), (2, "=C3+=G3:2 G3:4~ =G3:4")]),
        bar("4/4", 0, &[(1, "C6:4 E5:4 D5:4 B4:4"), (2, "C4:4 F2:4 G2:4 C3:4")]),
    ]);
    span(&mut drawn, Spans::Slur, 1, "1", "1:0", "1:2");
    span(&mut drawn, Spans::Slur, 1, "1", "2:1", "2:2");
    span(&mut drawn, Spans::Slur, 1, "1", "3:0", "3:3");
    span(&mut drawn, Spans::Slur, 2, "2", "3:0", "3:3");
    drawn
}

/// Tuplets with and without brackets.
fn tuplets() -> Part {
    let mut drawn = part(vec![
        bar("2/4", 0, &[(1, "C5:8/t3 D5:8/t3 E5:8/t3 F5:4/t3 E5:8/t3"), (2, "C3:4 G3:4")]),
        bar(
            "2/4",
            0,
            &[
                (1, "C5:16/t5 D5:16/t5 E5:16/t5 F5:16/t5 G5:16/t5 r:8/t3 A4:8/t3 B4:8/t3"),
                (2, "C3:8/t3 E3:8/t3 G3:8/t3 C3:16/t6 E3:16/t6 G3:16/t6 C4:16/t6 G3:16/t6 E3:16/t6"),
            ],
        ),
    ]);
    for (staff, voice, figure, from, to) in [
        (1, "1", 3, "1:0", "1:2/3"),
        (1, "1", 3, "1:1", "1:5/3"),
        (1, "1", 5, "2:0", "2:4/5"),
        (1, "1", 3, "2:1", "2:5/3"),
        (2, "2", 3, "2:0", "2:2/3"),
        (2, "2", 6, "2:1", "2:11/6"),
    ] {
        span(&mut drawn, Spans::Tuplet { figure, bracket: None }, staff, voice, from, to);
    }
    drawn
}

/// Grace notes, notes across the staves, an octave sign.
fn graces() -> Part {
    let mut drawn = part(vec![
        bar("3/4", 0, &[(1, "D5:8/gs C5:4 F#5:16/g G5:16/g A5:4 B4:8/gs A4:4"), (2, "C3:2 E3:8/gs,s1 F3:4")]),
        bar("3/4", 0, &[(1, "E4:8 G4:8 C4:8/s2 E3:8/s2 G4:8 C5:8"), (2, "C2:2.")]),
        bar("3/4", 0, &[(1, "C6:4 E6:4 G6:4"), (2, "C3:4/s1 E3:4 G2:4")]),
    ]);
    span(&mut drawn, Spans::Octave(1), 1, "", "3:0", "3:3");
    drawn
}

/// Clefs, changes of them, repeats and endings.
fn clefs() -> Part {
    let mut drawn = part(vec![
        bar("2/4", 3, &[(1, "C#4:4 E5:4"), (2, "A2:4 E4:4")])
            .clefs(&[Clef { sign: ClefSign::C, line: 3, octaves: 0 }, Clef::BASS]),
        bar("2/4", 3, &[(1, "A3:4 C#4:4"), (2, "A4:4 C#5:4")])
            .clefs(&[Clef { sign: ClefSign::C, line: 4, octaves: 0 }, Clef::TREBLE])
            .lines(Barline::Repeat, Barline::Single),
        bar("2/4", 3, &[(1, "E3:4 E3:4"), (2, "E4:2")])
            .clefs(&[Clef { sign: ClefSign::G, line: 2, octaves: -1 }, Clef::TREBLE])
            .lines(Barline::Single, Barline::Repeat),
        bar("2/4", 3, &[(1, "A3:2"), (2, "A4:2")])
            .clefs(&[Clef { sign: ClefSign::G, line: 2, octaves: -1 }, Clef::TREBLE])
            .lines(Barline::Single, Barline::Final),
    ]);
    let change = |at: &str, staff, clef| ClefChange { at: quarters(at), staff, clef };
    drawn.bars[0].written.clef_changes.push(change("1", 2, Clef::TREBLE));
    drawn.bars[1].written.clef_changes.push(change("2", 1, Clef { sign: ClefSign::G, line: 2, octaves: -1 }));
    let ending = |text: &str, ends| Some(Ending { text: text.into(), begins: true, ends });
    drawn.bars[2].written.ending = ending("1.", EndingEnd::Hook);
    drawn.bars[3].written.ending = ending("2.", EndingEnd::Open);
    drawn
}

/// A rhythm on one line.
fn line() -> Part {
    let mut drawn = part(vec![
        bar("4/4", 0, &[(1, "B4:4/> B4:8 B4:16 B4:16 B4:4. B4:8~")]).clefs(&[Clef::PERCUSSION]),
        bar("4/4", 0, &[(1, "=B4:4 r:4 B4:8/t3 B4:8/t3 B4:8/t3 B4:4")]).clefs(&[Clef::PERCUSSION]),
    ]);
    drawn.lines = 1;
    span(&mut drawn, Spans::Tuplet { figure: 3, bracket: None }, 1, "1", "2:2", "2:8/3");
    drawn
}

/// Trills with lines, tremolos through a stem and between two notes.
fn alternations() -> Part {
    let mut drawn = part(vec![
        bar("4/4", 0, &[(1, "E5:2/trill G5:4/trill,f3 A5:4"), (2, "C3:4/tremolo E3:4/tremolo G2:2/tremolo")]),
        bar("4/4", 0, &[(1, "C5:2~/trill =C5:4 D5:4"), (2, "C3:2/h G3:2/h C3:4/h E3:4/h C4:8/h G3:8/h G2:4")]),
        bar("4/4", 0, &[(1, "C5+E5:1/h A4+F5:1/h"), (2, "C3+G3:1/h,s2 E3+C4:1/h")]),
    ]);
    span(&mut drawn, Spans::Trill, 1, "1", "1:0", "1:0");
    span(&mut drawn, Spans::Trill, 1, "1", "1:2", "1:3");
    span(&mut drawn, Spans::Trill, 1, "1", "2:0", "2:2");
    for (staff, strokes, from, to) in [
        (2, 3, "2:0", "2:1"),
        (2, 3, "2:2", "2:5/2"),
        (2, 2, "2:3", "2:13/4"),
        (1, 3, "3:0", "3:2"),
        (2, 2, "3:0", "3:2"),
    ] {
        span(&mut drawn, Spans::Tremolo(strokes), staff, ["1", "2"][staff as usize - 1], from, to);
    }
    drawn
}

/// Pedal lines: pressed, changed, released; after a sign; through to the end.
fn pedals() -> Part {
    let mut drawn = part(vec![
        bar("4/4", 0, &[(1, "E5:2 G5:2"), (2, "C3:4 G3:4 B2:4 G3:4")]),
        bar("4/4", 0, &[(1, "E5:2 C5:2"), (2, "A2:4 E3:4 C2:4 G3:4")]),
    ]);
    span(&mut drawn, Spans::Pedal(Pedalling::Line), 2, "", "1:0", "1:2");
    span(&mut drawn, Spans::Pedal(Pedalling::Line), 2, "", "1:2", "1:4");
    span(&mut drawn, Spans::Pedal(Pedalling::SignAndLine), 2, "", "2:0", "2:3");
    drawn
}

/// Beams across the staves: falling, rising, to and fro, of two kinds.
fn across() -> Part {
    part(vec![
        bar("2/4", 0, &[(1, "C5:16 G4:16 E4:16/s2 C4:16/s2 C3:16/s2 G3:16/s2 E4:16 C5:16"), (2, "C2:2")]),
        bar("2/4", 0, &[(1, "E5:8 A4:16 C4:16/s2 A3:8/s2 C5:8"), (2, "A2:2")]),
        bar("2/4", 0, &[(1, "D5:8 B4:8 G3:8/s2 D3:8/s2"), (2, "G2:2")]),
    ])
}

/// What stands close together: many accidentals, dots beside seconds, rests of two voices, grace chords, tuplets over
/// beams, a fermata over a rest, an arpeggio beside accidentals.
fn dense() -> Part {
    let mut drawn = part(vec![
        bar(
            "4/4",
            0,
            &[(1, "C#5+Eb5+F#5+G#5+B5:4. r:8/o F4+G4+A4:4. C5:8/."), (2, "Bb2+Db3+Eb3+Gb3:2./{ C3+D3+E3+F3:4.")],
        ),
        bar(
            "4/4",
            0,
            &[
                (1, "r:4 E5:8 F5:8 r:8 G5:4. "),
                (1, "A4:8 B4:8 r:4 G4:4 r:4"),
                (2, "C#3+E3:8/g D3+F3:4/g,gs E3+G#3:2 A2:8/t3 C3:8/t3 E3:8/t3 A3:16 G3:32 F3:32 E3:16. D3:32"),
            ],
        ),
    ]);
    span(&mut drawn, Spans::Tuplet { figure: 3, bracket: None }, 2, "3", "2:2", "2:8/3");
    span(&mut drawn, Spans::Slur, 2, "3", "2:2", "2:31/8");
    drawn
}

/// How fast and how, with dynamic marks and hairpins; a place with a name.
fn words() -> Part {
    let manner = |text: &str| Says::Manner(text.into());
    let metronome = |beat, dots| Says::Metronome { beat, dots, rate: "ca. 72".into() };
    let mut drawn = part(vec![
        bar("4/4", 0, &[(1, "C5:4/f3 E5:4 G5:4/f5 E5:4"), (2, "C3:4 G3:4 E3:4 G3:4")])
            .dynamic("0", 1, "p")
            .says("0", 1, Some(true), Says::Tempo("Allegretto".into()))
            .says("0", 1, Some(true), metronome(Value::Quarter, 1))
            .says("0", 1, Some(false), manner("dolce")),
        bar("4/4", 0, &[(1, "D5:4 F5:4 A5:4 F5:4"), (2, "D3:4 A3:4 F3:4 A3:4")])
            .says("0", 1, None, Says::Rehearsal("B".into()))
            .says("2", 1, None, manner("espressivo")),
        bar("4/4", 0, &[(1, "E5:4 D5:4 C5:2"), (2, "G2:2 C3:2")])
            .says("0", 1, Some(true), Says::Tempo("rit.".into()))
            .says("0", 2, Some(false), manner("sopra"))
            .says("2", 1, Some(true), metronome(Value::Eighth, 0)),
    ]);
    span(&mut drawn, Spans::Crescendo, 1, "", "2:0", "2:3");
    drawn
}

/// The constructed cases.
fn cases() -> [(&'static str, Part); 17] {
    [
        ("dense", dense()),
        ("across", across()),
        ("words", words()),
        ("alternations", alternations()),
        ("pedals", pedals()),
        ("values", values()),
        ("keys", keys()),
        ("flags", flags()),
        ("beams", beams()),
        ("voices", voices()),
        ("signs", signs()),
        ("dynamics", dynamics()),
        ("curves", curves()),
        ("tuplets", tuplets()),
        ("graces", graces()),
        ("clefs", clefs()),
        ("line", line()),
    ]
}

#[test]
fn constructed_cases_show_each_sign() {
    for (name, part) in cases() {
        let all = onsets(&part).len() - 1;
        let sheet = focused(&part, (0, all), &|_| true, (1180.0, 420.0));
        println!("case-{name}: {:.1} px a space", sheet.space);
        assert_eq!(sheet.places.len(), all + 1, "{name} is shown whole");
        write(&format!("case-{name}"), &sheet);
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
