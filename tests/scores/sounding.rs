//! What sounds, in small scores of one hard case each.

use crate::texts::{attacks, changes, chord, cut, heard, note, score};
use tailfirst::music::{Hand, Pitch, Quarters, musicxml::Mend, passage::Articulation};

#[test]
fn a_chord_tied_on_some_notes_only_attacks_the_others() {
    let (start, stop) = ("<tie type='start'/>", "<tie type='stop'/>");
    let first = note("E5", 4, start) + &chord("G5", 4, "") + &note("E5", 8, stop) + &chord("A5", 8, "");
    assert_eq!(attacks(&score(&[&first])), ["0:0 1 76=3 79=1", "0:1 1 81=2"]);
}

#[test]
fn without_voices_a_chord_is_tied_over_the_bar_line_and_keeps_its_signs_to_itself() {
    let (start, stop) = ("<tie type='start'/>", "<tie type='stop'/>");
    let staccato = "<notations><articulations><staccato/></articulations></notations>";
    let before = note("C4", 12, start) + &chord("E4", 12, start) + &chord("G4", 12, "");
    let after = note("C4", 12, &format!("{stop}{staccato}"))
        + &chord("E4", 12, stop)
        + "<backup><duration>12</duration></backup>"
        + &note("A3", 12, "");
    let text = score(&[&before, &after]);
    assert_eq!(attacks(&text), ["0:0 1 60=6 64=6 67=3", "1:0 1 57=3"]);
    assert!(heard(&text).score.parts[0].bars[1].attacks[0].notes[0].articulations.is_empty());
}

#[test]
fn a_chords_further_note_belongs_to_voice_and_staff_of_the_first() {
    let signs = "<notations><articulations><accent/></articulations></notations>";
    let own = |more: &str| format!("<voice>5</voice><staff>2</staff>{more}");
    let before = note("C3", 12, &own("<tie type='start'/>")) + &chord("G3", 12, "<tie type='start'/>");
    let after = note("C3", 12, &own(&format!("<tie type='stop'/>{signs}"))) + &chord("A3", 12, "");
    let text = score(&[&before, &after]);
    assert_eq!(attacks(&text), ["0:0 2 48=6 55=3", "1:0 2 57=3"]);
    let struck = heard(&text).score.parts[0].bars[1].attacks[0].notes[0].clone();
    assert_eq!(struck.articulations, [Articulation::Accent]);
    assert_eq!(attacks(&score(&[&chord("E4", 12, "")])), ["0:0 1 64=3"]);
}

#[test]
fn a_tie_lasts_across_bars_and_from_voice_to_voice() {
    let (on, off) = ("<tie type='start'/><voice>2</voice>", "<tie type='stop'/><voice>1</voice>");
    let through = "<tie type='stop'/><tie type='start'/><voice>1</voice>";
    let bars = [note("C4", 12, on), note("C4", 12, through), note("C4", 4, off) + &note("D4", 8, "")];
    let bars: Vec<_> = bars.iter().map(String::as_str).collect();
    assert_eq!(attacks(&score(&bars)), ["0:0 1 60=7", "2:1 1 62=2"]);
}

#[test]
fn a_tie_that_begins_nowhere_is_played_and_said() {
    let text = score(&[&note("C4", 12, "<tie type='stop'/>")]);
    assert_eq!(attacks(&text), ["0:0 1 60=3"]);
    assert_eq!(changes(&text), [Mend::LooseTie]);
}

#[test]
fn voices_step_back_and_forward_and_notes_keep_their_own_staff() {
    let upper = note("E5", 4, "<voice>1</voice><staff>1</staff>") + &chord("C4", 4, "<staff>2</staff>");
    let lower = "<backup><duration>4</duration></backup><forward><duration>2</duration></forward>".to_owned()
        + &note("G3", 10, "<voice>5</voice><staff>2</staff>");
    let text = score(&[&(upper + &lower)]);
    assert_eq!(attacks(&text), ["0:0 1 76=1", "0:0 2 60=1", "0:1/2 2 55=5/2"]);
    assert_eq!(heard(&text).score.parts[0].usual_hands(), [Hand::Right, Hand::Left]);
}

#[test]
fn steps_back_stop_at_the_bars_start_and_steps_without_a_length_go_nowhere() {
    let bar = note("C4", 4, "")
        + "<backup><duration>400</duration></backup><forward/><backup/>"
        + &note("E4", 8, "<voice>2</voice>")
        + "<forward><duration>4</duration></forward>";
    let text = score(&[&bar]);
    assert_eq!(attacks(&text), ["0:0 1 60=1 64=2"]);
    assert_eq!(heard(&text).score.parts[0].bars[0].length, Quarters::whole(3));
}

#[test]
fn a_part_may_have_three_staves_and_its_hands_may_swap_them() {
    let on = |staff: u8| format!("<voice>{staff}</voice><staff>{staff}</staff>");
    let back = "<backup><duration>12</duration></backup>";
    let bar = note("C6", 12, &on(1)) + back + &note("C4", 12, &on(2)) + back + &note("C2", 12, &on(3));
    let part = heard(&score(&[&bar])).score.parts.remove(0);
    assert_eq!(part.usual_hands(), [Hand::Right, Hand::Left, Hand::Left]);
    let swapped = part.cut(0..=0, &[Hand::Left, Hand::Right, Hand::Left]).expect("a passage");
    let hands: Vec<_> = swapped.onsets()[0].notes.iter().map(|note| (note.hand, key_of(note.pitch))).collect();
    assert_eq!(hands, [(Hand::Left, 84), (Hand::Right, 60), (Hand::Left, 36)]);
}

fn key_of(pitch: Option<Pitch>) -> i16 {
    pitch.expect("a pitch").midi()
}

#[test]
fn a_note_without_a_staff_stays_on_that_of_its_voice() {
    let first = note("E5", 12, "<voice>1</voice><staff>1</staff>")
        + "<backup><duration>12</duration></backup>"
        + &note("C3", 12, "<voice>2</voice><staff>2</staff>");
    let second = note("E5", 12, "<voice>1</voice>")
        + "<backup><duration>12</duration></backup>"
        + &note("D3", 12, "<voice>2</voice>");
    assert_eq!(attacks(&score(&[&first, &second])), ["0:0 1 76=3", "0:0 2 48=3", "1:0 1 76=3", "1:0 2 50=3"]);
}

#[test]
fn grace_notes_run_into_the_next_note_of_their_voice_also_over_the_bar_line() {
    let grace = |pitch| note(pitch, 0, "<voice>1</voice>").replacen("<note>", "<note><grace/>", 1);
    let bars = [note("C5", 12, "<voice>1</voice>") + &grace("B4"), grace("D5") + &note("C5", 12, "<voice>1</voice>")];
    let reading = heard(&score(&[&bars[0], &bars[1]]));
    let graces: Vec<_> = reading.score.parts[0].bars.iter().map(|bar| &bar.attacks[0].notes[0].graces).collect();
    assert_eq!(
        graces.iter().map(|g| g.iter().map(|p| p.midi()).collect()).collect::<Vec<Vec<_>>>(),
        [vec![], vec![71, 74]]
    );
    assert!(reading.mended.is_empty());
}

#[test]
fn a_pickup_bar_begins_where_its_beat_is() {
    let pickup = note("G4", 4, "");
    let full = note("C5", 12, "");
    let score = heard(&score(&[&pickup, &full, &full])).score;
    let shapes: Vec<_> = score.parts[0].bars.iter().map(|bar| format!("{} {}", bar.length, bar.missing)).collect();
    assert_eq!(shapes, ["1 2", "3 0", "3 0"]);
    let passage = score.parts[0].cut(0..=1, &[Hand::Line]).expect("two bars");
    assert_eq!(passage.bars()[0].missing.to_string(), "2");
    assert_eq!(passage.bars()[1].start.to_string(), "1");
}

#[test]
fn a_bar_that_a_repeat_divides_goes_on_where_it_stopped() {
    let score =
        heard(&score(&[&note("C5", 12, ""), &note("C5", 8, ""), &note("D5", 4, ""), &note("C5", 12, "")])).score;
    let missing: Vec<_> = score.parts[0].bars.iter().map(|bar| bar.missing.to_string()).collect();
    assert_eq!(missing, ["0", "0", "2", "0"]);
}

#[test]
fn tempo_marks_count_the_beat_they_show_and_hold_until_the_next() {
    let mark = "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/>\
                <per-minute>ca. 56</per-minute></metronome></direction-type><sound tempo='84'/></direction>";
    let six_eight = "<attributes><time><beats>6</beats><beat-type>8</beat-type></time></attributes>";
    let first = format!("{six_eight}{mark}{}", note("C4", 12, ""));
    let later = format!("{}<sound tempo='90'/>{}", note("C4", 6, ""), note("D4", 6, ""));
    let score = heard(&score(&[&first, &later, &note("C4", 12, "")])).score;
    let tempi = score.parts[0].bars.iter().map(|bar| bar.tempo.expect("a tempo"));
    let tempi: Vec<_> = tempi.map(|tempo| (tempo.beat.quarters().to_string(), tempo.bpm.get())).collect();
    assert_eq!(tempi, [("3/2".into(), 56), ("3/2".into(), 56), ("3/2".into(), 60)]);
}

#[test]
fn a_score_without_a_tempo_leaves_it_to_the_player() {
    assert_eq!(heard(&score(&[&note("C4", 12, "")])).score.parts[0].bars[0].tempo, None);
}

#[test]
fn unlike_divisions_give_the_same_onsets() {
    let halves = note("C4", 6, "") + &note("D4", 6, "");
    let finer =
        "<attributes><divisions>96</divisions></attributes>".to_owned() + &note("C4", 144, "") + &note("D4", 144, "");
    assert_eq!(
        attacks(&score(&[&halves, &finer])),
        ["0:0 1 60=3/2", "0:3/2 1 62=3/2", "1:0 1 60=3/2", "1:3/2 1 62=3/2"]
    );
}

#[test]
fn rounded_tuplets_become_exact_and_it_is_said_once() {
    let third = "<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";
    let triplet = note("C4", 1, third) + &note("D4", 1, third) + &note("E4", 1, third);
    let bar = format!(
        "{triplet}<backup><duration>3</duration></backup>{}",
        note("C3", 12, "<voice>2</voice><type>half</type><dot/>")
    );
    let text = score(&[&bar, &bar]);
    let onsets = ["0 1 60=1/3 48=3", "1/3 1 62=1/3", "2/3 1 64=1/3"];
    let expected: Vec<_> = (0..2).flat_map(|bar| onsets.map(|onset| format!("{bar}:{onset}"))).collect();
    assert_eq!(attacks(&text), expected);
    assert_eq!(
        heard(&text).mended.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["Bar 1 and 5 more places: rounded note lengths were made exact"]
    );
}

#[test]
fn missing_divisions_are_told_from_the_note_shapes() {
    let bar = note("C4", 480, "<type>quarter</type>") + &note("D4", 960, "<type>half</type>");
    let text = score(&[&bar]).replace("<divisions>4</divisions>", "");
    assert_eq!(attacks(&text), ["0:0 1 60=1", "0:1 1 62=2"]);
    assert_eq!(changes(&text), [Mend::Divisions]);
}

#[test]
fn a_bar_with_too_much_in_it_is_longer_and_loses_nothing() {
    let text = score(&[&(note("C4", 12, "") + &note("D4", 4, "")), &note("E4", 12, "")]);
    assert_eq!(heard(&text).score.parts[0].bars[0].length, Quarters::whole(4));
    assert_eq!(changes(&text), [Mend::Overfull]);
    assert_eq!(cut(&text).onsets().len(), 3);
}

#[test]
fn a_dynamic_mark_stands_where_its_offset_says_and_is_played_by_what_follows() {
    let mark = |name, offset| {
        format!(
            "<direction><direction-type><dynamics><{name}/></dynamics></direction-type><offset>{offset}</offset></direction>"
        )
    };
    let bar = note("C4", 4, "")
        + &mark("sf", -4)
        + "<note><rest/><duration>4</duration></note>"
        + &mark("pp", -2)
        + &note("D4", 4, "");
    let text = score(&[&bar]);
    let marks: Vec<_> =
        heard(&text).score.parts[0].bars[0].dynamics.iter().map(|d| format!("{} {}", d.mark, d.at)).collect();
    assert_eq!(marks, ["sf 0", "pp 3/2"]);
    let passage = cut(&text);
    let played: Vec<_> = passage.onsets().iter().map(|onset| onset.dynamic.as_deref()).collect();
    assert_eq!(played, [Some("sf"), Some("pp")]);
}

#[test]
fn fingers_are_read_as_printed_and_drums_keep_their_rhythm() {
    let fingers = "<notations><technical><fingering>3</fingering><fingering substitution='yes'>1</fingering></technical></notations>";
    let drum = "<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>8</duration></note>";
    let notes = cut(&score(&[&(note("C4", 4, fingers) + drum)]));
    let read: Vec<_> = notes
        .onsets()
        .iter()
        .map(|onset| (onset.notes[0].fingering.as_deref(), onset.notes[0].pitch.is_some()))
        .collect();
    assert_eq!(read, [(Some("3-1"), true), (None, false)]);
}

#[test]
fn cue_notes_are_left_out_but_keep_their_time() {
    let cue = note("C6", 4, "").replacen("<note>", "<note><cue/>", 1);
    let text = score(&[&(cue + &note("C4", 8, "<lyric><text>la</text></lyric>"))]);
    assert_eq!(attacks(&text), ["0:1 1 60=2"]);
    assert_eq!(
        heard(&text).mended.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["Bar 1: cue notes are not shown", "Bar 1: lyrics are not shown"]
    );
}

#[test]
fn a_score_ordered_by_measure_is_the_same_score() {
    let partwise = score(&[&note("C4", 12, ""), &note("D4", 12, "")]);
    let timewise = partwise
        .replace("<part id='P1'>", "")
        .replace("</part></score", "</score")
        .replace("score-partwise", "score-timewise")
        .replace("<measure number='1'>", "<measure number='1'><part id='P1'>")
        .replace("<measure number='2'>", "<measure number='2'><part id='P1'>")
        .replace("</measure>", "</part></measure>");
    assert_eq!(heard(&timewise), heard(&partwise));
}

/// MusicXML 4.0, `duration` and `type`: a file may cut the length of a chord's note short for the sound; `tie` tells
/// what is played on.
#[test]
fn a_tied_note_of_a_chord_that_is_shorter_than_it_is_printed_is_not_played_again() {
    let (start, stop) = ("<type>half</type><dot/><tie type='start'/>", "<tie type='stop'/>");
    let before = note("C4", 12, start) + &chord("E4", 8, start) + &chord("G4", 8, "<tie type='start'/>");
    let after = note("C4", 12, stop) + &chord("E4", 12, stop) + &chord("G4", 12, stop);
    let text = score(&[&before, &after]);
    assert_eq!(attacks(&text), ["0:0 1 60=6 64=6 67=6"]);
    assert_eq!(changes(&text), []);
}

/// MusicXML 4.0, `offset`: a `sound` takes effect at the current location unless the offset sounds.
#[test]
fn the_offset_of_a_tempo_moves_its_print_alone() {
    let tempo = |offset: &str| {
        let mark = format!(
            "<direction><direction-type><words>Lento</words></direction-type><offset{offset}>-4</offset><sound tempo='40'/></direction>"
        );
        let first = note("C4", 12, "<notations/>")
            + "<direction><direction-type><words>x</words></direction-type><sound tempo='90'/></direction>";
        let text = score(&[&first, &(note("D4", 4, "") + &mark + &note("E4", 8, "")), &note("F4", 12, "")]);
        let bars = heard(&text).score.parts.remove(0).bars;
        bars.iter().map(|bar| bar.tempo.map(|tempo| tempo.bpm.get())).collect::<Vec<_>>()
    };
    assert_eq!(tempo(""), [Some(90), Some(90), Some(40)]);
    assert_eq!(tempo(" sound='yes'"), [Some(90), Some(40), Some(40)]);
}
