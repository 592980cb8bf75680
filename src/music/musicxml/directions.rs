//! What stands over and under the staff: dynamic marks and tempo marks.

use crate::music::{
    BeatUnit, Bpm, Meter, NoteValue, Tempo,
    musicxml::{
        document::{children, text_of, words},
        lengths::decimal,
        printed,
        spanners::Family,
    },
    written::{Pedalling, Spans},
};
use roxmltree::Node;

/// The mark of a `dynamics` element; signs side by side are one mark, as in `sf` `p`.
pub(super) fn dynamic(dynamics: Node) -> Option<String> {
    let sign = |node: Node| match node.tag_name().name() {
        "other-dynamics" => words(node),
        name => Some(name.to_owned()),
    };
    let mark: String = dynamics.children().filter(Node::is_element).filter_map(sign).collect();
    (!mark.is_empty()).then(|| mark.chars().take(16).collect())
}

/// On which side of its staff a `dynamics` element stands: as it says itself, otherwise as its parent says.
pub(super) fn dynamic_side(dynamics: Node, holder: Node) -> Option<bool> {
    printed::above(dynamics).or_else(|| printed::above(holder))
}

/// The tempo of a `metronome` element that gives beats per minute: the first number of `ca. 72–76`.
pub(super) fn metronome(mark: Node) -> Option<Tempo> {
    let mut units = children(mark, "beat-unit");
    let value = match units.next()?.text()?.trim() {
        "whole" => NoteValue::Whole,
        "half" => NoteValue::Half,
        "quarter" => NoteValue::Quarter,
        "eighth" => NoteValue::Eighth,
        "16th" => NoteValue::Sixteenth,
        _ => return None,
    };
    let dots = children(mark, "beat-unit-dot").take(3).count() as u8;
    let figures = text_of(mark, "per-minute")?;
    let figures = figures.trim_start_matches(|letter: char| !letter.is_ascii_digit());
    let end = figures.find(|letter: char| !letter.is_ascii_digit() && letter != '.').unwrap_or(figures.len());
    let rate = per_minute(figures[..end].trim_end_matches('.'))?;
    units.next().is_none().then(|| Tempo { beat: BeatUnit::new(value, dots), bpm: Bpm::nearest(rate) })
}

/// The tempo of a `sound` element, which counts quarters, told in the beat the meter is felt in.
pub(super) fn sound(sound: Node, meter: Meter) -> Option<Tempo> {
    let quarters = per_minute(sound.attribute("tempo")?.trim())?;
    let beat = meter.beat();
    Some(Tempo { beat, bpm: Bpm::nearest(quarters / beat.quarters().as_f64()) })
}

fn per_minute(figures: &str) -> Option<f64> {
    let rate = decimal(figures)?;
    (*rate.numer() > 0).then(|| *rate.numer() as f64 / *rate.denom() as f64)
}

/// What a sign that belongs to a staff does where it stands: end one of its family, begin one, or both.
pub(super) struct Does {
    pub(super) ends: bool,
    pub(super) begins: Option<Spans>,
}

/// A hairpin, pedal or octave sign; `None` for all others. An octave sign that points down stands over the staff: what
/// sounds an octave higher is printed lower.
pub(super) fn staff_sign(sign: Node) -> Option<(Family, Does)> {
    let does = |ends, begins| Does { ends, begins };
    Some(match (sign.tag_name().name(), sign.attribute("type")?) {
        ("wedge", "crescendo") => (Family::Wedge, does(false, Some(Spans::Crescendo))),
        ("wedge", "diminuendo") => (Family::Wedge, does(false, Some(Spans::Diminuendo))),
        ("wedge", "stop") => (Family::Wedge, does(true, None)),
        ("pedal", "start" | "resume") => (Family::Pedal, does(false, Some(Spans::Pedal(pedalling(sign))))),
        ("pedal", "change") => (Family::Pedal, does(true, Some(Spans::Pedal(pedalling(sign))))),
        ("pedal", "stop" | "discontinue") => (Family::Pedal, does(true, None)),
        ("octave-shift", "down") => (Family::Octave, does(false, Some(Spans::Octave(octaves(sign))))),
        ("octave-shift", "up") => (Family::Octave, does(false, Some(Spans::Octave(-octaves(sign))))),
        ("octave-shift", "stop") => (Family::Octave, does(true, None)),
        ("wedge" | "pedal" | "octave-shift", "continue") => (Family::Wedge, does(false, None)),
        _ => return None,
    })
}

/// Signs are printed unless there is a line, and beside a line where the file asks for both (MusicXML 4.0,
/// `pedal`).
fn pedalling(pedal: Node) -> Pedalling {
    match (pedal.attribute("line"), pedal.attribute("sign")) {
        (Some("yes"), Some("yes")) => Pedalling::SignAndLine,
        (Some("yes"), _) => Pedalling::Line,
        _ => Pedalling::Signs,
    }
}

/// One for 8, two for 15, three for 22.
fn octaves(sign: Node) -> i8 {
    match sign.attribute("size") {
        Some("15") => 2,
        Some("22") => 3,
        _ => 1,
    }
}
