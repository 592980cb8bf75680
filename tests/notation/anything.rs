//! Whatever is read of a file is drawn somehow, however wild.

use super::{
    forms::{bounds, practice_sheet},
    written::{bar, onsets, part},
};
use proptest::prelude::*;
use tailfirst::{
    music::{
        Part, Quarters,
        passage::Articulation,
        score::{Dynamic, ScoreBar},
        written::{
            Accidental, Anchor, Barline, Beam, Clef, ClefChange, ClefSign, Diatonic, Event, Fermata, FermataShape,
            Grace, Head, Kind, MeterSign, Ornament, Pedalling, Says, Spanner, Spans, StaffText, Stem, Value, Voice,
            WrittenBar,
        },
    },
    notation::engraving::{Focus, Scroll},
};

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
    use FermataShape::{DoubleAngled, DoubleSquare, Square};
    let fermatas =
        vec![None, Some((Square, None)), Some((DoubleAngled, Some(true))), Some((DoubleSquare, Some(false)))];
    let fermata = prop::sample::select(fermatas);
    let shape = (any_quarters(), any_quarters(), 0usize..9, 0u8..6, stem, prop::bool::weighted(0.2));
    (shape, kind, prop::collection::vec(beam, 0..4), signs, fermata, ornament).prop_map(
        |((at, lasts, value, dots, stem, grace), kind, beams, articulations, fermata, ornaments)| Event {
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
            fermata: fermata.map(|(shape, above)| Fermata { shape, above }),
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
            bar.dynamics = vec![Dynamic { at, staff: 3, above: None, mark: "fp?".into() }];
            let clef_changes = clefs.iter().map(|clef| ClefChange { at, staff: 7, clef: *clef }).collect();
            let meter_sign = MeterSign::Common;
            let texts = vec![StaffText { at, staff: 9, above: None, says: Says::Manner("dolce".repeat(9)) }];
            let voices = voices.into_iter().enumerate().map(voice).collect();
            bar.written = WrittenBar { clefs, clef_changes, meter_sign, voices, opens, closes, ending: None, texts };
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
