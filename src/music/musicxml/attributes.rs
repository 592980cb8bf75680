//! Key, meter and the rest of what an `attributes` element says.

use crate::music::{
    Meter,
    musicxml::{
        document::{child, children, text_of},
        lengths::decimal,
        mended::Mend,
    },
    written::MeterSign,
};
use num_rational::Ratio;
use roxmltree::Node;

/// Most staves a part may have; the notes of further ones are put on the last.
pub(super) const MOST_STAVES: u8 = 16;

/// Key and meter, as far as an element gives them.
#[derive(Clone, Copy, Default, PartialEq)]
pub(super) struct Signature {
    pub(super) fifths: Option<i8>,
    pub(super) meter: Option<(Meter, MeterSign)>,
}

impl Signature {
    /// This one where it says something, otherwise the earlier one.
    pub(super) fn or(self, earlier: Signature) -> Signature {
        Signature { fifths: self.fifths.or(earlier.fifths), meter: self.meter.or(earlier.meter) }
    }
}

/// What an `attributes` element says of key and meter.
pub(super) fn signature(attributes: Node, say: &mut impl FnMut(Mend)) -> Signature {
    let keys: Vec<Option<i8>> = children(attributes, "key").map(|key| text_of(key, "fifths")?.parse().ok()).collect();
    let fifths = keys.first().copied().flatten();
    if keys.first().is_some_and(Option::is_none) {
        say(Mend::OddKey);
    }
    if fifths.is_some_and(|fifths| !(-7..=7).contains(&fifths)) {
        say(Mend::FarKey);
    }
    if keys.iter().any(|key| *key != fifths) {
        say(Mend::TwoKeys);
    }
    let time = child(attributes, "time");
    let meter = time.and_then(|time| Some((meter(time)?, time)));
    if time.is_some() && meter.is_none() {
        say(Mend::NoMeter);
    }
    let meter = meter.map(|(meter, time)| (meter, meter_sign(time, meter)));
    Signature { fifths: fifths.map(|fifths| fifths.clamp(-7, 7)), meter }
}

/// Whether the part is written for a transposing instrument.
pub(super) fn transposes(attributes: Node) -> bool {
    let shifts = |transpose: Node, name| text_of(transpose, name).and_then(decimal).is_some_and(|by| by != Ratio::ZERO);
    children(attributes, "transpose").any(|node| shifts(node, "chromatic") || shifts(node, "octave-change"))
}

/// Whether signs stand for bars or beats that are repeated; rests of several bars are none.
pub(super) fn abbreviates(attributes: Node) -> bool {
    let mut signs = children(attributes, "measure-style").flat_map(|style| style.children()).filter(Node::is_element);
    signs.any(|sign| !sign.has_tag_name("multiple-rest"))
}

/// The meter of a `time` element. An additive one keeps its groups; where several fractions are added they are brought
/// to their shortest unit, each beat a group: 3/8 + 2/4 is 3+2+2/8. `None` for free time and for anything else that is
/// not a time signature.
fn meter(time: Node) -> Option<Meter> {
    let groups = |beats: &str| beats.split('+').map(|beat| beat.trim().parse::<u8>().ok()).collect();
    let uppers = children(time, "beats").map(|node| groups(node.text()?)).collect::<Option<Vec<Vec<u8>>>>()?;
    let lowers = children(time, "beat-type").map(|node| node.text()?.trim().parse().ok());
    let lowers = lowers.collect::<Option<Vec<u8>>>()?;
    let unit = *lowers.iter().max()?;
    if uppers.len() != lowers.len() || !lowers.iter().all(|lower| lower.is_power_of_two()) {
        return None;
    }
    let fractions = uppers.iter().zip(&lowers);
    let brought = |(groups, lower): (&Vec<u8>, &u8)| match unit / lower {
        1 => groups.clone(),
        units => vec![units; groups.iter().map(|beats| usize::from(*beats)).sum()],
    };
    let groups: Vec<u8> = fractions.clone().flat_map(brought).collect();
    let beats = fractions
        .map(|(groups, lower)| groups.iter().map(|beats| u32::from(*beats)).sum::<u32>() * u32::from(unit / lower));
    Meter::additive(&groups, unit).or_else(|| Meter::new(u8::try_from(beats.sum::<u32>()).ok()?, unit))
}

/// How a `time` element that stands for this meter is printed.
fn meter_sign(time: Node, meter: Meter) -> MeterSign {
    if time.attribute("print-object") == Some("no") {
        return MeterSign::Hidden;
    }
    match (time.attribute("symbol"), meter.beats(), meter.unit()) {
        (Some("common"), 4, 4) => MeterSign::Common,
        (Some("cut"), 2, 2) => MeterSign::Cut,
        _ => MeterSign::Figures,
    }
}
