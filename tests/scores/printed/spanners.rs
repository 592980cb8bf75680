//! Signs that reach from place to place.

use crate::{
    printed::{TRIPLET, heads, part, spans, voices},
    texts::{changes, chord, heard, note, score},
};
use tailfirst::music::{musicxml::Mend, pitch::Letter, written::Diatonic};

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
