//! Cases of the gallery that are read from small invented scores, one for each thing that a file can say and a page
//! must show. Meanings of the elements are those of the MusicXML 4.0 reference (W3C Music Notation Community Group, 2021).

use tailfirst::music::{Part, musicxml};

/// Four divisions to the quarter; two staves where a note names the second.
const START: &str = "<attributes><divisions>4</divisions></attributes>";

fn read(measures: &[&str]) -> Part {
    let measure = |(index, content): (usize, &&str)| {
        let start = if index == 0 { START } else { "" };
        format!("<measure number='{}'>{start}{content}</measure>", index + 1)
    };
    let measures: String = measures.iter().enumerate().map(measure).collect();
    let text = format!(
        "<score-partwise><part-list><score-part id='P1'/></part-list><part id='P1'>{measures}</part></score-partwise>"
    );
    musicxml::read(text.as_bytes()).unwrap_or_else(|error| panic!("{error}")).score.parts.remove(0)
}

/// Notes as `C5:4/v2,s2,down`: pitch (`r` for a rest, `+` before a chord's further note, `g` before a grace note),
/// length in divisions (its shape follows from it), voice, staff and stem; or an element as it is.
fn notes(text: &str) -> String {
    text.split_whitespace()
        .map(|word| if word.starts_with('<') { word.replace('_', " ") } else { note(word) })
        .collect()
}

fn note(word: &str) -> String {
    let (what, marks) = word.split_once('/').unwrap_or((word, ""));
    let (name, length) = what.split_once(':').unwrap_or((what, "2"));
    let (chord, name) = name.strip_prefix('+').map_or(("", name), |name| ("<chord/>", name));
    let (grace, name) = name.strip_prefix('g').map_or(("", name), |name| ("<grace slash='yes'/>", name));
    let duration = if grace.is_empty() { format!("<duration>{length}</duration>") } else { String::new() };
    let shapes = [
        ("1", "16th", 0),
        ("2", "eighth", 0),
        ("3", "eighth", 1),
        ("4", "quarter", 0),
        ("6", "quarter", 1),
        ("8", "half", 0),
        ("12", "half", 1),
        ("16", "whole", 0),
    ];
    let (_, shape, dots) = shapes.iter().find(|(divisions, ..)| *divisions == length).expect("a length with a shape");
    let pitch = if name == "r" {
        "<rest/>".to_owned()
    } else if name == "R" {
        "<rest measure='yes'/>".to_owned()
    } else {
        let (step, octave) = name.split_at(name.len() - 1);
        let alter = step.matches('#').count() as i32 - step.matches('b').count() as i32;
        format!("<pitch><step>{}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>", &step[..1])
    };
    let mark = |mark: &str| match mark {
        "up" | "down" => format!("<stem>{mark}</stem>"),
        "begin" | "continue" | "end" => format!("<beam number='1'>{mark}</beam>"),
        "(" => "<notations><slur type='start'/></notations>".into(),
        ")" => "<notations><slur type='stop'/></notations>".into(),
        "tie" => "<tie type='start'/>".into(),
        "tied" => "<tie type='stop'/>".into(),
        other => format!("<notations>{}</notations>", other.replace('_', " ")),
    };
    let number =
        |letter| marks.split(',').find_map(|mark| mark.strip_prefix(letter).filter(|n| n.parse::<u8>().is_ok()));
    let (voice, staff) = (number('v').unwrap_or("1"), number('s').unwrap_or("1"));
    let is_number = |mark: &&str| mark[1..].parse::<u8>().is_ok();
    let others: Vec<&str> = marks.split(',').filter(|mark| !mark.is_empty() && !is_number(mark)).collect();
    let dots = "<dot/>".repeat(*dots);
    let of = |kinds: &[&str]| -> String {
        others.iter().filter(|other| kinds.contains(other)).map(|other| mark(other)).collect()
    };
    let ties = of(&["tie", "tied"]);
    let stems = of(&["up", "down"]);
    let beams = of(&["begin", "continue", "end"]);
    let known = ["tie", "tied", "up", "down", "begin", "continue", "end"];
    let notations: String = others.iter().filter(|other| !known.contains(other)).map(|other| mark(other)).collect();
    format!(
        "<note>{grace}{chord}{pitch}{duration}{ties}<voice>{voice}</voice><type>{shape}</type>{dots}{stems}\
         <staff>{staff}</staff>{beams}{notations}</note>"
    )
}

fn attributes(inside: &str) -> String {
    format!("<attributes>{inside}</attributes>")
}

fn time(beats: &str, unit: u8) -> String {
    attributes(&format!("<time><beats>{beats}</beats><beat-type>{unit}</beat-type></time>"))
}

fn back(divisions: u32) -> String {
    format!("<backup><duration>{divisions}</duration></backup>")
}

fn direction(attributes: &str, sign: &str, more: &str) -> String {
    format!("<direction {attributes}><direction-type>{sign}</direction-type>{more}</direction>")
}

fn dynamic(attributes: &str, mark: &str, staff: u8) -> String {
    direction(attributes, &format!("<dynamics><{mark}/></dynamics>"), &format!("<staff>{staff}</staff>"))
}

/// An octave sign with an offset that moves its print, and one whose offset moves what it holds for.
fn octave_offsets() -> Part {
    let shift = |kind: &str, sound: &str| {
        direction("", &format!("<octave-shift type='{kind}'/>"), &format!("<offset sound='{sound}'>4</offset>"))
    };
    let bar = |sound: &str| shift("down", sound) + &notes("C6:4 D6:4") + &shift("stop", sound) + &notes("E6:4 C5:4");
    read(&[&bar("no"), &bar("yes")])
}

/// A chord whose inner note sounds shorter than it is printed, tied over the bar line.
fn short_ties() -> Part {
    let first =
        notes("C5:16/tie +E5:16/tie +G5:16/tie").replacen("<duration>16</duration>", "<duration>12</duration>", 2);
    read(&[&first, &notes("C5:16/tied +E5:16/tied +G5:16/tied")])
}

/// Grace notes high over and far under the note before them, in both hands, and before the closing bar line.
fn grace_places() -> Part {
    let upper = "A4:4 gC6 gD6 A4:4 gC4 A5:4 C5:4";
    let lower = "C3:8/v2,s2 gE3/v2,s2 gF3/v2,s2 G3:8/v2,s2";
    let last = "B4:16/<ornaments><trill-mark/></ornaments> gA4:1 gB4:1";
    let heavy = "<barline location='right'><bar-style>light-heavy</bar-style></barline>";
    read(&[&(notes(upper) + &back(16) + &notes(lower)), &(notes(last) + &back(16) + &notes("G3:16/v2,s2") + heavy)])
}

/// The lower voice of the file stands above: stems, dots, ties and rests follow.
fn turned_voices() -> Part {
    let first = "E4:6/v1,down F4:2/v1,down G4:4/v1,down,tie r:4/v1";
    let second = "C5:8/v2,up r:4/v2 E5:4/v2,up";
    read(&[
        &(notes(first) + &back(16) + &notes(second)),
        &(notes("G4:6/v1,down,tied A4:2/v1,down G4:8/v1,down")
            + &back(16)
            + &notes("A4:6/v2,up C5:2/v2,up B4:8/v2,up")),
    ])
}

/// A bar's rest beside running notes, alone in its bar, behind a change of key, and under another voice.
fn bar_rests() -> Part {
    let runs = "C5:2 D5:2 E5:2 F5:2 G5:4 E5:4";
    let rest = back(16) + &notes("R:16/v2,s2");
    let key = attributes("<key><fifths>3</fifths></key>");
    read(&[
        &(notes(runs) + &rest),
        &(notes("R:16") + &rest),
        &(key + &notes(runs) + &rest),
        &(notes("R:16") + &back(16) + &notes("C4:4/v3 E4:4/v3 G4:8/v3") + &rest),
    ])
}

/// Dynamic marks over and under each staff of two, with a hairpin over the upper one.
fn dynamic_sides() -> Part {
    let bar = dynamic("placement='above'", "p", 1)
        + &direction("placement='above'", "<wedge type='crescendo'/>", "<staff>1</staff>")
        + &notes("C5:4 E5:4 G5:4")
        + &direction("", "<wedge type='stop'/>", "<staff>1</staff>")
        + &dynamic("placement='above'", "f", 1)
        + &notes("C6:4")
        + &back(16)
        + &dynamic("placement='below'", "mf", 2)
        + &notes("C3:8/v2,s2")
        + &dynamic("placement='above'", "sfz", 2)
        + &notes("G3:8/v2,s2");
    read(&[&bar, &(notes("C5:16") + &back(16) + &notes("C3:16/v2,s2"))])
}

/// Every shape of fermata, over notes and under them, over a rest.
fn fermata_shapes() -> Part {
    let shaped = |shapes: &[&str], kind: &str| -> String {
        let note = |shape: &&str| notes(&format!("B4:4/<fermata_type='{kind}'>{shape}</fermata>"));
        shapes.iter().map(note).collect()
    };
    let rest = "<note><rest/><duration>4</duration><type>quarter</type><notations><fermata>angled</fermata></notations></note>";
    read(&[
        &shaped(&["double-angled", "angled", "normal", "square"], "upright"),
        &(shaped(&["double-square"], "upright") + &shaped(&["double-angled", "angled"], "inverted") + rest),
        &shaped(&["normal", "square", "double-square", "normal"], "inverted"),
    ])
}

/// Additive meters with their beams, and a change between two of them.
fn additive_meters() -> Part {
    read(&[
        &(time("3+2", 8) + &notes("C5:2 D5:2 E5:2 F5:2 G5:2") + &back(10) + &notes("C3:6/v2,s2 G3:4/v2,s2")),
        &(notes("E5:6 C5:4") + &back(10) + &notes("C3:2/v2,s2 E3:2/v2,s2 G3:2/v2,s2 F3:2/v2,s2 E3:2/v2,s2")),
        &(time("2+2+3", 8)
            + &notes("C5:2 D5:2 E5:2 D5:2 C5:2 D5:2 E5:2")
            + &back(14)
            + &notes("C3:4/v2,s2 C3:4/v2,s2 G3:6/v2,s2")),
    ])
}

/// Slurs from staff to staff, over words, fingers and marks that stand outside their notes.
fn slurs_across() -> Part {
    let finger = "<technical><fingering>3</fingering></technical>";
    let words = direction("placement='above'", "<words>dolce</words>", "<staff>1</staff>");
    let down = dynamic("", "p", 1)
        + &words
        + &notes(&format!("G5:4/(,{finger} E5:4 C4:4/s2 G3:4/),s2"))
        + &back(16)
        + &notes("C3:16/v2,s2");
    let up = notes("C4:4/(,s2 G4:4 C5:4 E5:4/)") + &back(16) + &dynamic("", "f", 2) + &notes("C3:16/v2,s2");
    read(&[&down, &up])
}

/// Dynamic marks and hairpins where beams join the staves.
fn dynamics_across() -> Part {
    let beamed = "C5:2/begin G4:2/continue E4:2/continue,s2 C4:2/end,s2";
    let bar = dynamic("", "p", 1)
        + &direction("", "<wedge type='crescendo'/>", "<staff>1</staff>")
        + &notes(beamed)
        + &direction("", "<wedge type='stop'/>", "<staff>1</staff>")
        + &dynamic("", "f", 1)
        + &notes(beamed)
        + &back(16)
        + &notes("C3:16/v2,s2");
    let plain = dynamic("", "mp", 1) + &notes("C5:8 E5:8") + &back(16) + &notes("C3:16/v2,s2");
    read(&[&bar, &plain])
}

/// Accidentals and hairpins between neighbours that stand close.
fn quarter_spaces() -> Part {
    let hairpin = |kind: &str| direction("", &format!("<wedge type='{kind}'/>"), "");
    let bar = dynamic("", "p", 1)
        + &hairpin("crescendo")
        + &notes("C#5:2 +E#5:2 +G#5:2")
        + &hairpin("stop")
        + &dynamic("", "ff", 1)
        + &hairpin("diminuendo")
        + &notes("Db5:2 +Fb5:2 +Ab5:2")
        + &hairpin("stop")
        + &hairpin("crescendo")
        + &notes("B#4:4 +C#5:4 +D#5:4")
        + &hairpin("stop")
        + &hairpin("diminuendo")
        + &notes("G5:8")
        + &hairpin("stop")
        + &dynamic("", "pp", 1);
    read(&[&bar])
}

/// A clef that changes inside a bar, a meter that changes at one, and bars numbered over high notes.
fn changes() -> Part {
    let treble = attributes("<clef number='2'><sign>G</sign><line>2</line></clef>");
    let bass = attributes(
        "<clef number='1'><sign>G</sign><line>2</line></clef><clef number='2'><sign>F</sign><line>4</line></clef>",
    );
    read(&[
        &(bass + &notes("r:4 A6:4 C5:8") + &back(16) + &notes("C3:8/v2,s2") + &treble + &notes("C5:8/v2,s2")),
        &(time("3", 4) + &notes("C7:4 A6:4 F6:4") + &back(12) + &notes("R:12/v2,s2")),
        &(notes("A6:12") + &back(12) + &notes("E5:12/v2,s2")),
    ])
}

/// A rest before the first note, the other hand silent, and a word that says how fast.
fn after_a_rest() -> Part {
    let words = direction("placement='above'", "<words>Andante</words>", "<sound tempo='76'/>");
    read(&[&(words + &notes("r:4 C5:4 E5:4 G5:4") + &back(16) + &notes("R:16/v2,s2"))])
}

/// The cases, by name.
pub fn read_cases() -> Vec<(&'static str, Part)> {
    vec![
        ("octave-offsets", octave_offsets()),
        ("short-ties", short_ties()),
        ("grace-places", grace_places()),
        ("turned-voices", turned_voices()),
        ("bar-rests", bar_rests()),
        ("dynamic-sides", dynamic_sides()),
        ("fermata-shapes", fermata_shapes()),
        ("additive-meters", additive_meters()),
        ("slurs-across", slurs_across()),
        ("dynamics-across", dynamics_across()),
        ("quarter-spaces", quarter_spaces()),
        ("changes", changes()),
        ("after-a-rest", after_a_rest()),
    ]
}
