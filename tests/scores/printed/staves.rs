//! What stands on a staff beside its notes: clefs, meters, bar lines, words and dynamic marks.

use crate::{
    printed::{heads, part},
    texts::{changes, heard, note, score},
};
use tailfirst::music::{
    Quarters,
    pitch::Letter,
    written::{Barline, Clef, ClefSign, Diatonic, EndingEnd, MeterSign, Says, Value},
};

fn clef(staff: u8, sign: &str, line: u8) -> String {
    format!("<attributes><clef number='{staff}'><sign>{sign}</sign><line>{line}</line></clef></attributes>")
}

#[test]
fn clefs_hold_until_they_change() {
    let lower = "<staff>2</staff>";
    let bars = [
        clef(1, "G", 2) + &note("C3", 12, lower),
        note("C4", 8, lower) + &clef(2, "C", 3) + &note("C4", 4, lower) + &clef(2, "G", 2),
        clef(2, "G", 2) + &note("C5", 12, lower),
    ];
    let part = part(&bars.each_ref().map(String::as_str));
    let begin: Vec<_> = part.bars.iter().map(|bar| bar.written.clefs.clone()).collect();
    assert_eq!(begin, [vec![Clef::TREBLE, Clef::BASS], vec![Clef::TREBLE, Clef::BASS], vec![Clef::TREBLE; 2]]);
    let changes = part.bars[1].written.clef_changes.iter();
    let changes: Vec<_> = changes.map(|change| (change.at.to_string(), change.staff, change.clef.sign)).collect();
    assert_eq!(changes, [("2".into(), 2, ClefSign::C), ("3".into(), 2, ClefSign::G)]);
}

#[test]
fn bar_lines_and_endings_stand_where_the_file_puts_them() {
    let line = |location: &str, inside: &str| format!("<barline location='{location}'>{inside}</barline>");
    let start = |number| format!("<ending number='{number}' type='start'/>");
    let bars = [
        line("left", "<repeat direction='forward'/>") + &note("C4", 12, ""),
        line("left", &start("1, 2")) + &note("D4", 12, ""),
        note("E4", 12, "") + &line("right", "<ending number='1, 2' type='stop'/><repeat direction='backward'/>"),
        line("left", &start("3"))
            + &note("F4", 12, "")
            + &line("right", "<bar-style>light-heavy</bar-style><ending number='3' type='discontinue'/>"),
    ];
    let part = part(&bars.each_ref().map(String::as_str));
    let lines: Vec<_> = part.bars.iter().map(|bar| (bar.written.opens, bar.written.closes)).collect();
    let (single, repeat) = (Barline::Single, Barline::Repeat);
    assert_eq!(lines, [(repeat, single), (single, single), (single, repeat), (single, Barline::Final)]);
    let endings = part.bars.iter().filter_map(|bar| bar.written.ending.clone());
    let endings: Vec<_> = endings.map(|ending| (ending.text, ending.begins, ending.ends)).collect();
    assert_eq!(
        endings,
        [
            ("1. 2.".into(), true, EndingEnd::GoesOn),
            ("1. 2.".into(), false, EndingEnd::Hook),
            ("3.".into(), true, EndingEnd::Open)
        ]
    );
}

#[test]
fn a_time_signature_is_printed_as_figures_or_as_its_sign() {
    let time = |attributes: &str, beats: u8, unit: u8| {
        let time = format!("<time {attributes}><beats>{beats}</beats><beat-type>{unit}</beat-type></time>");
        format!("<attributes>{time}</attributes>") + &note("C4", 4, "")
    };
    let bars =
        [time("symbol='common'", 4, 4), time("symbol='cut'", 2, 2), time("", 3, 4), time("print-object='no'", 2, 4)];
    let part = part(&bars.each_ref().map(String::as_str));
    let signs: Vec<_> = part.bars.iter().map(|bar| bar.written.meter_sign).collect();
    assert_eq!(signs, [MeterSign::Common, MeterSign::Cut, MeterSign::Figures, MeterSign::Hidden]);
}

/// MusicXML 4.0, `time`: "composite time signatures" have several figures in `beats`, or several `beats` and
/// `beat-type`.
#[test]
fn an_additive_meter_keeps_its_groups() {
    let meter = |time: &str| {
        let attributes = format!("<attributes><time>{time}</time></attributes>");
        part(&[&(attributes + &note("C4", 4, ""))]).bars[0].meter.to_string()
    };
    assert_eq!(meter("<beats>3+2</beats><beat-type>8</beat-type>"), "3+2/8");
    assert_eq!(meter("<beats>2 + 2 + 3</beats><beat-type>16</beat-type>"), "2+2+3/16");
    let fractions = "<beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type>";
    assert_eq!(meter(fractions), "3+2+2/8");
    assert_eq!(meter("<beats>1+1+1+1+1+1+1+1+1</beats><beat-type>8</beat-type>"), "9/8");
}

#[test]
fn a_rhythm_stands_on_one_line() {
    let start = "<attributes><clef><sign>percussion</sign></clef><staff-details><staff-lines>1</staff-lines></staff-details></attributes>";
    let drum = "<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>12</duration></note>";
    let part = part(&[&format!("{start}{drum}"), "<note><unpitched/><duration>12</duration></note>"]);
    assert_eq!((part.lines, part.bars[0].written.clefs.as_slice()), (1, [Clef::PERCUSSION].as_slice()));
    let places: Vec<_> = part.bars.iter().map(|bar| heads(&bar.written.voices[0].events[0])[0].place).collect();
    assert_eq!(places, [Diatonic::of(Letter::E, 4), Diatonic::of(Letter::B, 4)]);
}

#[test]
fn words_say_how_how_fast_and_where() {
    let says = |signs: &[&str], sound: &str| {
        let kinds: String = signs.iter().map(|sign| format!("<direction-type>{sign}</direction-type>")).collect();
        format!("<direction placement='above'>{kinds}<offset>2</offset><staff>1</staff>{sound}</direction>")
    };
    let metronome =
        "<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>ca. 52</per-minute></metronome>";
    let bar = says(&["<words>Andante</words><words>con moto</words>", metronome], "")
        + &says(&["<words>Presto</words>"], "<sound tempo='160'/>")
        + &says(&["<words> </words>", "<words>dolce</words>"], "")
        + &says(&["<rehearsal>A</rehearsal>"], "")
        + &note("C4", 12, "");
    let text = score(&[&bar]);
    let reading = heard(&text);
    let words = &reading.score.parts[0].bars[0].written.texts;
    let expected = [
        Says::Tempo("Andante con moto".into()),
        Says::Metronome { beat: Value::Quarter, dots: 1, rate: "ca. 52".into() },
        Says::Tempo("Presto".into()),
        Says::Manner("dolce".into()),
        Says::Rehearsal("A".into()),
    ];
    assert_eq!(words.iter().map(|words| words.says.clone()).collect::<Vec<_>>(), expected);
    assert!(words.iter().all(|words| (words.at, words.above) == (Quarters::ONE / 2, Some(true))));
    assert_eq!(changes(&text), []);
}

/// MusicXML 4.0, `dynamics` and `direction`: the attribute `placement`.
#[test]
fn a_dynamic_mark_stands_on_the_side_that_the_file_gives_it() {
    let direction = |outer: &str, inner: &str| {
        format!("<direction {outer}><direction-type><dynamics {inner}><p/></dynamics></direction-type></direction>")
    };
    let at_note = "<notations><dynamics placement='above'><f/></dynamics></notations>";
    let bar = direction("placement='above'", "")
        + &direction("placement='above'", "placement='below'")
        + &direction("", "")
        + &note("C4", 12, at_note);
    let part = part(&[&bar]);
    let sides: Vec<_> = part.bars[0].dynamics.iter().map(|dynamic| dynamic.above).collect();
    assert_eq!(sides, [Some(true), Some(false), None, Some(true)]);
}
