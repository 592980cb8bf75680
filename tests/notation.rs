//! The rhythm line keeps its promises for every snippet, step and size.

use proptest::prelude::*;
use tailfirst::{
    method::{Hands, Snippet, Span, Step},
    music::{Bar, BeatUnit, Bpm, Hand, Meter, Note, Onset, Passage, Quarters, Tempo},
    notation::{Ink, RhythmLine, drawing::Form, rhythm_line::SYSTEM},
};

const TEMPO: Tempo = Tempo { beat: BeatUnit::QUARTER, bpm: Bpm::MIN };

/// A snippet whose onsets are so many sixteenths apart, in the hands given by number.
fn snippet(gaps: &[(u8, u8)], goal: usize) -> Snippet {
    let mut at = Quarters::ZERO;
    let onset = |(gap, hands): &(u8, u8)| {
        let notes = match hands % 3 {
            0 => vec![Hand::Right],
            1 => vec![Hand::Left],
            _ => vec![Hand::Right, Hand::Left],
        };
        let notes = notes.into_iter().map(|hand| Note::unpitched(hand, Quarters::ONE)).collect();
        let onset = Onset { at, notes, dynamic: None };
        at += Quarters::new(i64::from(*gap), 4).expect("in bounds");
        onset
    };
    let onsets: Vec<Onset> = gaps.iter().map(onset).collect();
    let bars = (0..=at.as_f64() as i64 / 4).map(|n| Bar {
        number: (n + 1).to_string(),
        start: Quarters::whole(4) * n,
        length: Quarters::whole(4),
        meter: Meter::COMMON,
        missing: Quarters::ZERO,
    });
    let passage = Passage::new(bars.collect(), onsets).expect("a passage");
    Snippet::new("invented".into(), passage, goal, TEMPO).expect("a snippet")
}

fn cases() -> impl Strategy<Value = (Snippet, Step, f32, f32)> {
    let gaps = prop::collection::vec((1u8..6, 0u8..3), 1..40);
    let indices = (any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<prop::sample::Index>());
    (gaps, indices, 360.0..1180.0f32, SYSTEM..560.0f32).prop_map(|(gaps, (one, other, goal), width, height)| {
        let index = |index: prop::sample::Index| index.index(gaps.len());
        let (first, last) = (index(one).min(index(other)), index(one).max(index(other)));
        let step = Step { span: Span::new(first, last).expect("in order"), hands: Hands::Both, bpm: TEMPO.bpm };
        (snippet(&gaps, index(goal)), step, width, height)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_onset_of_the_span_stands_on_the_sheet_in_order_and_can_be_tapped(
        (snippet, step, width, height) in cases()
    ) {
        let line = RhythmLine::new(&snippet, step, width, height);
        for onset in step.span.first()..=step.span.last() {
            let place = line.place(onset);
            prop_assert!(place.is_some(), "onset {} is not shown", onset);
            let place = place.expect("shown");
            prop_assert!((0.0..=width).contains(&place.x));
            prop_assert_eq!(line.onset_at(place.x, 0.5 * (place.top + place.bottom)), Some(onset));
        }
        for pair in line.places.windows(2).filter(|pair| pair[0].top == pair[1].top) {
            prop_assert!(pair[0].x < pair[1].x && pair[0].onset + 1 == pair[1].onset);
        }
        prop_assert_eq!(&RhythmLine::new(&snippet, step, width, height), &line);
    }

    #[test]
    fn noteheads_of_a_span_that_fits_never_touch(
        (snippet, step, width, height) in cases()
    ) {
        let line = RhythmLine::new(&snippet, step, width, height);
        let heads: Vec<_> = line.drawing.shapes.iter().filter_map(|shape| match &shape.form {
            Form::Ellipse { centre, radii, .. } if shape.ink == Ink::Full => Some((*centre, *radii)),
            _ => None,
        }).collect();
        let systems = (height / SYSTEM).floor();
        let fits = step.span.count() as f32 * 34.0 <= systems * (width - 88.0) / 1.5;
        for (index, (one, radii)) in heads.iter().enumerate().filter(|_| fits) {
            for (other, _) in &heads[index + 1..] {
                let apart = (one.0 - other.0).abs() >= 2.0 * radii.0 || (one.1 - other.1).abs() >= 2.0 * radii.1;
                prop_assert!(apart, "{:?} touches {:?}", one, other);
            }
        }
    }

    #[test]
    fn the_goal_has_its_roof_and_everything_lies_on_the_sheet(
        (snippet, step, width, height) in cases()
    ) {
        let line = RhythmLine::new(&snippet, step, width, height);
        let on_sheet = |(x, y): (f32, f32)| (-1.0..=width + 1.0).contains(&x) && (-1.0..=height + 1.0).contains(&y);
        let mut roof = 0;
        for shape in &line.drawing.shapes {
            match &shape.form {
                Form::Line { from, to, .. } => {
                    prop_assert!(on_sheet(*from) && on_sheet(*to), "{:?}", shape);
                    roof += usize::from(shape.ink == Ink::Accent);
                }
                Form::Ellipse { centre, .. } => prop_assert!(on_sheet(*centre)),
                Form::Polygon { points } => prop_assert!(points.iter().all(|point| on_sheet(*point))),
                Form::Text { at, .. } => prop_assert!(on_sheet(*at), "{:?}", shape),
            }
        }
        prop_assert_eq!(roof, if line.place(snippet.goal()).is_some() { 2 } else { 0 });
    }
}
