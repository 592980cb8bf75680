//! What each thing that a file can say looks like on the page, measured on the gallery's small scores.

use super::{
    forms::{
        Bounds, beams, bounds, curve_points, everything, glyphs, is_accidental, is_head, is_rest, meet, practice_sheet,
        stems,
    },
    read_cases::read_cases,
    written::onsets,
};
use tailfirst::{
    music::Part,
    notation::{
        Glyph, Shape,
        drawing::Form,
        engraving::{Focus, Scroll, Sheet},
    },
};

fn part(name: &str) -> Part {
    read_cases().into_iter().find(|(of, _)| *of == name).expect("a case with this name").1
}

/// The case as one system of a score.
fn case(name: &str) -> Sheet {
    let part = part(name);
    let scroll = Scroll::new(&part, 1180.0, 14.0);
    assert_eq!(scroll.systems.len(), 1);
    scroll.draw(&part, 0, None)
}

fn shapes<'a>(sheet: &'a Sheet, wanted: impl Fn(&Form) -> bool + 'a) -> impl Iterator<Item = &'a Shape> {
    sheet.drawing.shapes.iter().filter(move |shape| wanted(&shape.form))
}

/// Heads of a size beside the staff space: 1 for notes, less for grace notes.
fn heads(sheet: &Sheet, is_grace: bool) -> Vec<Bounds> {
    let is_small = |space: f32| space < 0.9 * sheet.space;
    let wanted = move |form: &Form| matches!(form, Form::Glyph { glyph, space, .. } if is_head(*glyph) && is_small(*space) == is_grace);
    shapes(sheet, wanted).map(bounds).collect()
}

/// The y of the top line of each staff, from the five lines that are as wide as the system.
fn staff_tops(sheet: &Sheet) -> Vec<f32> {
    let lines =
        shapes(sheet, |form| matches!(form, Form::Line { from, to, .. } if from.1 == to.1 && to.0 - from.0 > 300.0));
    let mut ys: Vec<f32> = lines.map(|line| bounds(line)[1]).collect();
    ys.sort_by(f32::total_cmp);
    ys.chunks(5).map(|lines| lines[0]).collect()
}

/// Gould 2011, "Grace notes" (from memory): they have a place of their own before their main note.
#[test]
fn grace_notes_stand_over_no_other_note() {
    let sheet = case("grace-places");
    let (notes, graces) = (heads(&sheet, false), heads(&sheet, true));
    assert_eq!((notes.len(), graces.len()), (8, 7), "those before the closing bar line, too");
    for grace in &graces {
        let over = notes.iter().find(|note| note[0] < grace[2] && grace[0] < note[2]);
        assert!(over.is_none(), "{grace:?} over {over:?}");
    }
    let closing = shapes(&sheet, |form| matches!(form, Form::Polygon { .. })).map(bounds);
    let closing = closing.map(|line| line[0]).fold(0.0, f32::max);
    assert!(graces.iter().all(|grace| grace[2] < closing), "before the closing bar line");
}

/// Stems that the file gives are followed before the numbers of the voices: here the first voice is the lower.
#[test]
fn the_voice_with_stems_up_is_the_upper_one() {
    let sheet = case("turned-voices");
    let middle = staff_tops(&sheet)[0] + 2.0 * sheet.space;
    let mut rests = glyphs(&sheet, is_rest);
    rests.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let centres: Vec<f32> = rests.iter().map(|rest| 0.5 * (rest[1] + rest[3])).collect();
    assert_eq!(centres.len(), 2);
    assert!(centres[0] < middle - sheet.space && middle + sheet.space < centres[1], "{centres:?} around {middle}");
    // The tie of the inner voice hangs below its heads; its dots stand under a line, the other's over it.
    let curves = shapes(&sheet, |form| matches!(form, Form::Curve { .. }));
    let bulges = curves.map(|shape| {
        let points = curve_points(&shape.form);
        points[points.len() / 2].1 - points[0].1
    });
    let bulges: Vec<f32> = bulges.collect();
    assert!(!bulges.is_empty() && bulges.iter().all(|bulge| *bulge > 0.0), "{bulges:?}");
    let mut dots = glyphs(&sheet, |glyph| glyph == Glyph::Staccato);
    dots.sort_by(|a, b| (a[0], a[1]).partial_cmp(&(b[0], b[1])).expect("numbers"));
    let spaces = |bounds: &Bounds| ((0.5 * (bounds[1] + bounds[3]) - middle) / sheet.space * 2.0).round() as i32;
    // Of E on the lowest line under it; in the second bar A's in its space, G's under its line.
    assert_eq!(dots.iter().map(spaces).collect::<Vec<_>>(), [5, 1, 3]);
}

/// Gould 2011, "Rests" (from memory): in the middle between the bar lines.
#[test]
fn a_bars_rest_stands_in_the_middle_of_its_bar() {
    let sheet = case("bar-rests");
    let rests = glyphs(&sheet, |glyph| glyph == Glyph::RestWhole);
    assert_eq!(rests.len(), 6);
    let lines = shapes(
        &sheet,
        |form| matches!(form, Form::Line { from, to, .. } if from.0 == to.0 && to.1 - from.1 > 9.0 * 8.0),
    );
    let mut edges: Vec<f32> = lines.map(|line| 0.5 * (bounds(line)[0] + bounds(line)[2])).collect();
    // Behind the time signature and the key that changes.
    let signs = shapes(
        &sheet,
        |form| matches!(form, Form::Glyph { glyph, .. } if matches!(glyph, Glyph::Digit4 | Glyph::Sharp)),
    );
    edges.extend(signs.map(|sign| bounds(sign)[2]));
    for rest in rests {
        let middle = 0.5 * (rest[0] + rest[2]);
        let left = edges.iter().copied().filter(|edge| *edge < middle).fold(0.0, f32::max);
        let right = edges.iter().copied().filter(|edge| *edge > middle).fold(f32::MAX, f32::min);
        let off = (middle - 0.5 * (left + right)) / sheet.space;
        assert!(off.abs() < 0.6, "{off} spaces off the middle of {left}..{right}");
    }
}

#[test]
fn dynamic_marks_stand_on_the_side_that_they_are_given() {
    let sheet = case("dynamic-sides");
    let tops = staff_tops(&sheet);
    let bottoms: Vec<f32> = tops.iter().map(|top| top + 4.0 * sheet.space).collect();
    let all = |glyph: Glyph, is_there: &dyn Fn(&Bounds) -> bool| {
        let found = glyphs(&sheet, |of| of == glyph);
        assert!(!found.is_empty() && found.iter().all(is_there), "{glyph:?} at {found:?}, staves {tops:?}");
    };
    all(Glyph::DynP, &|mark| mark[3] < tops[0]);
    all(Glyph::DynM, &|mark| bottoms[1] < mark[1]);
    all(Glyph::DynZ, &|mark| bottoms[0] < mark[1] && mark[3] < tops[1]);
    let hairpin =
        shapes(&sheet, |form| matches!(form, Form::Line { from, to, .. } if from.1 != to.1 && from.0 != to.0));
    assert!(hairpin.map(bounds).all(|line| line[3] < tops[0]));
}

/// SMuFL, "Holds and pauses": an angle is shorter than the arc, a square longer; doubled ones more so.
#[test]
fn fermatas_are_drawn_in_their_shapes_and_turned_under_their_notes() {
    let sheet = case("fermata-shapes");
    let (top, bottom) = (staff_tops(&sheet)[0], staff_tops(&sheet)[0] + 4.0 * sheet.space);
    let arcs = glyphs(&sheet, |glyph| matches!(glyph, Glyph::FermataAbove | Glyph::FermataBelow));
    assert_eq!(arcs.len(), 3);
    let dots = glyphs(&sheet, |glyph| glyph == Glyph::Staccato);
    let over = dots.iter().filter(|dot| dot[3] < top).count();
    let under = dots.iter().filter(|dot| dot[1] > bottom).count();
    assert_eq!((over, under), (5, 4), "each shape of strokes has its dot on its side");
    let strokes = |slanted: bool| {
        let is_stroke = move |form: &Form| match form {
            Form::Line { from, to, .. } => (from.0 != to.0 && from.1 != to.1) == slanted,
            _ => false,
        };
        shapes(&sheet, is_stroke).map(bounds).filter(|stroke| stroke[3] < top || stroke[1] > bottom).count()
    };
    // Two strokes an angle: two doubled ones and three single ones.
    assert_eq!(strokes(true), 2 * (2 * 2 + 3));
    // Three strokes a square: two doubled ones and two single ones.
    assert_eq!(strokes(false), 3 * (2 * 2 + 2));
}

/// Gould 2011, "Time signatures" and "Beams" (from memory): the groups are printed and beamed.
#[test]
fn an_additive_meter_shows_its_groups_and_beams_them() {
    let sheet = case("additive-meters");
    let eights = glyphs(&sheet, |glyph| glyph == Glyph::Digit8);
    assert_eq!(eights.len(), 4, "at the begin and where it changes, on two staves, and nowhere else");
    let plus =
        shapes(&sheet, |form| matches!(form, Form::Line { width, .. } if (*width / sheet.space - 0.3).abs() < 0.01));
    assert_eq!(plus.count(), 2 * (2 + 4));
    let mut stems = stems(&sheet);
    stems.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let under = |beam: &[(f32, f32); 4]| {
        let [left, right] = [beam[0].0, beam[1].0];
        let meets = |stem: &&Bounds| {
            left - 1.0 < stem[0]
                && stem[2] < right + 1.0
                && meet(&[stem[0], stem[1] - 3.0, stem[2], stem[3] + 3.0], &bounds_of(beam))
        };
        stems.iter().filter(meets).count()
    };
    let mut groups: Vec<(f32, usize)> = beams(&sheet).iter().map(|beam| (beam[0].0, under(beam))).collect();
    groups.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert_eq!(groups.iter().map(|(_, count)| *count).collect::<Vec<_>>(), [3, 2, 3, 2, 2, 2, 3]);
}

fn bounds_of(points: &[(f32, f32)]) -> Bounds {
    points.iter().fold([f32::MAX, f32::MAX, f32::MIN, f32::MIN], |[left, top, right, bottom], (x, y)| {
        [left.min(*x), top.min(*y), right.max(*x), bottom.max(*y)]
    })
}

/// A slur across the staves begins and ends at its notes, whatever stands outside them.
#[test]
fn slurs_across_the_staves_begin_at_their_own_notes() {
    let sheet = case("slurs-across");
    let heads = glyphs(&sheet, is_head);
    let curves: Vec<&Shape> = shapes(&sheet, |form| matches!(form, Form::Curve { .. }))
        .filter(|shape| bounds(shape)[0] > 3.0 * sheet.space)
        .collect();
    assert_eq!(curves.len(), 2);
    let tips: Vec<Bounds> = heads.iter().copied().chain(stems(&sheet)).collect();
    for curve in curves {
        let Form::Curve { ends, .. } = &curve.form else { panic!("a curve") };
        for (x, y) in ends {
            let off = |[left, top, right, bottom]: &Bounds| {
                (left - x).max(x - right).max(0.0).hypot((top - y).max(y - bottom).max(0.0)) / sheet.space
            };
            let nearest = tips.iter().map(off).fold(f32::MAX, f32::min);
            assert!(nearest < 1.0, "{nearest} spaces from any note");
        }
    }
}

/// Between staves that a beam joins there is no room: what says how loud stands outside them.
#[test]
fn dynamics_keep_clear_of_beams_across_the_staves() {
    let sheet = case("dynamics-across");
    let marks = glyphs(&sheet, |glyph| (Glyph::DynP..=Glyph::DynR).contains(&glyph));
    let hairpins =
        shapes(&sheet, |form| matches!(form, Form::Line { from, to, .. } if from.1 != to.1 && from.0 != to.0))
            .map(bounds);
    let loud: Vec<Bounds> = marks.into_iter().chain(hairpins).collect();
    assert_eq!(loud.len(), 1 + 1 + 2 + 2);
    let joined: Vec<Bounds> = beams(&sheet).iter().map(|beam| bounds_of(beam)).chain(stems(&sheet)).collect();
    for sign in &loud {
        let by = 0.25 * sheet.space;
        let grown = [sign[0] - by, sign[1] - by, sign[2] + by, sign[3] + by];
        assert!(!joined.iter().any(|other| meet(&grown, other)), "{sign:?}");
    }
}

/// Gould 2011, "Accidentals" and "Dynamics" (from memory): a quarter of a space from what stands beside them.
#[test]
fn accidentals_and_hairpins_keep_a_quarter_space() {
    let sheet = case("quarter-spaces");
    let by = 0.24 * sheet.space;
    let grown = |[left, top, right, bottom]: Bounds| [left - by, top, right + by, bottom];
    let accidentals = glyphs(&sheet, is_accidental);
    let heads = glyphs(&sheet, is_head);
    for (nth, accidental) in accidentals.iter().enumerate() {
        let beside =
            accidentals.iter().enumerate().filter(|(other, _)| *other != nth).map(|(_, other)| other).chain(&heads);
        let near: Vec<_> = beside.filter(|other| meet(&grown(*accidental), other)).collect();
        assert!(near.is_empty(), "{accidental:?} beside {near:?}");
    }
    // Both lines of a hairpin as one.
    let lines = shapes(&sheet, |form| matches!(form, Form::Line { from, to, .. } if from.1 != to.1 && from.0 != to.0))
        .map(bounds);
    let mut hairpins: Vec<Bounds> = Vec::new();
    for line in lines {
        match hairpins.last_mut().filter(|last| (last[0] - line[0]).abs() < 0.1) {
            Some(last) => *last = [last[0], last[1].min(line[1]), last[2], last[3].max(line[3])],
            None => hairpins.push(line),
        }
    }
    assert_eq!(hairpins.len(), 4);
    let marks = glyphs(&sheet, |glyph| (Glyph::DynP..=Glyph::DynR).contains(&glyph));
    for (nth, hairpin) in hairpins.iter().enumerate() {
        let near = hairpins[nth + 1..].iter().chain(&marks).find(|other| meet(&grown(*hairpin), other));
        assert!(near.is_none(), "{hairpin:?} beside {near:?}");
    }
}

/// A number beside a head reads as a finger.
#[test]
fn bar_numbers_stand_beside_no_head() {
    for name in ["changes", "bar-rests", "turned-voices", "grace-places"] {
        let sheet = everything(&part(name), 1180.0, 420.0);
        let heads = glyphs(&sheet, is_head);
        let numbers = shapes(&sheet, |form| matches!(form, Form::Text { italic: true, .. })).map(bounds);
        for [left, top, right, bottom] in numbers {
            let beside = [left - sheet.space, top, right + sheet.space, bottom];
            assert!(!heads.iter().any(|head| meet(&beside, head)), "a number of {name} at {left}");
        }
    }
}

/// What stands before a span on its system stays: rests, the other hand's rest, how fast it goes.
#[test]
fn a_span_that_starts_after_a_rest_keeps_what_stands_before_it() {
    let part = part("after-a-rest");
    let onsets = onsets(&part);
    let sheet = |first| {
        let focus = Focus { onsets: &onsets, span: (first, 2), goal: 2, aim: 2, plays: &|_| true };
        practice_sheet(&part, &focus, 1180.0, 420.0)
    };
    let printed = |sheet: &Sheet| {
        let words = shapes(sheet, |form| matches!(form, Form::Text { text, .. } if text == "Andante")).count();
        (glyphs(sheet, is_rest).len(), words, glyphs(sheet, |glyph| glyph == Glyph::GClef).len())
    };
    assert_eq!(printed(&sheet(0)), (2, 1, 1), "a rest, the bar's rest of the other hand, the tempo, one clef");
    assert_eq!(printed(&sheet(1)), (2, 1, 1));
}

/// However a sheet is broken: no staff has two clefs at one place, and a time signature stands at the begin and where
/// it changes.
#[test]
fn clefs_and_time_signatures_are_printed_where_they_change_alone() {
    let part = part("changes");
    for width in (8..30).map(|step| 40.0 * step as f32) {
        let sheet = everything(&part, width, 1200.0);
        let clefs = glyphs(&sheet, |glyph| matches!(glyph, Glyph::GClef | Glyph::FClef));
        for (nth, clef) in clefs.iter().enumerate() {
            let by = 3.0 * sheet.space;
            let near = [clef[0] - by, clef[1], clef[2] + by, clef[3]];
            assert!(!clefs[nth + 1..].iter().any(|other| meet(&near, other)), "at {width} px");
        }
        let threes = glyphs(&sheet, |glyph| glyph == Glyph::Digit3).len();
        assert!([2, 4].contains(&threes), "{threes} threes at {width} px: on both staves, once or announced");
    }
}
