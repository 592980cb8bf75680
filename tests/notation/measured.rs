//! Single sheets, measured: against the published numbers, and what a player sees of a step.

use super::{
    forms::{beams, everything, glyphs, is_accidental, is_head, practice_sheet, stems},
    written::{bar, onsets, part, span},
};
use tailfirst::{
    music::written::Spans,
    notation::{
        Glyph, Ink, Shape,
        drawing::Form,
        engraving::{Focus, Sheet},
    },
};

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
