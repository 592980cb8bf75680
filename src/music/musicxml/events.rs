//! What one `note` element prints: its head or rest, its shape, stem, beams and ornaments.

use crate::{
    music::{
        Quarters,
        musicxml::{
            document::{child, children, text_of},
            lengths::minus,
            mended::Mend,
            signs,
        },
        pitch::Letter,
        written::{Accidental, Beam, Diatonic, Fermata, FermataShape, Grace, Ornament, Stem, Value},
    },
    sort,
};
use roxmltree::Node;

/// The printed value and its dots. Where the file names no shape, the one that is nearest to `lasts`,
/// counted without its tuplet.
pub(super) fn value(note: Node, lasts: Quarters, tuplet: Option<(u8, u8)>, say: &mut impl FnMut(Mend)) -> (Value, u8) {
    let dots = children(note, "dot").take(4).count() as u8;
    match text_of(note, "type").and_then(named_value) {
        Some((value, true)) => (value, dots),
        Some((nearest, false)) => {
            say(Mend::OddValue);
            (nearest, dots)
        }
        None => nearest(in_its_tuplet(lasts, tuplet)),
    }
}

/// The value with this name, clamped to the longest or shortest printed one, and whether it was within them.
pub(super) fn named_value(name: &str) -> Option<(Value, bool)> {
    Some(match name {
        "maxima" | "long" => (Value::Breve, false),
        "breve" => (Value::Breve, true),
        "whole" => (Value::Whole, true),
        "half" => (Value::Half, true),
        "quarter" => (Value::Quarter, true),
        "eighth" => (Value::Eighth, true),
        "16th" => (Value::N16th, true),
        "32nd" => (Value::N32nd, true),
        "64th" => (Value::N64th, true),
        "128th" => (Value::N128th, true),
        "256th" | "512th" | "1024th" => (Value::N128th, false),
        _ => return None,
    })
}

fn in_its_tuplet(lasts: Quarters, tuplet: Option<(u8, u8)>) -> Quarters {
    let (actual, normal) = tuplet.unwrap_or((1, 1));
    lasts * i64::from(actual) / i64::from(normal)
}

/// The value with at most two dots that is nearest to this, the plainest of equals; a grace note's is an
/// eighth.
fn nearest(length: Quarters) -> (Value, u8) {
    if length <= Quarters::ZERO {
        return (Value::Eighth, 0);
    }
    let dotted = |value: Value, dots: u8| value.quarters() * ((2_i64 << dots) - 1) / (1_i64 << dots);
    let off = |value, dots| minus(dotted(value, dots), length).max(minus(length, dotted(value, dots)));
    let shapes = (0..=2).flat_map(|dots| Value::ALL.map(|value| (value, dots)));
    shapes.min_by_key(|(value, dots)| off(*value, *dots)).unwrap_or((Value::N128th, 0))
}

/// In the time of how many notes this one stands. Two notes that alternate as a tremolo are no tuplet.
pub(super) fn tuplet(note: Node) -> Option<(u8, u8)> {
    let figures = child(note, "time-modification")?;
    let figure = |name| text_of(figures, name)?.parse::<u8>().ok().filter(|figure| *figure > 0);
    let (actual, normal) = (figure("actual-notes")?, figure("normal-notes")?);
    let alternates = tremolos(note).any(|tremolo| matches!(tremolo.attribute("type"), Some("start" | "stop")));
    (actual != normal && !(alternates && actual == 2 * normal)).then_some((actual, normal))
}

pub(super) fn stem(note: Node) -> Stem {
    match text_of(note, "stem") {
        Some("up") => Stem::Up,
        Some("down") => Stem::Down,
        Some("none") => Stem::Hidden,
        _ => Stem::Free,
    }
}

/// From the eighth's beam on; beams that the file skips end the list.
pub(super) fn beams(note: Node) -> Vec<Beam> {
    let mut numbered: Vec<(u8, Beam)> = children(note, "beam").take(8).filter_map(beam).collect();
    sort::by_key(&mut numbered, |(number, _)| *number);
    let in_a_row =
        numbered.into_iter().enumerate().take_while(|(index, (number, _))| *index + 1 == usize::from(*number));
    in_a_row.map(|(_, (_, beam))| beam).collect()
}

fn beam(beam: Node) -> Option<(u8, Beam)> {
    let number = beam.attribute("number").map_or(Some(1), |number| number.trim().parse().ok())?;
    let does = match beam.text()?.trim() {
        "begin" => Beam::Begin,
        "continue" => Beam::Continue,
        "end" => Beam::End,
        "forward hook" => Beam::HookForward,
        "backward hook" => Beam::HookBackward,
        _ => return None,
    };
    Some((number, does))
}

pub(super) fn grace(note: Node) -> Option<Grace> {
    child(note, "grace").map(|grace| Grace { slashed: grace.attribute("slash") == Some("yes") })
}

/// The accidental that is printed at the note; says where it is none of the common ones.
pub(super) fn accidental(note: Node, say: &mut impl FnMut(Mend)) -> Option<Accidental> {
    let sign = child(note, "accidental")?;
    let alter = match sign.text()?.trim() {
        "natural" => 0,
        "sharp" | "natural-sharp" => 1,
        "flat" | "natural-flat" => -1,
        "double-sharp" | "sharp-sharp" => 2,
        "flat-flat" => -2,
        _ => {
            say(Mend::OddAccidental);
            return None;
        }
    };
    let bracketed = ["parentheses", "bracket"].iter().any(|name| sign.attribute(*name) == Some("yes"));
    Some(Accidental { alter, bracketed })
}

/// The place of a rest or of an unpitched note, where the file gives one.
pub(super) fn display_place(shape: Node) -> Option<Diatonic> {
    let letter = signs::letter(text_of(shape, "display-step")?)?;
    let octave = text_of(shape, "display-octave")?.parse::<i8>().ok()?;
    Some(Diatonic::of(letter, octave.clamp(0, 9)))
}

/// The place of an unpitched note that names none: the middle line.
pub(super) fn middle_line() -> Diatonic {
    Diatonic::of(Letter::B, 4)
}

/// The fermata as it is printed (MusicXML 4.0, `fermata` and `fermata-shape`); says where its shape is none of those
/// that are drawn.
pub(super) fn fermata(note: Node, say: &mut impl FnMut(Mend)) -> Option<Fermata> {
    let sign = signs::notations(note).find_map(|node| child(node, "fermata"))?;
    let shape = match sign.text().map_or("", str::trim) {
        "" | "normal" => FermataShape::Normal,
        "angled" => FermataShape::Angled,
        "square" => FermataShape::Square,
        "double-angled" => FermataShape::DoubleAngled,
        "double-square" => FermataShape::DoubleSquare,
        _ => {
            say(Mend::OtherFermatas);
            FermataShape::Normal
        }
    };
    let above = sign.attribute("type").map(|side| side != "inverted");
    Some(Fermata { shape, above })
}

/// The ornament signs that are kept, each once. Says where a tremolo is none of them.
pub(super) fn ornaments(note: Node, say: &mut impl FnMut(Mend)) -> Vec<Ornament> {
    let mut kept = Vec::new();
    let signs = signs::notations(note).flat_map(|node| children(node, "ornaments")).flat_map(|node| node.children());
    for sign in signs {
        match ornament(sign) {
            Some(ornament) if kept.contains(&ornament) => {}
            Some(ornament) => kept.push(ornament),
            None if sign.has_tag_name("tremolo") && tremolo(sign).is_none() => say(Mend::OtherOrnaments),
            None => {}
        }
    }
    kept
}

fn ornament(sign: Node) -> Option<Ornament> {
    Some(match sign.tag_name().name() {
        "trill-mark" => Ornament::Trill,
        "turn" => Ornament::Turn,
        "inverted-turn" => Ornament::InvertedTurn,
        "mordent" => Ornament::Mordent,
        "inverted-mordent" => Ornament::ShortTrill,
        "tremolo" if !matches!(sign.attribute("type"), Some("start" | "stop")) => Ornament::Tremolo(tremolo(sign)?),
        _ => return None,
    })
}

/// The strokes of a tremolo, 1..=4.
pub(super) fn tremolo(sign: Node) -> Option<u8> {
    let measured = sign.attribute("type") != Some("unmeasured");
    let strokes = sign.text()?.trim().parse::<u8>().ok()?;
    (measured && (1..=4).contains(&strokes)).then_some(strokes)
}

fn tremolos<'a>(note: Node<'a, 'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    signs::notations(note).flat_map(|node| children(node, "ornaments")).flat_map(|node| children(node, "tremolo"))
}
