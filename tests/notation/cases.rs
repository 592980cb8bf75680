//! The constructed cases of the gallery, of one subject each.

use super::written::{With, bar, part, quarters, span};
use tailfirst::music::{
    Part,
    written::{Barline, Clef, ClefChange, ClefSign, Ending, EndingEnd, MeterSign, Pedalling, Says, Spans, Value},
};

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
pub fn cases() -> [(&'static str, Part); 17] {
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
