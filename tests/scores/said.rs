//! What cannot be shown is said, once and in plain words; no score is refused for it.

use crate::texts::{changes, heard, note, score};
use tailfirst::music::musicxml::Mend;

fn with_notation(sign: &str) -> String {
    score(&[&note("C5", 12, &format!("<notations>{sign}</notations>"))])
}

#[test]
fn what_is_kept_is_not_said_to_be_lost() {
    let notations = "<slur type='start'/><slur type='stop' number='2'/><tuplet type='start'/><fermata/><arpeggiate/>\
                     <ornaments><trill-mark/><turn/><mordent/><tremolo>1</tremolo></ornaments>\
                     <articulations><staccato/></articulations><technical><fingering>1</fingering></technical>";
    let ends = "<slur type='stop'/><slur type='start' number='2'/><tuplet type='stop'/>";
    let mark = |sign: &str| format!("<direction><direction-type>{sign}</direction-type></direction>");
    let first = mark("<wedge type='crescendo'/>")
        + &mark("<pedal type='start'/>")
        + &mark("<octave-shift type='down'/>")
        + &mark("<dynamics><mf/></dynamics>")
        + "<note><grace/><pitch><step>D</step><octave>5</octave></pitch><notations><slur type='start' number='2'/></notations></note>"
        + &note("C5", 12, &format!("<notations>{notations}</notations>"));
    let last = mark("<wedge type='stop'/>")
        + &mark("<pedal type='stop'/>")
        + &mark("<octave-shift type='stop'/>")
        + &note("C5", 12, &format!("<notations>{}</notations>", ends.replace("<slur type='start' number='2'/>", "")));
    assert_eq!(changes(&score(&[&first, &last])), []);
}

#[test]
fn what_is_not_shown_is_said_in_one_plain_sentence_each() {
    for (sign, change, sentence) in [
        ("<ornaments><schleifer/></ornaments>", Mend::OtherOrnaments, "some ornament signs are not shown"),
        (
            "<ornaments><tremolo type='start'>3</tremolo></ornaments>",
            Mend::LooseOrnament,
            "a trill line or tremolo without a begin or an end is left out",
        ),
        ("<glissando type='start'/>", Mend::OtherArticulations, "some articulation signs are not shown"),
        ("<technical><fret>3</fret></technical>", Mend::Tablature, "tablature and string numbers are not shown"),
        ("<slur type='start'/>", Mend::LooseSlur, "a slur without a begin or an end is left out"),
    ] {
        let reading = heard(&with_notation(sign));
        let said: Vec<_> = reading.mended.iter().map(ToString::to_string).collect();
        assert_eq!(said, [format!("Bar 1: {sentence}")], "{sign}");
        assert_eq!(reading.mended[0].change, change);
    }
}

#[test]
fn signs_over_the_staff_that_are_not_shown_are_said() {
    let mark = |sign: &str| format!("<direction><direction-type>{sign}</direction-type></direction>");
    let modulation = "<metronome><beat-unit>quarter</beat-unit><beat-unit>half</beat-unit></metronome>";
    let marks = ["<segno/>", "<pedal type='sostenuto'/>", "<dashes type='start'/>"];
    let marks: String = marks.iter().chain([&modulation]).map(|sign| mark(sign)).collect();
    let repeats = "<attributes><measure-style><slash type='start'/></measure-style></attributes>";
    let expected = [
        Mend::Abbreviations,
        Mend::RepeatsOnce,
        Mend::OtherPedals,
        Mend::OtherSigns,
        Mend::OtherTempi,
        Mend::Noteheads,
        Mend::OddAccidental,
    ];
    let odd_note = note("C4", 12, "<accidental>quarter-sharp</accidental><notehead>diamond</notehead>");
    let said = changes(&score(&[&(repeats.to_owned() + &marks + &odd_note)]));
    assert_eq!(said, expected);
}

#[test]
fn a_key_and_a_meter_that_come_inside_a_bar_hold_from_the_next() {
    let new =
        "<attributes><key><fifths>2</fifths></key><time><beats>2</beats><beat-type>4</beat-type></time></attributes>";
    let inside = score(&[&(note("C4", 4, "") + new + &note("D4", 8, "")), &note("E4", 8, "")]);
    let at_the_end = score(&[&(note("C4", 12, "") + new), &note("E4", 8, "")]);
    for (text, said) in [(inside, vec![Mend::InsideBar]), (at_the_end, vec![])] {
        let bars = &heard(&text).score.parts[0].bars;
        let signatures: Vec<_> = bars.iter().map(|bar| (bar.fifths, bar.meter.to_string())).collect();
        assert_eq!(signatures, [(0, "3/4".into()), (2, "2/4".into())]);
        assert_eq!(changes(&text), said);
    }
}

#[test]
fn what_is_dropped_from_a_damaged_pitch_is_listed() {
    let pitch = |inside: &str| score(&[&format!("<note><pitch>{inside}</pitch><duration>12</duration></note>")]);
    let cases = [
        ("<step>H</step><octave>4</octave>", Mend::NoPitch, None),
        ("<step>C</step>", Mend::NoPitch, None),
        ("<step>C</step><octave>four</octave>", Mend::NoPitch, None),
        ("<step>C</step><alter>sharp</alter><octave>4</octave>", Mend::NoAlter, Some(60)),
        ("<step>C</step><octave>12</octave>", Mend::OddPitch, Some(120)),
    ];
    for (inside, change, key) in cases {
        let reading = heard(&pitch(inside));
        assert_eq!(reading.mended.iter().map(|mended| mended.change).collect::<Vec<_>>(), [change], "{inside}");
        let note = &reading.score.parts[0].bars[0].attacks[0].notes[0];
        assert_eq!(note.pitch.map(|pitch| pitch.midi()), key, "{inside}");
    }
}

#[test]
fn what_is_dropped_from_a_damaged_key_is_listed() {
    let key = |key: &str| score(&[&(format!("<attributes>{key}</attributes>") + &note("C4", 12, ""))]);
    let cases = [
        ("<key><fifths>9</fifths></key>", Mend::FarKey, 7),
        ("<key><fifths>two</fifths></key>", Mend::OddKey, 0),
        ("<key><key-step>F</key-step><key-alter>1</key-alter></key>", Mend::OddKey, 0),
        ("<key number='1'><fifths>1</fifths></key><key number='2'><fifths>-3</fifths></key>", Mend::TwoKeys, 1),
    ];
    for (inside, change, fifths) in cases {
        let reading = heard(&key(inside));
        assert_eq!(reading.mended.iter().map(|mended| mended.change).collect::<Vec<_>>(), [change], "{inside}");
        assert_eq!(reading.score.parts[0].bars[0].fifths, fifths, "{inside}");
    }
}
