//! What stands over and under the staff: dynamic marks and tempo marks.
//!
//! Refuses to know where they stand.

use super::document::{children, text_of, words};
use crate::music::{BeatUnit, Bpm, Meter, NoteValue, Tempo};
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

/// The tempo of a `metronome` element that gives beats a minute: the first number of `ca. 72–76`.
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
    figures.parse().ok().filter(|rate: &f64| rate.is_finite() && *rate > 0.0)
}
