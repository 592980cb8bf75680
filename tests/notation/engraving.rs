//! What holds of an engraved sheet whatever is written: nothing covers what it must not, stems are as long as
//! stems are, beams do not slant too far, all is in its place, and the same again each time.

use super::{
    forms::{
        Bounds, beams, bounds, curve_points, everything, glyphs, holds, is_accidental, is_head, is_in_beam, is_rest,
        meet, stems,
    },
    parts::{add_slur, any_across, any_bar, any_notes, any_part, any_two_voices, any_words, tie_on},
    written::{bar, onsets, part, quarters, span},
};
use proptest::prelude::*;
use tailfirst::{
    music::{
        score::{Dynamic, ScoreBar},
        written::{Diatonic, Event, Kind, Ornament, Pedalling, Spans},
    },
    notation::{Glyph, Ink, Shape, drawing::Form},
};

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
        let mark = |nth: usize| Dynamic { at: quarters(["0", "1", "2", "3"][nth % 4]), staff: 1, above: None, mark: "mf".into() };
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
        part.bars[0].written.texts = words;
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
        part.bars[0].written.texts = words;
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
