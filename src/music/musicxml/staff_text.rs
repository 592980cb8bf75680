//! Words over and under a staff, as they are printed.

use crate::music::{
    musicxml::{
        document::{child, children, words},
        events::named_value,
    },
    written::Says,
};
use roxmltree::Node;

/// Longest text that is kept, in letters.
const LONGEST: usize = 64;

/// What the element says in this direction: the words of one `direction-type` are one text, told by its first.
pub(super) fn says(direction: Node, sign: Node) -> Option<Says> {
    match sign.tag_name().name() {
        "metronome" => metronome(sign),
        "rehearsal" => words(sign).map(cut).map(Says::Rehearsal),
        _ if sign.prev_siblings().skip(1).any(|before| before.has_tag_name("words")) => None,
        _ => {
            let texts: Vec<String> = sign.parent_element().into_iter().flat_map(texts).collect();
            let text = cut(texts.join(" "));
            let text = Some(text).filter(|text| text.chars().any(char::is_alphanumeric))?;
            Some(if is_tempo(direction) { Says::Tempo(text) } else { Says::Manner(text) })
        }
    }
}

fn texts<'a>(kind: Node<'a, 'a>) -> impl Iterator<Item = String> {
    children(kind, "words").filter_map(words)
}

fn cut(text: String) -> String {
    text.chars().take(LONGEST).collect()
}

/// Words beside a metronome mark or with a playback tempo are tempo words.
fn is_tempo(direction: Node) -> bool {
    let marked = children(direction, "direction-type").any(|kind| child(kind, "metronome").is_some());
    marked || child(direction, "sound").is_some_and(|sound| sound.has_attribute("tempo"))
}

/// A mark that gives beats per minute; one that sets two values equal is none.
fn metronome(mark: Node) -> Option<Says> {
    let mut units = children(mark, "beat-unit");
    let (beat, _) = named_value(units.next()?.text()?.trim())?;
    let dots = children(mark, "beat-unit-dot").take(3).count() as u8;
    let rate = child(mark, "per-minute").and_then(words).map(cut)?;
    let is_shown = mark.attribute("print-object") != Some("no");
    (units.next().is_none() && is_shown).then_some(Says::Metronome { beat, dots, rate })
}
