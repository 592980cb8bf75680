//! The rhythm line shows what is to be played: all of it on the sheet, in order, never two notes in one
//! place, whatever the snippet, the step and the screen.

mod engraving;
mod gallery;
#[path = "../invented/mod.rs"]
mod invented;
mod sheet;
mod written;

use invented::{bars, passage, step, tempo};
use proptest::prelude::*;
use tailfirst::{
    method::{Hands, Snippet, Step},
    music::{Bar, Hand, NoteValue, Onset, Passage, passage::Articulation},
    notation::{Ink, RhythmLine, Shape, drawing::Form},
};

/// A passage in which some notes have what a score may write to them.
fn written(bars: Vec<Bar>, hands: &[(Hand, &str)]) -> Passage {
    let plain = passage(bars.clone(), hands);
    let mut onsets: Vec<Onset> = plain.onsets().to_vec();
    for (index, onset) in onsets.iter_mut().enumerate() {
        for (n, note) in onset.notes.iter_mut().enumerate() {
            note.fingering = Some(((index + 2 * n) % 5 + 1).to_string());
            if index % 4 == 3 {
                note.articulations.push(Articulation::Accent);
            }
        }
        onset.dynamic = ["p", "", "", "", "sf", "", "", "mf"]
            .get(index % 8)
            .filter(|mark| !mark.is_empty())
            .map(|mark| mark.to_string());
    }
    Passage::new(bars, onsets).expect("a passage")
}

fn quarter(passage: Passage, goal_from_end: usize) -> Snippet {
    let goal = passage.onsets().len() - 1 - goal_from_end;
    Snippet::new("Study".into(), passage, goal, tempo(NoteValue::Quarter, 0, 72)).expect("a goal")
}

fn sixteenths(count: usize) -> String {
    (0..count).map(|n| format!("{n}/4 ")).collect()
}

fn both_hands() -> Snippet {
    let right = (Hand::Right, "0 1 3/2 2 3 13/4 7/2 15/4 4 5 6 7 8");
    quarter(written(bars("4/4-1 4/4 3/4", 11), &[right, (Hand::Left, "0 2 3 4 9/2 5 7 9")]), 1)
}

fn one_line() -> Snippet {
    quarter(written(bars("6/8 6/8 6/8", 3), &[(Hand::Line, "0 1/2 1 3/2 5/2 3 7/2 4 9/2 5 11/2 6")]), 0)
}

/// A rectangle: left, top, right, bottom.
type Bounds = [f32; 4];

/// What a shape covers; a character of text is at most 0.62 of its size wide.
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
        Form::Text { at: (x, y), size, text, .. } => {
            let half = 0.31 * size * text.chars().count() as f32;
            [x - half, y - 0.4 * size, x + half, y + 0.4 * size]
        }
        Form::Glyph { .. } | Form::Curve { .. } => unreachable!("the rhythm line has neither"),
    }
}

/// Noteheads of the span, hollow ones too: they are the large ellipses in full ink.
fn heads(line: &RhythmLine) -> Vec<Bounds> {
    let head = |shape: &&Shape| matches!(shape.form, Form::Ellipse { .. }) && shape.ink == Ink::Full;
    line.drawing.shapes.iter().filter(head).map(bounds).collect()
}

fn apart(a: Bounds, b: Bounds) -> bool {
    a[2] <= b[0] + 0.01 || b[2] <= a[0] + 0.01 || a[3] <= b[1] + 0.01 || b[3] <= a[1] + 0.01
}

prop_compose! {
    fn any_snippet()(
        right in prop::collection::btree_set(0u32..96, 1..60),
        left in prop::collection::btree_set(0u32..96, 0..40),
        line in any::<bool>(),
        signs in any::<bool>(),
        goal in any::<prop::sample::Index>(),
    ) -> Snippet {
        let places = |places: &std::collections::BTreeSet<u32>| -> String {
            places.iter().map(|place| format!("{place}/4 ")).collect()
        };
        let bars = bars("4/4 3/4 6/8 2/4 4/4 4/4 4/4 4/4", 97);
        let (right, left) = (places(&right), places(&left));
        let hands = if line { vec![(Hand::Line, &*right)] } else { vec![(Hand::Right, &*right), (Hand::Left, &*left)] };
        let passage = if signs { written(bars, &hands) } else { passage(bars, &hands) };
        let goal = goal.index(passage.onsets().len());
        quarter(passage, goal)
    }
}

prop_compose! {
    fn any_step()(
        snippet in any_snippet(),
        ends in any::<(prop::sample::Index, prop::sample::Index)>(),
        hands in prop::sample::select(vec![Hands::Both, Hands::Left, Hands::Right, Hands::Line]),
    ) -> (Snippet, Step) {
        let count = snippet.passage().onsets().len();
        let (a, b) = (ends.0.index(count), ends.1.index(count));
        let step = step(&snippet, a.min(b), a.max(b), hands);
        (snippet, step)
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn everything_is_on_the_sheet((snippet, step) in any_step(), width in 240u16..1400, height in 60u16..600) {
        let (width, height) = (f32::from(width), f32::from(height));
        let line = RhythmLine::new(&snippet, step, width, height);
        for shape in &line.drawing.shapes {
            let [left, top, right, bottom] = bounds(shape);
            let inside = left >= -0.1 && top >= -0.1 && right <= width + 0.1 && bottom <= height + 0.1;
            prop_assert!(inside, "{shape:?} on {width} x {height}");
        }
    }

    #[test]
    fn the_span_is_shown_whole_in_order_and_no_note_covers_another(
        (snippet, step) in any_step(), width in 360u16..1180, height in 236u16..500,
    ) {
        let line = RhythmLine::new(&snippet, step, f32::from(width), f32::from(height));
        prop_assert!((step.span.first()..=step.span.last()).all(|onset| line.place(onset).is_some()));
        for pair in line.places.windows(2) {
            prop_assert_eq!(pair[1].onset, pair[0].onset + 1);
            prop_assert!(pair[1].x > pair[0].x || pair[1].top >= pair[0].bottom - 0.1);
        }
        let heads = heads(&line);
        for (index, head) in heads.iter().enumerate() {
            prop_assert!(heads[index + 1..].iter().all(|other| apart(*head, *other)));
        }
        prop_assert_eq!(&RhythmLine::new(&snippet, step, f32::from(width), f32::from(height)), &line);
    }

    #[test]
    fn a_tap_on_an_onset_finds_it(
        (snippet, step) in any_step(), width in 360u16..1180, height in 236u16..500,
    ) {
        let line = RhythmLine::new(&snippet, step, f32::from(width), f32::from(height));
        for place in &line.places {
            prop_assert_eq!(line.onset_at(place.x, 0.5 * (place.top + place.bottom)), Some(place.onset));
        }
    }

    /// 24 px: a digit of about 22 arcminutes at 60 cm (ISO 9241-3, quoted by NUREG-0700).
    #[test]
    fn text_on_a_sheet_of_common_height_can_be_read_from_the_stand(
        (snippet, step) in any_step(), width in 360u16..1180, height in 236u16..500,
    ) {
        let line = RhythmLine::new(&snippet, step, f32::from(width), f32::from(height));
        for shape in &line.drawing.shapes {
            prop_assert!(!matches!(shape.form, Form::Text { size, .. } if size < 24.0), "{shape:?}");
        }
    }
}

#[test]
fn a_hand_that_rests_is_hollow_and_what_is_written_to_it_is_left_out() {
    let snippet = both_hands();
    let hollow = |hands| {
        let line = RhythmLine::new(&snippet, step(&snippet, 6, 12, hands), 820.0, 300.0);
        let hollow = |shape: &&Shape| matches!(shape.form, Form::Ellipse { hollow: true, .. });
        line.drawing.shapes.iter().filter(hollow).count()
    };
    assert_eq!((hollow(Hands::Both), hollow(Hands::Right), hollow(Hands::Left)), (0, 4, 6));
}

#[test]
fn the_goal_stands_under_a_roof_and_the_entry_is_marked_where_there_is_a_lead_in() {
    let snippet = one_line();
    let signs = |first| {
        let line = RhythmLine::new(&snippet, step(&snippet, first, 11, Hands::Line), 820.0, 300.0);
        let x = line.place(11).expect("the goal is shown").x;
        let accents = || line.drawing.shapes.iter().filter(|shape| shape.ink == Ink::Accent);
        let over_goal = accents().filter(|shape| bounds(shape)[0] < x && bounds(shape)[2] > x).count();
        (over_goal > 0, accents().filter(|shape| matches!(shape.form, Form::Polygon { .. })).count())
    };
    assert_eq!((signs(11), signs(4)), ((true, 0), (true, 1)));
}

#[test]
fn longer_times_are_wider() {
    let snippet = one_line();
    let line = RhythmLine::new(&snippet, step(&snippet, 0, 4, Hands::Line), 1180.0, 300.0);
    let x = |onset| line.place(onset).expect("in the span").x;
    assert!(x(4) - x(3) > 1.4 * (x(2) - x(1)));
}

/// Draws the sheets into `target/sheets`, to be looked at before a change to the layout is done.
#[test]
fn the_sheets_to_look_at_are_drawn() {
    let two = both_hands();
    let run = quarter(
        written(bars("4/4 4/4 4/4 4/4", 7), &[(Hand::Right, &sixteenths(33)), (Hand::Left, "0 1 2 3 4 5 6 7 8")]),
        0,
    );
    let long = quarter(
        passage(bars(&"4/4 ".repeat(8), 21), &[(Hand::Right, &sixteenths(120)), (Hand::Left, &sixteenths(60))]),
        0,
    );
    let line = one_line();
    let cases = [
        ("two", &two, 7, 12, Hands::Both, 1180.0, 380.0),
        ("goal", &two, 12, 12, Hands::Both, 1180.0, 380.0),
        ("rest", &two, 6, 12, Hands::Right, 820.0, 300.0),
        ("low", &two, 8, 12, Hands::Both, 1180.0, 240.0),
        ("narrow", &two, 6, 8, Hands::Both, 360.0, 260.0),
        ("phone", &two, 0, 12, Hands::Both, 360.0, 480.0),
        ("run", &run, 8, 32, Hands::Both, 1180.0, 260.0),
        ("run2", &run, 0, 32, Hands::Both, 820.0, 500.0),
        ("long", &long, 0, 119, Hands::Both, 1180.0, 480.0),
        ("line", &line, 4, 11, Hands::Line, 820.0, 300.0),
        ("solo", &line, 11, 11, Hands::Line, 820.0, 300.0),
    ];
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("sheets");
    std::fs::create_dir_all(&folder).expect("a folder");
    for (name, snippet, first, last, hands, width, height) in cases {
        let line = RhythmLine::new(snippet, step(snippet, first, last, hands), width, height);
        for (theme_name, theme) in [("light", sheet::LIGHT), ("dark", sheet::DARK)] {
            let heads = line.drawing.shapes.iter().filter(|shape| matches!(shape.form, Form::Ellipse { .. })).count();
            assert!(heads > last - first, "{name} shows {heads} noteheads");
            let path = folder.join(format!("{name}-{theme_name}.svg"));
            std::fs::write(path, sheet::svg(&line.drawing, theme)).expect("a file");
        }
    }
}
