//! How long notes and bars are, from what the file counts and what it prints.

use crate::music::{
    Meter, Quarters,
    musicxml::{
        cursor::Length,
        document::{Measure, child, text_of},
        lengths::{decimal, quarters},
        mended::Mend,
        signs::shape_length,
    },
};
use num_rational::Ratio;
use roxmltree::Node;
use std::collections::HashMap;

/// In what a part counts its time.
pub(super) struct Counting {
    /// To a quarter.
    divisions: Ratio<i64>,
    correction: Ratio<i64>,
}

impl Counting {
    /// Before a part says anything it counts quarters, except for its [`correction`].
    pub(super) fn new(correction: Ratio<i64>) -> Self {
        Counting { divisions: correction, correction }
    }

    /// Takes an `attributes` element.
    pub(super) fn follow(&mut self, attributes: Node) {
        if let Some(divisions) = divisions(attributes) {
            self.divisions = divisions * self.correction;
        }
    }

    /// The `duration` of a note, backup or forward in quarters, as the file counts.
    pub(super) fn length_of(&self, node: Node) -> Option<Quarters> {
        self.counted(node, "duration").map(|length| length.max(Quarters::ZERO))
    }

    /// The `offset` of a direction, which may lead back.
    pub(super) fn offset_of(&self, direction: Node) -> Quarters {
        self.counted(direction, "offset").unwrap_or(Quarters::ZERO)
    }

    fn counted(&self, node: Node, name: &str) -> Option<Quarters> {
        quarters(decimal(text_of(node, name)?)? / self.divisions)
    }

    /// The length of a note or rest. Its shape is followed only where the file had to round.
    pub(super) fn note_length(&self, note: Node, meter: Meter, say: &mut impl FnMut(Mend)) -> Length {
        let whole_bar = child(note, "rest").is_some_and(|rest| rest.attribute("measure") == Some("yes"));
        let written = self.length_of(note);
        if whole_bar {
            let written = written.filter(|length| *length > Quarters::ZERO).unwrap_or(meter.bar());
            return Length { written, exact: written.min(meter.bar()) };
        }
        let shape = shape_length(note).and_then(quarters).filter(|shape| *shape > Quarters::ZERO);
        let unit = *self.divisions.denom() as f64 / *self.divisions.numer() as f64;
        let rounded = |written: Quarters, shape: Quarters| {
            written != shape && (written.as_f64() - shape.as_f64()).abs() < unit * (1.0 - 1e-6)
        };
        match (written, shape) {
            (Some(written), Some(shape)) if rounded(written, shape) => {
                say(Mend::Rounded);
                Length { written, exact: shape }
            }
            (Some(written), _) if written > Quarters::ZERO => written.into(),
            _ => {
                say(Mend::NoLength);
                shape.unwrap_or(Quarters::ONE).into()
            }
        }
    }
}

/// How many divisions the file has to a quarter, where it says so.
fn divisions(attributes: Node) -> Option<Ratio<i64>> {
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

/// How long a bar is that was written to as far as `end`: the meter's length where rounding is all
/// that is between them, else as written.
pub(super) fn bar_length(end: Quarters, last_start: Quarters, meter: Meter, say: &mut impl FnMut(Mend)) -> Quarters {
    // A 128th note: nothing shorter is played, so a smaller difference does not matter.
    const NO_MUSIC: f64 = 1.0 / 32.0;
    let full = meter.bar();
    if end == Quarters::ZERO || end == full {
        full
    } else if (end.as_f64() - full.as_f64()).abs() < NO_MUSIC && last_start < full {
        say(Mend::Rounded);
        full
    } else {
        if end > full {
            say(Mend::Overfull);
        }
        end
    }
}
