//! What is printed, in small scores of one subject each.
//!
//! Meanings of the elements are those of the MusicXML 4.0 reference (W3C Music Notation Community Group, 2021).

use crate::{
    POLONAISE_1,
    texts::{changes, chord, heard, note, score},
};
use tailfirst::music::{
    Quarters,
    musicxml::{Mend, read},
    passage::Articulation,
    pitch::Letter,
    score::Part,
    written::{
        Anchor, Barline, Beam, Clef, ClefSign, Diatonic, EndingEnd, Event, FermataShape, Head, Kind, MeterSign,
        Ornament, Says, Spans, Stem, Value, WrittenBar,
    },
};

fn part(measures: &[&str]) -> Part {
    heard(&score(measures)).score.parts.remove(0)
}

fn first_bar(content: &str) -> WrittenBar {
    part(&[content]).bars.remove(0).written
}

/// Every voice as `name: at value notes | …`, with a dot for each dot and the figures of a tuplet.
fn voices(bar: &WrittenBar) -> Vec<String> {
    let events = |events: &[Event]| events.iter().map(printed).collect::<Vec<_>>().join(" | ");
    bar.voices.iter().map(|voice| format!("{}: {}", voice.name, events(&voice.events))).collect()
}

fn printed(event: &Event) -> String {
    let dots = ".".repeat(usize::from(event.dots));
    let tuplet = event.tuplet.map(|(actual, normal)| format!(" {actual}:{normal}")).unwrap_or_default();
    let what = match &event.kind {
        Kind::Notes(heads) => {
            heads.iter().map(|head| head.pitch.map_or("x".into(), |pitch| pitch.to_string())).collect()
        }
        Kind::Rest { whole_bar: true, .. } => vec!["bar's rest".to_owned()],
        Kind::Rest { .. } => vec!["rest".to_owned()],
    };
    format!("{} {:?}{dots}{tuplet} {}", event.at, event.value, what.join(" "))
}

fn heads(event: &Event) -> &[Head] {
    let Kind::Notes(heads) = &event.kind else { panic!("a rest") };
    heads
}

/// Every sign that reaches from place to place: `bar:at-bar:at`, grace notes as `^1`.
fn spans(part: &Part) -> Vec<String> {
    let place = |anchor: &Anchor| {
        let grace = if anchor.grace > 0 { format!("^{}", anchor.grace) } else { String::new() };
        format!("{}:{}{grace}", anchor.bar, anchor.at)
    };
    let signs = part.spanners.iter();
    signs.map(|sign| format!("{:?} {}-{}", sign.kind, place(&sign.from), place(&sign.to))).collect()
}

const TRIPLET: &str =
    "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";

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
fn tuplets_are_those_the_file_marks() {
    let eighth = |pitch, more: &str| note(pitch, 4, &format!("<type>eighth</type>{TRIPLET}{more}"));
    let mark = |sign: &str| format!("<notations><tuplet {sign}/></notations>");
    let divided = "<attributes><divisions>12</divisions></attributes>";
    let marked = |begin: &str| {
        eighth("C4", &mark(&format!("type='start' {begin}"))) + &eighth("D4", "") + &eighth("E4", &mark("type='stop'"))
    };
    let bar = divided.to_owned() + &marked("bracket='yes'") + &marked("show-number='none'") + &marked("bracket='no'");
    assert_eq!(
        spans(&part(&[&bar])),
        ["Tuplet { figure: 3, bracket: Some(true) } 0:0-0:2/3", "Tuplet { figure: 3, bracket: Some(false) } 0:2-0:8/3"]
    );
}

#[test]
fn a_sign_that_is_given_twice_is_one_and_a_tuplet_may_hold_a_single_note() {
    let begin = "<notations><slur type='start'/></notations>";
    let alone = "<notations><tuplet type='start'/><tuplet type='stop'/></notations>";
    let divided = "<attributes><divisions>12</divisions></attributes>".to_owned();
    let bar = divided
        + &note("C5", 12, begin)
        + &chord("E5", 12, begin)
        + &note("D5", 16, &format!("<type>half</type>{TRIPLET}{alone}"))
        + &note("E5", 8, "<notations><slur type='stop'/></notations>");
    let text = score(&[&bar]);
    let part = &heard(&text).score.parts[0];
    assert_eq!(spans(part), ["Slur 0:0-0:7/3", "Tuplet { figure: 3, bracket: None } 0:1-0:1"]);
    assert_eq!(changes(&text), []);
}

#[test]
fn tuplets_that_are_only_counted_are_grouped() {
    let third = |pitch, length, shape| note(pitch, length, &format!("<type>{shape}</type>{TRIPLET}"));
    let divided = "<attributes><divisions>12</divisions></attributes>".to_owned();
    let bar = divided
        + &third("C4", 8, "quarter")
        + &third("D4", 4, "eighth")
        + &third("E4", 4, "eighth").repeat(3)
        + &third("F4", 2, "16th").repeat(6);
    let tuplets = spans(&part(&[&bar]));
    let places: Vec<_> = tuplets.iter().map(|tuplet| tuplet.rsplit(' ').next().expect("a place")).collect();
    assert_eq!(places, ["0:0-0:2/3", "0:1-0:5/3", "0:2-0:7/3", "0:5/2-0:17/6"]);
    assert!(tuplets[0].starts_with("Tuplet { figure: 3, bracket: None }"));
}

#[test]
fn slurs_go_by_voice_and_number_and_those_without_an_end_are_said() {
    let slur = |signs: &[(&str, u8)]| {
        let signs: String =
            signs.iter().map(|(kind, number)| format!("<slur type='{kind}' number='{number}'/>")).collect();
        format!("<notations>{signs}</notations>")
    };
    let in_voice = |voice: u8, signs: &[(&str, u8)]| format!("<voice>{voice}</voice>{}", slur(signs));
    let back = "<backup><duration>12</duration></backup>";
    let first = note("E5", 4, &in_voice(1, &[("start", 1)]))
        + &note("F5", 8, &in_voice(1, &[("stop", 1), ("start", 1)]))
        + back
        + &note("C4", 12, &in_voice(2, &[("start", 1), ("start", 2)]));
    let second = note("G5", 12, &in_voice(1, &[("stop", 1)])) + back + &note("D4", 12, &in_voice(2, &[("stop", 1)]));
    let text = score(&[&first, &second]);
    let part = &heard(&text).score.parts[0];
    assert_eq!(spans(part), ["Slur 0:0-0:1", "Slur 0:0-1:0", "Slur 0:1-1:0"]);
    let voices: Vec<_> = part.spanners.iter().map(|slur| slur.from.voice.as_str()).collect();
    assert_eq!(voices, ["1", "2", "1"]);
    assert_eq!(changes(&text), [Mend::LooseSlur]);
}

fn direction(sign: &str) -> String {
    format!("<direction placement='below'><direction-type>{sign}</direction-type></direction>")
}

#[test]
fn hairpins_and_pedals_reach_to_where_they_hold_no_more() {
    let bar = direction("<wedge type='crescendo'/>")
        + &direction("<pedal type='start'/>")
        + &note("C4", 4, "")
        + &direction("<wedge type='stop'/>")
        + &direction("<wedge type='diminuendo'/>")
        + &direction("<pedal type='change'/>")
        + &note("D4", 8, "")
        + &direction("<wedge type='stop'/>");
    let text = score(&[&bar, &(note("E4", 4, "") + &direction("<pedal type='stop'/>"))]);
    let part = &heard(&text).score.parts[0];
    assert_eq!(
        spans(part),
        ["Crescendo 0:0-0:1", "Pedal(Signs) 0:0-0:1", "Diminuendo 0:1-0:3", "Pedal(Signs) 0:1-1:1"]
    );
    assert!(part.spanners.iter().all(|sign| sign.above == Some(false)));
    assert_eq!(changes(&text), []);
}

#[test]
fn a_pedal_that_is_pressed_again_was_released_there() {
    let press = direction("<pedal type='start'/>");
    let bar = press.clone() + &note("C4", 4, "") + &press + &note("D4", 8, "") + &direction("<pedal type='stop'/>");
    let text = score(&[&bar]);
    assert_eq!(spans(&heard(&text).score.parts[0]), ["Pedal(Signs) 0:0-0:1", "Pedal(Signs) 0:1-0:3"]);
    assert_eq!(changes(&text), []);
}

#[test]
fn a_pedal_is_printed_by_signs_or_by_a_line() {
    let bar = direction("<pedal type='start' line='yes'/>")
        + &note("C4", 4, "")
        + &direction("<pedal type='change' line='yes'/>")
        + &note("D4", 4, "")
        + &direction("<pedal type='stop' line='yes'/>")
        + &direction("<pedal type='start' line='yes' sign='yes'/>")
        + &note("E4", 4, "")
        + &direction("<pedal type='stop' line='yes' sign='yes'/>");
    let expected = ["Pedal(Line) 0:0-0:1", "Pedal(Line) 0:1-0:2", "Pedal(SignAndLine) 0:2-0:3"];
    assert_eq!(spans(&part(&[&bar])), expected);
}

#[test]
fn a_trill_keeps_its_line_to_where_it_ends() {
    let line = |kinds: &[&str]| {
        let lines: String = kinds.iter().map(|kind| format!("<wavy-line type='{kind}'/>")).collect();
        format!("<notations><ornaments><trill-mark/>{lines}</ornaments></notations>")
    };
    let bar = note("C5", 4, &line(&["start", "stop"]))
        + &note("D5", 4, &line(&["start"]))
        + &note("E5", 4, &line(&["stop", "start"]));
    let text = score(&[&bar, &note("F5", 12, &line(&["continue", "stop"]))]);
    assert_eq!(spans(&heard(&text).score.parts[0]), ["Trill 0:0-0:0", "Trill 0:1-0:2", "Trill 0:2-1:0"]);
    assert_eq!(changes(&text), []);
}

#[test]
fn two_notes_that_alternate_are_no_tuplet() {
    let half_time =
        "<time-modification><actual-notes>2</actual-notes><normal-notes>1</normal-notes></time-modification>";
    let tremolo = |kind| format!("<notations><ornaments><tremolo type='{kind}'>3</tremolo></ornaments></notations>");
    let half = |kind| format!("<type>half</type>{half_time}{}", tremolo(kind));
    let text = score(&[&(note("C4", 4, &half("start")) + &note("E4", 4, &half("stop")) + &note("C4", 4, ""))]);
    let part = heard(&text).score.parts.remove(0);
    assert_eq!(spans(&part), ["Tremolo(3) 0:0-0:1"]);
    assert_eq!(voices(&part.bars[0].written), [": 0 Half C4 | 1 Half E4 | 2 Quarter C4"]);
    assert_eq!(changes(&text), []);
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

#[test]
fn under_an_octave_sign_notes_sound_as_written_and_are_printed_lower() {
    let bar = direction("<octave-shift type='down' size='8'/>")
        + &note("C7", 4, "")
        + &direction("<octave-shift type='stop' size='8'/>")
        + &note("C6", 8, "");
    let part = part(&[&bar]);
    assert_eq!(spans(&part), ["Octave(1) 0:0-0:1"]);
    let events = &part.bars[0].written.voices[0].events;
    let places: Vec<_> = events.iter().map(|event| heads(event)[0].place).collect();
    assert_eq!(places, [Diatonic::of(Letter::C, 6); 2]);
    assert_eq!(heads(&events[0])[0].pitch.map(|pitch| pitch.octave), Some(7));
}

#[test]
fn an_octave_sign_moves_the_notes_of_its_staff_alone() {
    let bar = direction("<octave-shift type='up' size='15'/>")
        + &note("C4", 12, "<staff>1</staff>")
        + &chord("C5", 12, "<staff>2</staff>")
        + &direction("<octave-shift type='stop' size='15'/>");
    let part = part(&[&bar]);
    assert_eq!(spans(&part), ["Octave(-2) 0:0-0:3"]);
    let heads: Vec<_> =
        heads(&part.bars[0].written.voices[0].events[0]).iter().map(|head| (head.staff, head.place)).collect();
    assert_eq!(heads, [(2, Diatonic::of(Letter::C, 5)), (1, Diatonic::of(Letter::C, 6))]);
}

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
fn common_ornaments_are_kept_and_others_are_said() {
    let signs = "<ornaments><trill-mark/><inverted-mordent/><tremolo type='single'>3</tremolo><schleifer/></ornaments>";
    let text = score(&[&note("C5", 12, &format!("<notations>{signs}</notations>"))]);
    let reading = heard(&text);
    let event = &reading.score.parts[0].bars[0].written.voices[0].events[0];
    assert_eq!(event.ornaments, [Ornament::Trill, Ornament::ShortTrill, Ornament::Tremolo(3)]);
    assert_eq!(changes(&text), [Mend::OtherOrnaments]);
}

#[test]
fn in_a_real_score_every_sounding_note_is_printed_and_nothing_else() {
    let score = read(POLONAISE_1).expect("a score").score;
    for bar in &score.parts[0].bars {
        let events = bar.written.voices.iter().flat_map(|voice| &voice.events).filter(|event| event.grace.is_none());
        let notes = events.filter_map(|event| match &event.kind {
            Kind::Notes(heads) => {
                Some(heads.iter().filter(|head| !head.tied_from).map(|head| (event.at, head.staff, head.pitch)))
            }
            Kind::Rest { .. } => None,
        });
        let key = |(at, staff, pitch): &(Quarters, u8, Option<tailfirst::music::Pitch>)| {
            (*at, *staff, pitch.map(|p| p.midi()))
        };
        let mut printed: Vec<_> = notes.flatten().map(|note| key(&note)).collect();
        let attacks = bar.attacks.iter();
        let mut heard: Vec<_> = attacks
            .flat_map(|attack| attack.notes.iter().map(|note| key(&(attack.at, attack.staff, note.pitch))))
            .collect();
        printed.sort();
        printed.dedup();
        heard.sort();
        assert_eq!(printed, heard, "bar {}", bar.number);
    }
    let slurs = score.parts[0].spanners.iter().filter(|spanner| spanner.kind == Spans::Slur).count();
    assert!(slurs > 0);
}

#[test]
fn the_study_is_printed_in_two_voices_that_fill_every_bar() {
    let reading = read(include_bytes!("../../src/music/study.musicxml")).expect("a score");
    assert_eq!(reading.mended, []);
    let part = &reading.score.parts[0];
    assert_eq!(voices(&part.bars[0].written), ["1: 0 Eighth A4", "5: 0 Eighth rest"]);
    assert_eq!(
        voices(&part.bars[1].written),
        [
            "1: 0 Quarter F♯5 | 1 Eighth E5 | 3/2 Quarter D5 | 5/2 Eighth A4",
            "5: 0 Eighth D3 | 1/2 Eighth A3 | 1 Eighth D4 | 3/2 Eighth F♯3 | 2 Eighth A3 | 5/2 Eighth D4"
        ]
    );
    let beams: Vec<_> = part.bars[1].written.voices[1].events.iter().map(|event| event.beams[0]).collect();
    assert_eq!(beams, [Beam::Begin, Beam::Continue, Beam::End].repeat(2));
    assert_eq!(part.bars.last().expect("bars").written.closes, Barline::Final);
    for bar in &part.bars {
        assert_eq!(bar.written.clefs, [Clef::TREBLE, Clef::BASS]);
        for voice in &bar.written.voices {
            let mut end = Quarters::ZERO;
            for event in &voice.events {
                assert_eq!(event.at, end, "voice {} of bar {}", voice.name, bar.number);
                end += event.lasts;
            }
            assert_eq!(end, bar.length, "voice {} of bar {}", voice.name, bar.number);
        }
    }
}

/// MusicXML 4.0, `offset`: it "affects the visual appearance of the direction"; what sounds takes effect at the current
/// location unless `sound` is `yes`.
#[test]
fn the_offset_of_an_octave_sign_moves_which_notes_it_holds_for_only_where_it_sounds() {
    let shift = |kind: &str, offset: &str| {
        format!(
            "<direction><direction-type><octave-shift type='{kind}'/></direction-type>\
             <offset {offset}>4</offset></direction>"
        )
    };
    let octaves = |offset: &str| -> Vec<i16> {
        let bar = shift("down", offset)
            + &note("C6", 4, "")
            + &note("D6", 4, "")
            + &shift("stop", offset)
            + &note("E6", 4, "");
        let events = &part(&[&bar]).bars[0].written.voices[0].events;
        events.iter().map(|event| heads(event)[0].place.0 - Diatonic::of(Letter::C, 6).0).collect()
    };
    assert_eq!(octaves(""), [-7, 1 - 7, 2]);
    assert_eq!(octaves("sound='no'"), [-7, 1 - 7, 2]);
    assert_eq!(octaves("sound='yes'"), [0, 1 - 7, 2 - 7]);
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
