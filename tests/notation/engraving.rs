//! What holds of an engraved sheet whatever is written: nothing covers what it must not, stems are as long as
//! stems are, beams do not slant too far, all is in its place, and the same again each time.

use super::written::{bar, onsets, part, quarters, span};
use proptest::prelude::*;
use tailfirst::{
    music::{
        Part, Quarters,
        passage::Articulation,
        score::{Dynamic, ScoreBar},
        written::{
            Accidental, Anchor, Barline, Beam, Clef, ClefChange, ClefSign, Diatonic, Event, Grace, Head, Kind,
            MeterSign, Ornament, Pedalling, Says, Spanner, Spans, Stem, Value, Voice, Words, WrittenBar,
        },
    },
    notation::{
        Ink, Shape,
        drawing::Form,
        engraving::{Focus, Glyph, Scroll, Sheet, practice_sheet},
    },
};

/// A rectangle: left, top, right, bottom.
type Bounds = [f32; 4];

/// What a shape covers, but for curves, which may cross others.
fn bounds(shape: &Shape) -> Bounds {
    let of = |points: &[(f32, f32)], more: f32| {
        points.iter().fold([f32::MAX, f32::MAX, f32::MIN, f32::MIN], |[left, top, right, bottom], (x, y)| {
            [left.min(x - more), top.min(y - more), right.max(x + more), bottom.max(y + more)]
        })
    };
    match &shape.form {
        Form::Line { from, to, width } => of(&[*from, *to], 0.5 * width),
        Form::Polygon { points } => of(points, 0.0),
        Form::Ellipse { centre: (x, y), radii, .. } => [x - radii.0, y - radii.1, x + radii.0, y + radii.1],
        Form::Glyph { at: (x, y), glyph, space } => {
            let [left, top, right, bottom] = glyph.extent();
            [x + space * left, y + space * top, x + space * right, y + space * bottom]
        }
        Form::Curve { ends, outer, .. } => {
            let middle = |a: (f32, f32), b: (f32, f32)| (0.25 * a.0 + 0.75 * b.0, 0.25 * a.1 + 0.75 * b.1);
            of(&[ends[0], ends[1], middle(ends[0], outer[0]), middle(ends[1], outer[1])], 0.0)
        }
        Form::Text { at: (x, y), size, text, .. } => {
            let half = 0.31 * size * text.chars().count() as f32;
            [x - half, y - 0.38 * size, x + half, y + 0.38 * size]
        }
    }
}

fn meet(a: &Bounds, b: &Bounds) -> bool {
    let more = 0.02;
    a[0] + more < b[2] && b[0] + more < a[2] && a[1] + more < b[3] && b[1] + more < a[3]
}

fn glyphs(sheet: &Sheet, wanted: impl Fn(Glyph) -> bool) -> Vec<Bounds> {
    let is_wanted = |shape: &&Shape| matches!(shape.form, Form::Glyph { glyph, .. } if wanted(glyph));
    sheet.drawing.shapes.iter().filter(is_wanted).map(bounds).collect()
}

fn is_head(glyph: Glyph) -> bool {
    matches!(glyph, Glyph::HeadBlack | Glyph::HeadHalf | Glyph::HeadWhole | Glyph::HeadBreve)
}

fn is_accidental(glyph: Glyph) -> bool {
    matches!(glyph, Glyph::Sharp | Glyph::Flat | Glyph::Natural | Glyph::DoubleSharp | Glyph::DoubleFlat)
}

fn is_rest(glyph: Glyph) -> bool {
    (Glyph::RestBreve..=Glyph::Rest32nd).contains(&glyph)
}

/// Beams and stems of what is in ink: quadrilaterals and upright lines of a stem's width.
fn beams(sheet: &Sheet) -> Vec<[(f32, f32); 4]> {
    let corners = |shape: &Shape| match &shape.form {
        Form::Polygon { points } if points.len() == 4 && shape.ink == Ink::Full => {
            Some([points[0], points[1], points[2], points[3]])
        }
        _ => None,
    };
    sheet.drawing.shapes.iter().filter_map(corners).collect()
}

fn stems(sheet: &Sheet) -> Vec<Bounds> {
    let is_stem = |shape: &&Shape| {
        let upright = matches!(shape.form, Form::Line { from, to, width } if from.0 == to.0 && (width / sheet.space - 0.12).abs() < 0.01);
        upright && shape.ink == Ink::Full
    };
    sheet.drawing.shapes.iter().filter(is_stem).map(bounds).collect()
}

/// Points along both edges of a curve.
fn curve_points(form: &Form) -> Vec<(f32, f32)> {
    let Form::Curve { ends: [from, to], outer, inner } = form else { return Vec::new() };
    let cubic = |[a, b]: &[(f32, f32); 2], t: f32| {
        let (u, mix) = (1.0 - t, |p: [f32; 4], t: f32, u: f32| {
            u * u * u * p[0] + 3.0 * u * u * t * p[1] + 3.0 * u * t * t * p[2] + t * t * t * p[3]
        });
        (mix([from.0, a.0, b.0, to.0], t, u), mix([from.1, a.1, b.1, to.1], t, u))
    };
    (0..=40).flat_map(|step| [cubic(outer, step as f32 / 40.0), cubic(inner, step as f32 / 40.0)]).collect()
}

fn holds([left, top, right, bottom]: &Bounds, (x, y): (f32, f32)) -> bool {
    (left..right).contains(&&x) && (top..bottom).contains(&&y)
}

/// Whether a point is in a beam, by more than so much.
fn is_in_beam([a, b, c, d]: &[(f32, f32); 4], (x, y): (f32, f32), by: f32) -> bool {
    let at = |from: &(f32, f32), to: &(f32, f32)| from.1 + (x - from.0) / (to.0 - from.0) * (to.1 - from.1);
    let (one, other) = (at(a, b), at(d, c));
    (a.0..b.0).contains(&x) && (one.min(other) + by..one.max(other) - by).contains(&y)
}

/// The staff's voice and, of all its events in a row, bar and place of this one and whether it is a note.
fn event_of(part: &Part, staff: u8, nth: usize) -> (isize, Quarters, bool) {
    let voice = usize::from(staff) - 1;
    let events = part.bars.iter().enumerate().flat_map(|(bar, of)| {
        of.written.voices[voice]
            .events
            .iter()
            .map(move |event| (bar as isize, event.at, matches!(event.kind, Kind::Notes(_))))
    });
    let events: Vec<_> = events.collect();
    events[nth % events.len()]
}

fn add_slur(part: &mut Part, staff: u8, from: usize, to: usize, above: Option<bool>) {
    let [(bar, at, note), (end_bar, end, end_note)] = [event_of(part, staff, from), event_of(part, staff, to)];
    if (bar, at) < (end_bar, end) && note && end_note {
        let anchor = |bar, at| Anchor { bar, at, staff, voice: staff.to_string(), grace: 0 };
        part.spanners.push(Spanner { kind: Spans::Slur, from: anchor(bar, at), to: anchor(end_bar, end), above });
    }
}

/// Ties each last chord of the first bar on to the same chord in the next.
fn tie_on(part: &mut Part) {
    let [first, second, ..] = &mut part.bars[..] else { return };
    for (before, after) in first.written.voices.iter_mut().zip(&mut second.written.voices) {
        let (Some(last), Some(next)) = (before.events.last_mut(), after.events.first_mut()) else { continue };
        if let (Kind::Notes(heads), Kind::Notes(_)) = (&mut last.kind, &next.kind) {
            heads.iter_mut().for_each(|head| head.tied_on = true);
            next.kind = last.kind.clone();
            let Kind::Notes(heads) = &mut next.kind else { continue };
            heads.iter_mut().for_each(|head| (head.tied_from, head.tied_on, head.fingering) = (true, false, None));
        }
    }
}

fn everything(part: &Part, width: f32, height: f32) -> Sheet {
    let onsets = onsets(part);
    let last = onsets.len().saturating_sub(1);
    let focus = Focus { onsets: &onsets, span: (0, last), goal: last, aim: last, plays: &|_| true };
    practice_sheet(part, &focus, width, height)
}

const LETTERS: [&str; 7] = ["C", "D", "E", "F", "G", "A", "B"];

prop_compose! {
    /// A chord of up to three notes of a fifth's compass or wider, as shorthand without its value.
    fn any_notes(low: i32, high: i32)(
        places in prop::collection::btree_set(low..high, 1..4),
        signs in prop::collection::vec(0usize..8, 3),
    ) -> String {
        let notes = places.iter().zip(signs).map(|(place, sign)| {
            let sign = ["", "", "", "", "#", "b", "##", "bb"][sign];
            format!("{}{sign}{}", LETTERS[place.rem_euclid(7) as usize], place.div_euclid(7))
        });
        notes.collect::<Vec<_>>().join("+")
    }
}

/// A voice that fills a bar of 4/4.
fn any_voice(low: i32, high: i32) -> impl Strategy<Value = String> {
    let figures = [
        "4 4",
        "8 8 8 8",
        "2",
        "4. 8",
        "8. 16 8 8",
        "16 16 16 16 4",
        "8 16 16 r4",
        "r8 8 4",
        "16 16 16 16 16 16 16 16",
    ];
    let half = (0..figures.len()).prop_flat_map(move |figure| {
        let values: Vec<&'static str> = figures[figure].split(' ').collect();
        let marks = prop::collection::vec(0usize..10, values.len());
        (prop::collection::vec(any_notes(low, high), values.len()), marks).prop_map(move |(notes, marks)| {
            let token = |((notes, value), mark): ((&String, &&str), &usize)| match value.strip_prefix('r') {
                Some(value) => format!("r:{value}"),
                None => {
                    format!("{notes}:{value}/f{},{}", mark % 5 + 1, [".", "-", ">", "^", "", "", "", "", "", ""][*mark])
                }
            };
            notes.iter().zip(&values).zip(&marks).map(token).collect::<Vec<_>>().join(" ")
        })
    });
    (half.clone(), half).prop_map(|(a, b)| format!("{a} {b}"))
}

prop_compose! {
    fn any_bar()(right in any_voice(31, 41), left in any_voice(18, 28), fifths in -7i8..=7) -> ScoreBar {
        bar("4/4", fifths, &[(1, &right), (2, &left)])
    }
}

prop_compose! {
    /// Two voices on the upper staff, as far apart or crossing as may be.
    fn any_two_voices()(upper in any_voice(30, 42), lower in any_voice(26, 38), left in any_voice(18, 28)) -> Part {
        part(vec![bar("4/4", -1, &[(1, &upper), (1, &lower), (2, &left)])])
    }
}

fn any_words() -> impl Strategy<Value = Words> {
    let says = prop::sample::select(vec![
        Says::Manner("dolce".into()),
        Says::Tempo("Allegro".into()),
        Says::Rehearsal("A".into()),
        Says::Metronome { beat: Value::Eighth, dots: 1, rate: "72".into() },
    ]);
    let place = (0i64..4, 1u8..=2, prop::option::of(any::<bool>()));
    (place, says).prop_map(|((at, staff, above), says)| Words { at: Quarters::ONE * at, staff, above, says })
}

fn any_part() -> impl Strategy<Value = Part> {
    prop::collection::vec(any_bar(), 1..3).prop_map(part)
}

prop_compose! {
    /// Eighths or sixteenths that change from staff to staff under their beams.
    fn any_across()(
        value in prop::sample::select(vec![8, 16]),
        notes in prop::collection::vec((any_notes(31, 39), any_notes(20, 28), any::<bool>()), 16),
        whole in any_notes(14, 18),
    ) -> Part {
        let token = |(upper, lower, down): &(String, String, bool)| match down {
            true => format!("{lower}:{value}/s2"),
            false => format!("{upper}:{value}"),
        };
        let voice: Vec<String> = notes[..value].iter().map(token).collect();
        part(vec![bar("4/4", 0, &[(1, &voice.join(" ")), (2, &format!("{whole}:1"))])])
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn no_note_covers_another_nor_its_accidental(part in any_part(), width in 360u16..1180, height in 240u16..500) {
        let sheet = everything(&part, f32::from(width), f32::from(height));
        let heads = glyphs(&sheet, is_head);
        let accidentals = glyphs(&sheet, is_accidental);
        for (index, head) in heads.iter().enumerate() {
            // Heads a step apart share the stem between them.
            let inner = |[left, top, right, bottom]: Bounds| {
                let by = 0.07 * sheet.space;
                [left + by, top + by, right - by, bottom - by]
            };
            prop_assert!(!heads[index + 1..].iter().any(|other| meet(&inner(*head), &inner(*other))), "{head:?}");
            prop_assert!(!accidentals.iter().any(|accidental| meet(head, accidental)), "{head:?}");
        }
        for (index, accidental) in accidentals.iter().enumerate() {
            prop_assert!(!accidentals[index + 1..].iter().any(|other| meet(accidental, other)), "{accidental:?}");
        }
    }

    /// Voices may share a head, and nothing else.
    #[test]
    fn two_voices_do_not_cover_each_other(part in any_two_voices(), width in 700u16..1180) {
        let sheet = everything(&part, f32::from(width), 400.0);
        let solid = |glyph: Glyph| is_head(glyph) || is_accidental(glyph) || is_rest(glyph);
        let inner = |[left, top, right, bottom]: Bounds| {
            let by = 0.1 * sheet.space;
            [left + by, top + by, right - by, bottom - by]
        };
        let glyphs = glyphs(&sheet, solid);
        for (index, glyph) in glyphs.iter().enumerate() {
            let covers = |other: &&Bounds| *other != glyph && meet(&inner(*glyph), &inner(**other));
            prop_assert!(!glyphs[index + 1..].iter().any(|other| covers(&other)), "{glyph:?}");
        }
    }

    /// A rest that the file places on another voice's note gives way.
    #[test]
    fn placed_rests_cover_no_notes(mut part in any_two_voices(), width in 700u16..1180, placed in 26i16..42) {
        for event in part.bars[0].written.voices[..2].iter_mut().flat_map(|voice| &mut voice.events) {
            if let Kind::Rest { place, .. } = &mut event.kind {
                *place = Some(Diatonic(placed));
            }
        }
        let sheet = everything(&part, f32::from(width), 400.0);
        let heads = glyphs(&sheet, is_head);
        for rest in glyphs(&sheet, is_rest) {
            prop_assert!(!heads.iter().any(|head| meet(&rest, head)), "{rest:?}");
        }
    }

    /// Strokes between two notes touch neither their heads nor their accidentals.
    #[test]
    fn tremolos_stand_between_their_notes(
        (a, b, c, d) in (any_notes(29, 41), any_notes(29, 41), any_notes(29, 41), any_notes(29, 41)),
        (values, strokes, width) in (prop::sample::select(vec![["2", "4", "4"], ["1", "8", ""]]), 1u8..=3, 700u16..1180),
    ) {
        let [first, second, rest] = values;
        let rest = if rest.is_empty() { String::new() } else { format!("r:{rest}") };
        let voice = format!("{a}:{first}/h {b}:{first}/h {c}:{second}/h {d}:{second}/h {rest}");
        let mut part = part(vec![bar("4/4", 0, &[(1, &voice)])]);
        let at = |nth: usize| format!("1:{}", part.bars[0].written.voices[0].events[nth].at);
        let places = [0, 1, 2, 3].map(at);
        if first == "2" {
            span(&mut part, Spans::Tremolo(strokes), 1, "1", &places[2], &places[3]);
        }
        span(&mut part, Spans::Tremolo(strokes), 1, "1", &places[0], &places[1]);
        let sheet = everything(&part, f32::from(width), 300.0);
        let strokes_drawn = beams(&sheet);
        prop_assert!(strokes_drawn.len() >= usize::from(strokes));
        let heads = glyphs(&sheet, |glyph| is_head(glyph) || is_accidental(glyph));
        for beam in &strokes_drawn {
            let by = 0.1 * sheet.space;
            let hit = heads.iter().find(|[left, top, right, bottom]| {
                let xs = [left + by, 0.5 * (left + right), right - by];
                xs.iter().any(|x| [top + by, bottom - by].iter().any(|y| is_in_beam(beam, (*x, *y), by)))
            });
            prop_assert!(hit.is_none(), "{beam:?} in {hit:?} at {} px a space", sheet.space);
        }
    }

    /// Trill lines, pedal lines and octave signs stand clear of notes, of signs and of one another.
    #[test]
    fn lines_along_the_staff_cover_nothing(
        mut part in any_part(),
        (from, to, figure) in (0i64..3, 1i64..4, prop::sample::select(vec![Pedalling::Line, Pedalling::SignAndLine])),
        (width, height) in (500u16..1180, 300u16..500),
    ) {
        let (from, to) = (from.to_string(), (from + to).min(4).to_string());
        let change = |end: &str| format!("1:{end}");
        let is_note = |event: &&mut Event| matches!(event.kind, Kind::Notes(_));
        let trilled = part.bars[0].written.voices[0].events.iter_mut().find(is_note).expect("a note");
        trilled.ornaments = vec![Ornament::Trill];
        let begins = trilled.at.to_string();
        span(&mut part, Spans::Trill, 1, "1", &change(&begins), &change("2"));
        span(&mut part, Spans::Pedal(figure), 2, "", &change(&from), &change(&to));
        span(&mut part, Spans::Pedal(Pedalling::Line), 2, "", &change(&to), "1:4");
        span(&mut part, Spans::Octave(1), 1, "", &change(&from), &change(&to));
        let sheet = everything(&part, f32::from(width), f32::from(height));
        let inner = |[left, top, right, bottom]: Bounds| {
            let by = 0.06 * sheet.space;
            [left + by, top + by, right - by, bottom - by]
        };
        let is_line = |shape: &&Shape| matches!(shape.form, Form::Line { width, .. } if (width / sheet.space - 0.16).abs() < 0.01) && shape.ink == Ink::Full;
        let level = |shape: &&Shape| matches!(shape.form, Form::Line { from, to, .. } if (from.1 - to.1).abs() < 0.01);
        let solid = |glyph| is_head(glyph) || is_accidental(glyph) || is_rest(glyph) || matches!(glyph, Glyph::Accent | Glyph::Tenuto | Glyph::MarcatoAbove);
        let solid = glyphs(&sheet, solid);
        let texts: Vec<Bounds> = sheet.drawing.shapes.iter().filter(|shape| matches!(shape.form, Form::Text { .. })).map(bounds).collect();
        let waves = glyphs(&sheet, |glyph| matches!(glyph, Glyph::Trill | Glyph::TrillWave | Glyph::Pedal));
        prop_assert!(glyphs(&sheet, |glyph| glyph == Glyph::Trill).len() == 1);
        for wave in waves.iter().map(|wave| inner(*wave)) {
            let hit = solid.iter().chain(&texts).find(|other| meet(&wave, &inner(**other)));
            prop_assert!(hit.is_none(), "{wave:?} in {hit:?} at {} px a space", sheet.space);
        }
        // Ledger lines are as thin, but run through heads.
        let ledgers = |line: &Bounds| solid.iter().any(|head| line[0] < head[0] && head[2] < line[2] && line[2] - line[0] < 4.0 * sheet.space);
        for line in sheet.drawing.shapes.iter().filter(is_line).filter(level).map(bounds).filter(|line| !ledgers(line)) {
            let [left, top, right, bottom] = line;
            let grown = [left + 0.5, top - 0.3, right - 0.5, bottom + 0.3];
            let hit = waves.iter().chain(&solid).find(|other| meet(&grown, &inner(**other)));
            prop_assert!(hit.is_none(), "a line {line:?} in {hit:?} at {} px a space", sheet.space);
        }
    }

    #[test]
    fn signs_cover_neither_notes_nor_each_other(mut part in any_part(), width in 500u16..1180, marked in 0usize..8) {
        let mark = |nth: usize| Dynamic { at: quarters(["0", "1", "2", "3"][nth % 4]), staff: 1, mark: "mf".into() };
        part.bars[0].dynamics = vec![mark(marked)];
        span(&mut part, Spans::Diminuendo, 1, "", "1:0", ["1:2", "1:4"][marked / 4]);
        let sheet = everything(&part, f32::from(width), 400.0);
        let notes = glyphs(&sheet, |glyph| is_head(glyph) || is_accidental(glyph) || is_rest(glyph));
        let signs = glyphs(&sheet, |glyph| (Glyph::DynP..=Glyph::PedalUp).contains(&glyph));
        let inner = |[left, top, right, bottom]: Bounds| {
            let by = 0.1 * sheet.space;
            [left + by, top + by, right - by, bottom - by]
        };
        for (index, sign) in signs.iter().enumerate() {
            let sign = inner(*sign);
            let covered = notes.iter().find(|note| meet(&sign, &inner(**note)));
            prop_assert!(covered.is_none(), "{sign:?} covers {covered:?} at {} px a space", sheet.space);
            // The letters of a mark lean over each other.
            let others = signs[index + 1..].iter().map(|other| inner(*other));
            let leaning = 0.9 * sheet.space;
            prop_assert!(!others.into_iter().any(|other| meet(&[sign[0], sign[1], sign[2] - leaning, sign[3]], &other)), "{sign:?}");
        }
    }

    #[test]
    fn no_text_covers_another_or_a_note(
        mut part in any_part(),
        words in prop::collection::vec(any_words(), 0..4),
        (width, height) in (360u16..1180, 240u16..500),
    ) {
        part.bars[0].written.words = words;
        let sheet = everything(&part, f32::from(width), f32::from(height));
        let is_text = |shape: &&Shape| matches!(shape.form, Form::Text { .. });
        let texts: Vec<Bounds> = sheet.drawing.shapes.iter().filter(is_text).map(bounds).collect();
        let others = glyphs(&sheet, |glyph| is_head(glyph) || is_accidental(glyph) || matches!(glyph, Glyph::Accent | Glyph::FlagUp | Glyph::FlagDown));
        for (index, text) in texts.iter().enumerate() {
            // Font-independent widths are generous: what is tested is that the letters are apart.
            let inner = |[left, top, right, bottom]: Bounds| [left + 0.15 * sheet.space, top, right - 0.15 * sheet.space, bottom];
            let covered = texts[index + 1..].iter().find(|other| meet(&inner(*text), &inner(**other)));
            prop_assert!(covered.is_none(), "{text:?} covers {covered:?} at {} px a space", sheet.space);
            let covered = others.iter().find(|other| meet(&inner(*text), other));
            prop_assert!(covered.is_none(), "{text:?} covers the note or sign {covered:?} at {} px a space", sheet.space);
        }
    }

    /// Ties between two bars and slurs from any note to any other go round whatever stands between their ends.
    #[test]
    fn no_curve_runs_through_what_it_spans(
        bars in (any_bar(), any_bar()),
        slurs in prop::collection::vec((1u8..=2, 0usize..32, 0usize..32, prop::option::of(any::<bool>())), 1..4),
        (width, height) in (500u16..1180, 240u16..500),
    ) {
        // A tie may cross a key that changes.
        let fifths = bars.0.fifths;
        let mut part = part(vec![bars.0, ScoreBar { fifths, ..bars.1 }]);
        for (staff, from, to, above) in slurs {
            add_slur(&mut part, staff, from.min(to), from.max(to), above);
        }
        tie_on(&mut part);
        let sheet = everything(&part, f32::from(width), f32::from(height));
        let is_solid = |glyph| !(Glyph::GClef..=Glyph::PercussionClef).contains(&glyph);
        let inner = |[left, top, right, bottom]: Bounds| {
            let by = 0.05 * sheet.space;
            [left + by, top + by, right - by, bottom - by]
        };
        let texts = sheet.drawing.shapes.iter().filter(|shape| matches!(shape.form, Form::Text { .. })).map(bounds);
        let solid: Vec<Bounds> = glyphs(&sheet, is_solid).into_iter().chain(texts).chain(stems(&sheet)).map(inner).collect();
        let points = sheet.drawing.shapes.iter().flat_map(|shape| curve_points(&shape.form).into_iter().map(move |at| (shape, at)));
        let beams = beams(&sheet);
        for (shape, point) in points {
            let hit = solid.iter().find(|bounds| holds(bounds, point));
            prop_assert!(hit.is_none(), "{shape:?} at {point:?} in {hit:?} at {} px a space", sheet.space);
            let beam = beams.iter().find(|beam| is_in_beam(beam, point, 0.05 * sheet.space));
            prop_assert!(beam.is_none(), "{shape:?} at {point:?} in the beam {beam:?} at {} px a space", sheet.space);
        }
    }

    /// Gould 2011 and Ross 1970 (both from memory): an octave; two and a half spaces at least; longer only to
    /// reach the middle line, across a chord, under a beam.
    #[test]
    fn stems_and_beams_are_legal(part in any_part(), width in 700u16..1180) {
        let sheet = everything(&part, f32::from(width), 330.0);
        for [_, top, _, bottom] in stems(&sheet) {
            prop_assert!((bottom - top) / sheet.space >= 2.4, "{}", (bottom - top) / sheet.space);
            prop_assert!((bottom - top) / sheet.space <= 14.0, "{}", (bottom - top) / sheet.space);
        }
        for [a, b, ..] in beams(&sheet) {
            let (run, rise) = (b.0 - a.0, b.1 - a.1);
            prop_assert!(run > 0.0 && (rise / run).abs() <= 0.26, "{rise} over {run}");
            prop_assert!(rise.abs() / sheet.space <= 1.3, "{}", rise / sheet.space);
        }
    }

    #[test]
    fn beams_across_the_staves_are_legal(part in any_across(), width in 700u16..1180) {
        let sheet = everything(&part, f32::from(width), 400.0);
        let heads = glyphs(&sheet, is_head);
        for [_, top, _, bottom] in stems(&sheet) {
            prop_assert!((bottom - top) / sheet.space >= 2.0, "{}", (bottom - top) / sheet.space);
        }
        for [a, b, c, d] in beams(&sheet) {
            let (run, rise) = (b.0 - a.0, b.1 - a.1);
            prop_assert!(run > 0.0 && (rise / run).abs() <= 0.26, "{rise} over {run}");
            prop_assert!(rise.abs() / sheet.space <= 1.3, "{}", rise / sheet.space);
            let covers = |[left, top, right, bottom]: &Bounds| {
                let by = 0.05 * sheet.space;
                [*left, 0.5 * (left + right), *right].iter().any(|x| {
                    [top + by, bottom - by].iter().any(|y| is_in_beam(&[a, b, c, d], (*x, *y), by))
                })
            };
            prop_assert!(!heads.iter().any(covers), "a beam runs through a head at {} px a space", sheet.space);
        }
    }

    #[test]
    fn all_is_on_the_sheet_in_its_bar_and_the_same_each_time(
        mut part in any_part(),
        words in prop::collection::vec(any_words(), 0..3),
        (width, height, signs) in (360u16..1180, 240u16..500, any::<bool>()),
    ) {
        part.bars[0].written.words = words;
        if signs {
            span(&mut part, Spans::Trill, 1, "1", "1:0", "1:2");
            span(&mut part, Spans::Pedal(Pedalling::SignAndLine), 2, "", "1:0", "1:4");
            span(&mut part, Spans::Octave(1), 1, "", "1:2", "1:4");
            add_slur(&mut part, 1, 0, 9, None);
        }
        let (width, height) = (f32::from(width), f32::from(height));
        let sheet = everything(&part, width, height);
        for shape in &sheet.drawing.shapes {
            let [left, top, right, bottom] = bounds(shape);
            let inside = left >= -0.6 && top >= -0.6 && right <= width + 0.6 && bottom <= height + 0.6;
            prop_assert!(inside, "{shape:?} on {width} x {height}");
        }
        let onsets = onsets(&part);
        prop_assert_eq!(sheet.places.len(), onsets.len());
        for place in &sheet.places {
            let bar = sheet.bars.iter().find(|bar| bar.left <= place.x && place.x <= bar.right && bar.top == place.top);
            let at = onsets[place.onset];
            prop_assert_eq!(bar.map(|bar| bar.bar), Some((at / quarters("4")).to_integer() as usize));
            prop_assert_eq!(sheet.onset_at(place.x, 0.5 * (place.top + place.bottom)), Some(place.onset));
        }
        prop_assert_eq!(&everything(&part, width, height), &sheet);
    }
}

fn any_quarters() -> impl Strategy<Value = Quarters> {
    (-8i64..80, prop::sample::select(vec![1i64, 2, 3, 4, 5, 7, 8, 16]))
        .prop_map(|(n, d)| Quarters::new(n, d).expect("a time"))
}

fn any_head() -> impl Strategy<Value = Head> {
    let flags = any::<(bool, bool, bool)>();
    (0usize..7, -3i8..=3, -2i8..=9, -300i16..300, 0u8..4, flags).prop_map(
        |(letter, alter, octave, off, staff, (from, on, sign))| {
            use tailfirst::music::{Pitch, pitch::Letter};
            let letters = [Letter::C, Letter::D, Letter::E, Letter::F, Letter::G, Letter::A, Letter::B];
            let pitch = Pitch { letter: letters[letter], alter, octave };
            let place = if off.abs() < 150 { Diatonic::from(pitch) } else { Diatonic(off * 100) };
            Head {
                pitch: (off != 7).then_some(pitch),
                place,
                staff,
                accidental: sign.then_some(Accidental { alter, bracketed: on }),
                tied_from: from,
                tied_on: on,
                fingering: sign.then(|| "3-1".repeat(usize::from(staff))),
            }
        },
    )
}

fn any_event() -> impl Strategy<Value = Event> {
    let kind = prop_oneof![
        4 => prop::collection::vec(any_head(), 0..5).prop_map(Kind::Notes),
        1 => (0u8..4, any::<bool>(), any::<bool>()).prop_map(|(staff, placed, whole_bar)| {
            Kind::Rest { staff, place: placed.then_some(Diatonic(i16::MAX)), whole_bar }
        }),
    ];
    let beam =
        prop::sample::select(vec![Beam::Begin, Beam::Continue, Beam::End, Beam::HookForward, Beam::HookBackward]);
    let stem = prop::sample::select(vec![Stem::Free, Stem::Up, Stem::Down, Stem::Hidden]);
    let signs = prop::sample::subsequence(
        vec![
            Articulation::Accent,
            Articulation::StrongAccent,
            Articulation::Staccato,
            Articulation::Tenuto,
            Articulation::Fermata,
            Articulation::Arpeggio,
        ],
        0..4,
    );
    let ornament =
        prop::sample::select(vec![vec![], vec![Ornament::Trill], vec![Ornament::Tremolo(9)], vec![Ornament::Turn]]);
    let shape = (any_quarters(), any_quarters(), 0usize..9, 0u8..6, stem, prop::bool::weighted(0.2));
    (shape, kind, prop::collection::vec(beam, 0..4), signs, ornament).prop_map(
        |((at, lasts, value, dots, stem, grace), kind, beams, articulations, ornaments)| Event {
            at,
            lasts: if lasts < Quarters::ZERO { Quarters::ZERO } else { lasts },
            value: Value::ALL[value],
            dots,
            tuplet: None,
            kind,
            stem,
            beams,
            grace: grace.then_some(Grace { slashed: true }),
            articulations,
            ornaments,
        },
    )
}

fn any_wild_bar() -> impl Strategy<Value = ScoreBar> {
    let line = || {
        prop::sample::select(vec![
            Barline::Single,
            Barline::Double,
            Barline::Final,
            Barline::Dashed,
            Barline::Repeat,
            Barline::Hidden,
        ])
    };
    let voices = prop::collection::vec(prop::collection::vec(any_event(), 0..7), 0..4);
    let clef = (0u8..9, -2i8..=2).prop_map(|(line, octaves)| Clef { sign: ClefSign::C, line, octaves });
    (voices, (line(), line()), prop::collection::vec(clef, 0..3), any_quarters(), -9i8..=9).prop_map(
        |(voices, (opens, closes), clefs, at, fifths)| {
            let mut bar = bar("4/4", 0, &[(1, "R")]);
            let voice = |(index, events): (usize, Vec<Event>)| Voice { name: index.to_string(), events };
            bar.fifths = fifths;
            bar.dynamics = vec![Dynamic { at, staff: 3, mark: "fp?".into() }];
            let clef_changes = clefs.iter().map(|clef| ClefChange { at, staff: 7, clef: *clef }).collect();
            let meter_sign = MeterSign::Common;
            let words = vec![Words { at, staff: 9, above: None, says: Says::Manner("dolce".repeat(9)) }];
            let voices = voices.into_iter().enumerate().map(voice).collect();
            bar.written = WrittenBar { clefs, clef_changes, meter_sign, voices, opens, closes, ending: None, words };
            bar
        },
    )
}

fn any_spanner() -> impl Strategy<Value = Spanner> {
    let anchor = || {
        (-2isize..5, any_quarters(), 0u8..4, 0usize..4, 0u8..4).prop_map(|(bar, at, staff, voice, grace)| Anchor {
            bar,
            at,
            staff,
            voice: voice.to_string(),
            grace,
        })
    };
    let kind = prop::sample::select(vec![
        Spans::Slur,
        Spans::Crescendo,
        Spans::Diminuendo,
        Spans::Pedal(Pedalling::Signs),
        Spans::Pedal(Pedalling::Line),
        Spans::Pedal(Pedalling::SignAndLine),
        Spans::Trill,
        Spans::Tremolo(9),
        Spans::Octave(-3),
        Spans::Octave(1),
        Spans::Tuplet { figure: 255, bracket: None },
    ]);
    (kind, anchor(), anchor(), prop::option::of(any::<bool>())).prop_map(|(kind, from, to, above)| Spanner {
        kind,
        from,
        to,
        above,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 400, ..ProptestConfig::default() })]

    /// Whatever is read of a file is drawn somehow: in numbers that are numbers.
    #[test]
    fn anything_can_be_drawn(
        bars in prop::collection::vec(any_wild_bar(), 0..4),
        spanners in prop::collection::vec(any_spanner(), 0..5),
        (staves, lines) in (0u8..4, 0u8..6),
        (a, b, goal) in (0usize..40, 0usize..40, 0usize..40),
        (width, height) in (0u16..1500, 0u16..600),
    ) {
        let part = Part { staves, lines, spanners, ..part(bars) };
        let onsets = onsets(&part);
        let focus = Focus { onsets: &onsets, span: (a, b), goal, aim: b, plays: &|staff| staff == 1 };
        let sheet = practice_sheet(&part, &focus, f32::from(width), f32::from(height));
        prop_assert!(sheet.drawing.shapes.iter().flat_map(bounds).all(f32::is_finite));
        let scroll = Scroll::new(&part, f32::from(width), 10.0);
        let covered: usize = scroll.systems.iter().map(|system| system.bars.len()).sum();
        prop_assert_eq!(covered, part.bars.len());
        for system in 0..scroll.systems.len() {
            let sheet = scroll.draw(&part, system, Some(&focus));
            prop_assert!(sheet.drawing.shapes.iter().flat_map(bounds).all(f32::is_finite));
        }
    }
}

/// Gould 2011 and Ross 1970 (both from memory): from the outside inward on each staff, whatever the other staff has.
#[test]
fn accidentals_of_a_chord_stand_from_the_outside_inward_on_each_staff() {
    let sharps = |lower: &str| {
        let sheet = everything(&part(vec![bar("4/4", 0, &[(1, "C#5+E5+F#5+G#5:1"), (2, lower)])]), 820.0, 400.0);
        let mut signs = glyphs(&sheet, |glyph| glyph == Glyph::Sharp);
        signs.sort_by(|a, b| a[1].total_cmp(&b[1]));
        signs.into_iter().map(|[left, ..]| left).collect::<Vec<_>>()
    };
    let [g, f, c] = sharps("C3:1")[..] else { panic!("three sharps") };
    assert!(f < c && c < g, "{f} {c} {g}");
    assert_eq!(sharps("Db3+Fb3+Bb3:1"), [g, f, c]);
}

#[test]
fn an_accidental_holds_for_its_line_until_the_bar_ends() {
    let two = part(vec![
        bar("4/4", 1, &[(1, "F#5:4 F5:4 F5:4 F#5:4")]),
        bar("4/4", 1, &[(1, "F#5:4 F#4:4 Bb4:4 B4:4")]),
        bar("4/4", 1, &[(1, "Bb4:2 Bb4:2~")]),
        bar("4/4", 1, &[(1, "=Bb4:4 Bb4:4 B5:2")]),
    ]);
    let sheet = everything(&two, 2400.0, 300.0);
    let mut signs: Vec<(f32, Glyph)> = Vec::new();
    for shape in &sheet.drawing.shapes {
        if let Form::Glyph { at, glyph, .. } = shape.form
            && is_accidental(glyph)
            && shape.ink == Ink::Full
        {
            signs.push((at.0, glyph));
        }
    }
    signs.sort_by(|a, b| a.0.total_cmp(&b.0));
    let signs: Vec<Glyph> = signs.into_iter().map(|(_, glyph)| glyph).collect();
    // In one sharp: natural, sharp again; flat, natural; flat, once; flat again after the tie.
    use Glyph::{Flat, Natural, Sharp};
    assert_eq!(signs, [Natural, Sharp, Flat, Natural, Flat, Flat]);
}

#[test]
fn a_resting_hand_is_drawn_in_its_own_ink_and_without_fingers() {
    let two = part(vec![bar("4/4", 0, &[(1, "C5:4/f1 D5:4/f2 E5:4/f3 F5:4/f4"), (2, "C3:2/f5 G3:2/f1")])]);
    let onsets = onsets(&two);
    let focus = Focus { onsets: &onsets, span: (0, 3), goal: 3, aim: 3, plays: &|staff| staff == 1 };
    let sheet = practice_sheet(&two, &focus, 820.0, 330.0);
    let count = |ink, head: bool| {
        let wanted = |shape: &&Shape| match shape.form {
            Form::Glyph { glyph, .. } => head && is_head(glyph) && shape.ink == ink,
            Form::Text { .. } => !head && shape.ink == ink,
            _ => false,
        };
        sheet.drawing.shapes.iter().filter(wanted).count()
    };
    assert_eq!((count(Ink::Full, true), count(Ink::Resting, true)), (4, 2));
    assert_eq!((count(Ink::Full, false), count(Ink::Resting, false)), (4, 0));
}

/// 24 px: a digit of about 22 arcminutes at 60 cm (ISO 9241-3, quoted by NUREG-0700).
#[test]
fn fingers_on_a_tablet_can_be_read_from_the_stand() {
    let mut two = part(vec![bar("4/4", 2, &[(1, "C#5:4/f1 D5:4/f2 E5:4/f3 F#5:4/f4"), (2, "D3:2/f5 A3:2/f1")])]);
    span(&mut two, Spans::Slur, 1, "1", "1:0", "1:3");
    let sheet = everything(&two, 1180.0, 330.0);
    let sizes = sheet.drawing.shapes.iter().filter_map(|shape| match shape.form {
        Form::Text { size, .. } => Some(size),
        _ => None,
    });
    assert!(sizes.into_iter().all(|size| size >= 24.0));
    assert!((14.0..=20.0).contains(&sheet.space), "{} px", sheet.space);
}

/// One staff of notes from shorthand, in ink.
fn line(meter: &str, notes: &str) -> Sheet {
    everything(&part(vec![bar(meter, 0, &[(1, notes)])]), 1180.0, 300.0)
}

/// Gould 2011, "Spacing symbols" (from memory): 7, 5, 3.5, 2.5 spaces for whole to eighth, each the square
/// root of two narrower.
#[test]
fn each_doubling_of_a_value_widens_its_space_by_the_square_root_of_two() {
    let sheet = line("4/1", "G4:1 G4:1 G4:2 G4:2 G4:4 G4:4 G4:8 G4:8 G4:8 G4:8");
    let xs: Vec<f32> = sheet.places.iter().map(|place| place.x).collect();
    let space = |onset: usize| xs[onset + 1] - xs[onset];
    let ratios = [space(0) / space(2), space(2) / space(4), space(4) / space(6)];
    assert!(ratios.iter().all(|ratio| (ratio - 2_f32.sqrt()).abs() < 0.05), "{ratios:?}");
}

/// Ross 1970 and Gould 2011 (both from memory): an octave from the head, from outside an octave's reach to
/// the middle line; a half or quarter stem begins at the middle of its head, less what the head covers.
#[test]
fn a_single_stem_is_an_octave_long_or_reaches_the_middle_line() {
    let length = |note: &str| {
        let sheet = line("1/4", &format!("{note}:4"));
        let [_, top, _, bottom] = stems(&sheet)[0];
        // From the middle of the head, and without the line's own ends.
        ((bottom - top) / sheet.space - 0.12 + 0.16).max(0.0)
    };
    let near = |note: &str, spaces: f32| assert!((length(note) - spaces).abs() < 0.02, "{note}: {}", length(note));
    for note in ["G4", "A4", "B4", "F5", "C4"] {
        near(note, 3.5);
    }
    near("A3", 4.0);
    near("C6", 4.0);
    near("E6", 5.0);
}

/// Ross 1970 (from memory): a second slants by a quarter of a space, a third by a half, no interval by more
/// than a space and a quarter; level where an inner note is nearest to the beam or the ends are the same.
#[test]
fn a_beam_slants_by_its_interval() {
    let rise = |notes: &str| {
        let sheet = line("4/4", notes);
        let [a, b, ..] = beams(&sheet)[0];
        (4.0 * (b.1 - a.1) / sheet.space).round() / 4.0
    };
    assert_eq!(rise("C5:8 D5:8 r:2."), -0.25);
    assert_eq!(rise("E5:8 C5:8 r:2."), 0.5);
    assert!(rise("E4:8 C5:8 r:2.").abs() <= 1.25);
    assert_eq!(rise("C5:8 A5:8 E5:8 C5:8 r:2"), 0.0);
    assert_eq!(rise("E4:8 C5:8 F4:8 E4:8 r:2"), 0.0);
}
