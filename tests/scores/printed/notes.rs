//! Notes, chords and rests, and the signs of a single one.

use crate::{
    printed::{TRIPLET, first_bar, heads, part, spans, voices},
    texts::{changes, chord, heard, note, score},
};
use tailfirst::music::{
    musicxml::Mend,
    passage::Articulation,
    pitch::Letter,
    written::{Beam, Diatonic, FermataShape, Kind, Ornament, Stem},
};

#[test]
fn notes_keep_their_shapes_stems_and_beams() {
    let beam = |does: [&str; 2]| format!("<beam number='1'>{}</beam><beam number='2'>{}</beam>", does[0], does[1]);
    let bar = first_bar(
        &(note("C5", 3, "<type>eighth</type><dot/><stem>down</stem><beam number='1'>begin</beam>")
            + &note("D5", 1, &format!("<type>16th</type>{}", beam(["end", "backward hook"])))
            + &note("E5", 8, "<type>half</type><stem>none</stem>")),
    );
    assert_eq!(voices(&bar), [": 0 Eighth. C5 | 3/4 N16th D5 | 1 Half E5"]);
    let events = &bar.voices[0].events;
    assert_eq!([events[0].stem, events[1].stem, events[2].stem], [Stem::Down, Stem::Free, Stem::Hidden]);
    assert_eq!(events[0].beams, [Beam::Begin]);
    assert_eq!(events[1].beams, [Beam::End, Beam::HookBackward]);
    assert!(events[2].beams.is_empty());
}

#[test]
fn a_shape_that_the_file_leaves_out_is_told_from_the_length() {
    let triplet = |pitch, length| note(pitch, length, TRIPLET);
    let divided = "<attributes><divisions>12</divisions></attributes>".to_owned();
    let bar = divided + &note("C4", 18, "") + &triplet("D4", 4) + &triplet("E4", 2) + &note("F4", 12, "");
    assert_eq!(voices(&first_bar(&bar)), [": 0 Quarter. C4 | 3/2 Eighth 3:2 D4 | 11/6 N16th 3:2 E4 | 2 Quarter F4"]);
}

#[test]
fn voices_keep_their_names_and_gaps_and_what_overlaps_stands_beside() {
    let bar = note("E5", 12, "<voice>1</voice><staff>1</staff>")
        + "<backup><duration>12</duration></backup><forward><duration>4</duration></forward>"
        + &note("G4", 4, "<voice>2</voice><staff>1</staff>")
        + "<backup><duration>8</duration></backup>"
        + &note("C3", 12, "<voice>1</voice><staff>2</staff>");
    let expected = ["1: 0 Half. E5", "2: 1 Quarter G4", "1/2: 0 Half. C3"];
    assert_eq!(voices(&first_bar(&bar)), expected);
    let lower_alone = note("D3", 12, "<voice>1</voice><staff>2</staff>");
    assert_eq!(voices(&part(&[&bar, &lower_alone]).bars[1].written), ["1/2: 0 Half. D3"]);
}

#[test]
fn a_chord_is_one_event_whose_signs_stand_once() {
    let signs = "<notations><articulations><accent/><tenuto/></articulations><fermata/></notations>";
    let bar = note("E5", 12, &format!("<accidental parentheses='yes'>flat</accidental>{signs}"))
        + &chord("C5", 12, &format!("<accidental>double-sharp</accidental>{signs}"));
    let bar = first_bar(&bar);
    assert_eq!(voices(&bar), [": 0 Half. C5 E5"]);
    let event = &bar.voices[0].events[0];
    assert_eq!(event.articulations, [Articulation::Accent, Articulation::Tenuto, Articulation::Fermata]);
    let accidentals: Vec<_> = heads(event).iter().map(|head| head.accidental.expect("one")).collect();
    assert_eq!(
        accidentals.iter().map(|sign| (sign.alter, sign.bracketed)).collect::<Vec<_>>(),
        [(2, false), (-1, true)]
    );
}

#[test]
fn rests_fill_their_bar_stand_where_they_are_put_or_are_hidden() {
    let rest = |length: u32, inside: &str| format!("<note><rest>{inside}</rest><duration>{length}</duration></note>");
    let placed = rest(4, "<display-step>G</display-step><display-octave>5</display-octave>");
    let hidden = rest(4, "").replace("<note>", "<note print-object='no'>");
    let part = part(&[
        &(placed + &hidden + &note("C4", 4, "")),
        &rest(12, ""),
        &rest(12, "").replace("<rest>", "<rest measure='yes'>"),
    ]);
    let bars: Vec<_> = part.bars.iter().map(|bar| voices(&bar.written).remove(0)).collect();
    assert_eq!(bars, [": 0 Quarter rest | 2 Quarter C4", ": 0 Whole bar's rest", ": 0 Whole bar's rest"]);
    let Kind::Rest { place, .. } = part.bars[0].written.voices[0].events[0].kind else { panic!("a note") };
    assert_eq!(place, Some(Diatonic::of(Letter::G, 5)));
}

#[test]
fn grace_notes_stand_before_their_main_note_and_a_slur_may_begin_there() {
    let grace = |pitch, more: &str| {
        note(pitch, 0, &format!("<type>16th</type>{more}")).replacen("<note>", "<note><grace slash='yes'/>", 1)
    };
    let slur = |kind: &str| format!("<notations><slur type='{kind}'/></notations>");
    let part = part(&[&(grace("D5", &slur("start")) + &grace("E5", "") + &note("C5", 12, &slur("stop")))]);
    let bar = &part.bars[0].written;
    assert_eq!(voices(bar), [": 0 N16th D5 | 0 N16th E5 | 0 Half. C5"]);
    assert!(bar.voices[0].events[0].grace.is_some_and(|grace| grace.slashed));
    assert_eq!(spans(&part), ["Slur 0:0^2-0:0"]);
}

#[test]
fn common_ornaments_are_kept_and_others_are_said() {
    let signs = "<ornaments><trill-mark/><inverted-mordent/><tremolo type='single'>3</tremolo><schleifer/></ornaments>";
    let text = score(&[&note("C5", 12, &format!("<notations>{signs}</notations>"))]);
    let reading = heard(&text);
    let event = &reading.score.parts[0].bars[0].written.voices[0].events[0];
    assert_eq!(event.ornaments, [Ornament::Trill, Ornament::ShortTrill, Ornament::Tremolo(3)]);
    assert_eq!(changes(&text), [Mend::OtherOrnaments]);
}

/// MusicXML 4.0, `fermata` and `fermata-shape`.
#[test]
fn a_fermata_keeps_its_shape_and_side_and_a_rare_one_is_said() {
    let fermata = |sign: &str| format!("<notations><fermata{sign}</fermata></notations>");
    let bar = note("C5", 4, &fermata(">angled"))
        + &note("D5", 4, &fermata(" type='inverted'>double-square"))
        + &note("E5", 4, &fermata(" type='upright'>"));
    let text = score(&[&bar, &note("F5", 12, &fermata(">curlew"))]);
    let bars = &heard(&text).score.parts[0].bars;
    let events = bars.iter().flat_map(|bar| &bar.written.voices[0].events);
    let fermatas: Vec<_> = events.filter_map(|event| event.fermata).map(|sign| (sign.shape, sign.above)).collect();
    use FermataShape::{Angled, DoubleSquare, Normal};
    assert_eq!(fermatas, [(Angled, None), (DoubleSquare, Some(false)), (Normal, Some(true)), (Normal, None)]);
    assert_eq!(changes(&text), [Mend::OtherFermatas]);
}
