//! The sheet that is practised from: never too small to read, of one size for a whole block, turning where it is long,
//! the goal in its context.

use super::{
    forms::{bounds, is_head},
    written::{bar, onsets, part, span},
};
use proptest::prelude::*;
use std::collections::BTreeMap;
use tailfirst::{
    music::{Part, Quarters, study, written::Spans},
    notation::{
        Glyph, Ink, Shape,
        drawing::Form,
        engraving::{Focus, Layout, OnsetPlace, Room, Sheet, StepSheet},
    },
};

/// What is left for the staff on the screens that the program is made for, in px, with the screens.
const ROOMS: [((f32, f32), (f32, f32)); 6] = [
    ((1148.0, 370.0), (1180.0, 820.0)),
    ((992.0, 300.0), (1024.0, 690.0)),
    ((788.0, 520.0), (820.0, 1180.0)),
    ((374.0, 425.0), (390.0, 844.0)),
    ((590.0, 220.0), (844.0, 390.0)),
    ((420.0, 190.0), (590.0, 410.0)),
];

fn rooms() -> impl Iterator<Item = Room> {
    ROOMS.into_iter().map(|(room, screen)| Room::on_screen(room, screen))
}

/// A rag of our own: sixteenths across the beat over leaping basses, four bars over and over.
fn rag(length: usize) -> Part {
    let bars = [
        ("C5:16 E5:8 A5:16 G5:8 E5:8", "C3:8 E4+G4:8 G2:8 E4+G4:8"),
        ("D#5:16 E5:8 C6:16 B5:16 A5:8 G5:16", "C3:8 E4+G4:8 Bb2:8 E4+G4:8"),
        ("F5+A5:16 D5:8 F5+A5:16 C#6:16 D6:8 A5:16", "A2:8 D4+F4:8 F#2:8 C4+D4:8"),
        ("G5:16 B4:16 D5:16 G5:16 F5:4", "G2:8 B3+F4:8 D3:8 G2+G3:8"),
    ];
    let mut rag =
        part((0..length).map(|nth| bar("2/4", 0, &[(1, bars[nth % 4].0), (2, bars[nth % 4].1)])).collect::<Vec<_>>());
    for nth in (1..length).step_by(2) {
        span(&mut rag, Spans::Slur, 1, "1", &format!("{nth}:0"), &format!("{}:0", nth + 1));
        span(&mut rag, Spans::Crescendo, 1, "1", &format!("{nth}:1"), &format!("{}:1", nth + 1));
    }
    rag
}

fn snippets() -> Vec<Part> {
    let score = study::score();
    let excerpts = study::excerpts(&score.parts[0]).into_iter().map(|excerpt| score.parts[0].excerpt(excerpt.bars));
    excerpts.chain([rag(1), rag(4), rag(8), rag(32)]).collect()
}

/// A step of a snippet that arrives at its last onset, for the hands on these staves.
fn step(layout: &Layout, part: &Part, (first, last): (usize, usize), staves: &[u8]) -> StepSheet {
    let onsets = onsets(part);
    let plays = |staff: u8| staves.contains(&staff);
    layout.draw(part, &Focus { onsets: &onsets, span: (first, last), goal: onsets.len() - 1, aim: last, plays: &plays })
}

const BOTH: &[u8] = &[1, 2];

/// Of the systems in view while the `played` one is, what covers the sheet.
fn covered(sheet: &StepSheet, played: usize) -> impl Iterator<Item = (usize, [f32; 4])> {
    let of = |index: usize| sheet.systems[index].drawing.shapes.iter().map(move |shape| (index, bounds(shape)));
    sheet.in_view(played).flat_map(of)
}

#[test]
fn the_staff_is_never_smaller_than_can_be_read_and_fills_the_room() {
    for room in rooms() {
        let least = if room.width > 700.0 { 14.0 } else { 11.0 };
        for part in snippets() {
            let last = onsets(&part).len() - 1;
            let layout = Layout::new(&part, room);
            let sheet = step(&layout, &part, (0, last), BOTH);
            println!("{} bars in {room:?}: {:.1} px, {} systems", part.bars.len(), sheet.space, sheet.systems.len());
            assert!(sheet.space >= least, "{} px a space in {room:?}", sheet.space);
            // One system at the least size is what the staff asks for, whatever the room.
            assert!(sheet.height <= room.height.max(1.25 * layout.least_height), "{} px in {room:?}", sheet.height);
            for played in 0..sheet.systems.len() {
                let in_view = sheet.in_view(played);
                assert!(in_view.contains(&played), "{played} is not in {in_view:?}");
                let next = (played + 1).min(sheet.systems.len() - 1);
                assert!(in_view.contains(&next) || in_view.len() == 1, "after {played} comes none of {in_view:?}");
                for (_, [left, top, right, bottom]) in covered(&sheet, played) {
                    let inside = left > -1.0 && right < sheet.width + 1.0 && top > -9.0 && bottom < sheet.height + 9.0;
                    assert!(inside, "{left} {top} {right} {bottom} on {} x {}", sheet.width, sheet.height);
                }
            }
        }
    }
}

/// On every screen but an upright phone, where two systems of a piano's staves find no room: while one system is played the next is in view.
#[test]
fn the_next_system_is_always_in_view_and_the_one_that_is_played_stays_in_its_place() {
    let part = rag(32);
    let last = onsets(&part).len() - 1;
    for room in rooms().filter(|room| room.width > 500.0) {
        let sheet = step(&Layout::new(&part, room), &part, (0, last), BOTH);
        assert!(sheet.in_view(0).len() >= 2, "{:?} in {room:?}", sheet.in_view(0));
        for played in 0..sheet.systems.len() - 1 {
            let [now, then] = [sheet.in_view(played), sheet.in_view(played + 1)];
            assert!(now.contains(&(played + 1)) && now.len() == then.len());
            // Systems in view never cover each other.
            let places = |index: usize| &sheet.systems[index].places;
            for (a, b) in now.clone().flat_map(|a| now.clone().map(move |b| (a, b))).filter(|(a, b)| a < b) {
                let (a, b) = (places(a)[0], places(b)[0]);
                let apart = a.bottom <= b.top || b.bottom <= a.top || (a.x - b.x).abs() > 0.3 * sheet.width;
                assert!(apart, "systems lie over each other");
            }
        }
    }
}

/// Where each onset stands in its system, in hundredths of a px, and how high that is.
fn standing(sheet: &StepSheet) -> BTreeMap<usize, (i32, i32)> {
    let hundredths = |px: f32| (100.0 * px).round() as i32;
    let of_system = |system: &Sheet| {
        let left = system.places[0].x;
        let place =
            move |place: &OnsetPlace| (place.onset, (hundredths(place.x - left), hundredths(place.bottom - place.top)));
        system.places.iter().map(place).collect::<Vec<_>>()
    };
    sheet.systems.iter().flat_map(of_system).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 60, ..ProptestConfig::default() })]

    /// One size for a whole block: from step to step nothing moves within its system, whatever is played by whom.
    #[test]
    fn no_step_of_a_block_moves_or_resizes_what_is_shown(
        which in 0..snippets().len(),
        room in 0..ROOMS.len(),
        steps in prop::collection::vec((0usize..400, 0usize..400, 0usize..3), 1..5),
    ) {
        let part = snippets().swap_remove(which);
        let room = rooms().nth(room).expect("a room");
        let (layout, last) = (Layout::new(&part, room), onsets(&part).len() - 1);
        let whole = step(&layout, &part, (0, last), BOTH);
        let everywhere = standing(&whole);
        for (a, b, hands) in steps {
            let (first, end) = (a.min(b).min(last), a.max(b).min(last));
            let staves: &[u8] = [BOTH, &[1], &[2]][hands];
            let sheet = step(&layout, &part, (first, end), staves);
            prop_assert_eq!((sheet.space, sheet.height), (whole.space, whole.height));
            let shown = standing(&sheet);
            prop_assert!((first..=end).all(|onset| shown.contains_key(&onset)));
            for (onset, at) in shown {
                prop_assert_eq!(everywhere[&onset], at, "onset {} moved", onset);
            }
        }
    }
}

/// What is drawn of a kind of glyph, with its ink and size in staff spaces.
fn heads(sheet: &StepSheet) -> Vec<(Glyph, Ink, f32)> {
    let shapes = sheet.systems.iter().flat_map(|system| &system.drawing.shapes);
    let head = |shape: &Shape| match shape.form {
        Form::Glyph { glyph, space, .. } if is_head(glyph) || glyph == Glyph::Staccato => {
            Some((glyph, shape.ink, space / sheet.space))
        }
        _ => None,
    };
    shapes.filter_map(head).collect()
}

/// Cue size is 0.6 to 0.75 of the full size: common practice (Gould 2011, "Cues", about three quarters, from memory).
#[test]
fn the_resting_hand_keeps_its_values_in_small_faint_notes() {
    let part = part(vec![bar("4/4", 0, &[(1, "C5:4 D5:4. E5:8 F5:8 G5:8"), (2, "C3:2 G3:4. E3:8")])]);
    let layout = Layout::new(&part, rooms().next().expect("a room"));
    let [both, right] = [BOTH, &[1]].map(|staves| step(&layout, &part, (0, onsets(&part).len() - 1), staves));
    let of = |heads: Vec<(Glyph, Ink, f32)>| heads.into_iter().map(|(glyph, ..)| glyph).collect::<Vec<_>>();
    assert_eq!(of(heads(&both)), of(heads(&right)), "every note and dot is as it was");
    let small: Vec<(Glyph, Ink, f32)> = heads(&right).into_iter().filter(|(.., size)| *size < 0.99).collect();
    assert_eq!(of(small.clone()), [Glyph::HeadHalf, Glyph::HeadBlack, Glyph::Staccato, Glyph::HeadBlack]);
    assert!(small.iter().all(|(_, ink, size)| *ink == Ink::Resting && (0.6..=0.75).contains(size)), "{small:?}");
    let hollow =
        right.systems[0].drawing.shapes.iter().any(|shape| matches!(shape.form, Form::Ellipse { hollow: true, .. }));
    assert!(!hollow);
}

#[test]
fn a_goal_alone_shows_the_run_that_leads_to_it() {
    for room in rooms() {
        for part in snippets().into_iter().filter(|part| part.bars.len() > 1) {
            let last = onsets(&part).len() - 1;
            let sheet = step(&Layout::new(&part, room), &part, (last, last), BOTH);
            let shown: Vec<usize> = sheet.systems.iter().flat_map(|system| &system.places).map(|p| p.onset).collect();
            let led: Vec<usize> = (0..last).rev().take_while(|onset| shown.contains(onset)).collect();
            assert!(led.len() >= 4.min(last), "{} of {last} onsets before the goal in {room:?}", led.len());
            assert_eq!(sheet.in_view(0).len(), sheet.systems.len(), "nothing turns while the goal alone is played");
        }
    }
}

/// A beam, or the tie, slur or hairpin over it, is never cut inside what is shown: systems end between beams, and what
/// goes on in the next system is drawn to the edge.
#[test]
fn no_system_cuts_a_beam_and_none_shows_a_stub() {
    for room in rooms() {
        let part = rag(8);
        let last = onsets(&part).len() - 1;
        let sheet = step(&Layout::new(&part, room), &part, (0, last), BOTH);
        let all = onsets(&part);
        for system in &sheet.systems {
            let begins = all[system.places[0].onset];
            let beat = begins / Quarters::ONE;
            assert!(beat.is_integer(), "a system begins inside a beam, at {begins}");
            for shape in &system.drawing.shapes {
                if let Form::Curve { ends: [from, to], .. } = shape.form {
                    let brace = to.0 - from.0 < 0.0;
                    assert!(brace || to.0 - from.0 > 1.5 * sheet.space, "a curve of {} px", to.0 - from.0);
                }
            }
        }
    }
}
