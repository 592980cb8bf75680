//! Meter and divisions: what a part's `attributes` say about its time.
//!
//! Refuses to know where in the part they stand.

use super::{
    document::{Measure, child, children, text_of},
    lengths::decimal,
    signs::shape_length,
};
use crate::music::{Meter, written::MeterSign};
use num_rational::Ratio;
use roxmltree::Node;
use std::collections::HashMap;

/// The meter of a `time` element. Added meters are brought to their shortest unit: 3/8 + 2/4 is 7/8.
/// `None` for free time and for what is no time signature.
pub(super) fn meter(time: Node) -> Option<Meter> {
    let sum = |beats: &str| beats.split('+').map(|beat| beat.trim().parse::<u8>().ok().map(u32::from)).sum();
    let uppers = children(time, "beats").map(|node| sum(node.text()?)).collect::<Option<Vec<u32>>>()?;
    let lowers = children(time, "beat-type").map(|node| node.text()?.trim().parse().ok());
    let lowers = lowers.collect::<Option<Vec<u8>>>()?;
    let unit = *lowers.iter().max()?;
    if uppers.len() != lowers.len() || !lowers.iter().all(|lower| lower.is_power_of_two()) {
        return None;
    }
    let beats: u32 = uppers.iter().zip(&lowers).map(|(upper, lower)| upper * u32::from(unit / lower)).sum();
    Meter::new(u8::try_from(beats).ok()?, unit)
}

/// How a `time` element that stands for this meter is printed.
pub(super) fn meter_sign(time: Node, meter: Meter) -> MeterSign {
    if time.attribute("print-object") == Some("no") {
        return MeterSign::Hidden;
    }
    match (time.attribute("symbol"), meter.beats(), meter.unit()) {
        (Some("common"), 4, 4) => MeterSign::Common,
        (Some("cut"), 2, 2) => MeterSign::Cut,
        _ => MeterSign::Figures,
    }
}

/// How many divisions the file has to a quarter, where it says so.
pub(super) fn divisions(attributes: Node) -> Option<Ratio<i64>> {
    decimal(text_of(attributes, "divisions")?).filter(|divisions| *divisions > Ratio::ZERO)
}

/// By how much the divisions of a part are wrong or missing: 1 where a single note's length is what
/// its shape says; otherwise what most notes agree on.
pub(super) fn correction(measures: &[Measure]) -> Ratio<i64> {
    let mut votes: HashMap<Ratio<i64>, usize> = HashMap::new();
    let mut current = Ratio::ONE;
    for node in measures.iter().flat_map(|measure| measure.content.children()) {
        match node.tag_name().name() {
            "attributes" => current = divisions(node).unwrap_or(current),
            "note" if child(node, "grace").is_none() => {
                let length = text_of(node, "duration").and_then(decimal);
                if let Some((length, shape)) = length.filter(|l| *l > Ratio::ZERO).zip(shape_length(node)) {
                    *votes.entry(length / current / shape).or_default() += 1;
                }
            }
            _ => {}
        }
    }
    let voters: usize = votes.values().sum();
    let bearable = |ratio: &Ratio<i64>| *ratio.numer() <= 1_000_000 && *ratio.denom() <= 1_000_000;
    let agreed = votes.iter().find(|(ratio, count)| *count * 2 > voters && bearable(ratio)).map(|(ratio, _)| *ratio);
    if votes.contains_key(&Ratio::ONE) { Ratio::ONE } else { agreed.unwrap_or(Ratio::ONE) }
}
