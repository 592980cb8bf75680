//! The signs of one note and its time: pitch, ties, fingering, articulations, and the shape's length.

use crate::music::{
    Pitch,
    musicxml::{
        document::{child, children, text_of, words},
        lengths::{decimal, shape},
        mended::Mend,
    },
    passage::Articulation,
    pitch::Letter,
};
use num_rational::Ratio;
use roxmltree::Node;

/// The pitch of a note, clamped to a little beyond the keyboard. `None` for rests and unpitched percussion.
pub(super) fn pitch(note: Node, say: &mut impl FnMut(Mend)) -> Option<Pitch> {
    let pitch = child(note, "pitch")?;
    let mut number = |name, least: i64, most: i64| -> Option<i8> {
        let written = decimal(text_of(pitch, name)?)?;
        let nearest = (*written.round().numer()).clamp(least, most);
        if written != Ratio::from_integer(nearest) {
            say(Mend::OddPitch);
        }
        i8::try_from(nearest).ok()
    };
    let (octave, alter) = (number("octave", 0, 9), number("alter", -3, 3));
    let Some((letter, octave)) = text_of(pitch, "step").and_then(letter).zip(octave) else {
        say(Mend::NoPitch);
        return None;
    };
    if alter.is_none() && child(pitch, "alter").is_some() {
        say(Mend::NoAlter);
    }
    Some(Pitch { letter, alter: alter.unwrap_or(0), octave })
}

/// The letter with this name.
pub(super) fn letter(step: &str) -> Option<Letter> {
    Some(match step {
        "C" => Letter::C,
        "D" => Letter::D,
        "E" => Letter::E,
        "F" => Letter::F,
        "G" => Letter::G,
        "A" => Letter::A,
        "B" => Letter::B,
        _ => return None,
    })
}

/// Whether a tie ends at this note and whether one begins. The sounding `tie` counts; where a file
/// has only the drawn `tied`, that does.
pub(super) fn ties(note: Node) -> (bool, bool) {
    let drawn = notations(note).flat_map(|node| children(node, "tied")).collect::<Vec<_>>();
    let heard = children(note, "tie").collect::<Vec<_>>();
    let ties = if heard.is_empty() { drawn } else { heard };
    let any = |kinds: [&str; 2]| ties.iter().filter_map(|tie| tie.attribute("type")).any(|kind| kinds.contains(&kind));
    (any(["stop", "continue"]), any(["start", "continue"]))
}

/// The fingering as printed: several fingers side by side, joined by a dash where they change on the key.
pub(super) fn fingering(note: Node) -> Option<String> {
    let technical = notations(note).flat_map(|node| children(node, "technical"));
    let fingers = technical.flat_map(|node| children(node, "fingering"));
    let mut printed: Option<String> = None;
    for finger in fingers.take(8) {
        let Some(figure) = words(finger) else { continue };
        let join = if finger.attribute("substitution") == Some("yes") { '-' } else { ' ' };
        printed = Some(printed.map_or(figure.clone(), |before| format!("{before}{join}{figure}")));
    }
    printed.map(|figures| figures.chars().take(16).collect())
}

/// The articulations that are kept, in the file's order, each once. Says what else there is.
pub(super) fn articulations(note: Node, say: &mut impl FnMut(Mend)) -> Vec<Articulation> {
    let mut kept = Vec::new();
    for sign in notations(note).flat_map(|node| node.descendants()).filter(Node::is_element) {
        let name = sign.tag_name().name();
        match articulation(name) {
            Some(sign) if kept.contains(&sign) => {}
            Some(sign) => kept.push(sign),
            None => left_out(name).into_iter().for_each(&mut *say),
        }
    }
    kept
}

/// What is lost with a sign that is not kept, if it is one that a player could miss.
fn left_out(name: &str) -> Option<Mend> {
    Some(match name {
        "delayed-turn"
        | "delayed-inverted-turn"
        | "vertical-turn"
        | "inverted-vertical-turn"
        | "shake"
        | "schleifer"
        | "haydn"
        | "accidental-mark"
        | "other-ornament" => Mend::OtherOrnaments,
        "string" | "fret" | "hammer-on" | "pull-off" | "bend" | "tap" | "hole" => Mend::Tablature,
        "spiccato" | "scoop" | "plop" | "doit" | "falloff" | "breath-mark" | "caesura" | "stress" | "unstress"
        | "soft-accent" | "up-bow" | "down-bow" | "harmonic" | "open-string" | "thumb-position" | "pluck"
        | "snap-pizzicato" | "stopped" | "glissando" | "slide" | "non-arpeggiate" | "double-tongue"
        | "triple-tongue" | "heel" | "toe" | "fingernails" | "arrow" | "handbell" | "other-articulation"
        | "other-technical" | "other-notation" => Mend::OtherArticulations,
        _ => return None,
    })
}

fn articulation(name: &str) -> Option<Articulation> {
    Some(match name {
        "accent" => Articulation::Accent,
        "strong-accent" => Articulation::StrongAccent,
        "staccato" => Articulation::Staccato,
        "staccatissimo" => Articulation::Staccatissimo,
        "tenuto" => Articulation::Tenuto,
        "detached-legato" => Articulation::DetachedLegato,
        "fermata" => Articulation::Fermata,
        "arpeggiate" => Articulation::Arpeggio,
        _ => return None,
    })
}

/// The `notations` of a note; a note may have several.
pub(super) fn notations<'a>(note: Node<'a, 'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    children(note, "notations")
}

/// The length that the note's shape, dots and tuplet figure stand for, in quarters.
pub(super) fn shape_length(note: Node) -> Option<Ratio<i64>> {
    let dots = children(note, "dot").take(4).count() as u32;
    let plain = shape(text_of(note, "type")?)?;
    let dotted = plain * Ratio::new(2_i64.pow(dots + 1) - 1, 2_i64.pow(dots));
    let figure = |name| child(note, "time-modification").and_then(|node| text_of(node, name)?.parse::<u8>().ok());
    Some(match (figure("normal-notes"), figure("actual-notes")) {
        (Some(normal), Some(actual)) if normal > 0 && actual > 0 => dotted * Ratio::new(normal.into(), actual.into()),
        _ => dotted,
    })
}
