//! Bar lines and the brackets over first and second endings.

use crate::music::{
    musicxml::document::{child, words},
    written::{Barline, Ending, EndingEnd, WrittenBar},
};
use roxmltree::Node;

/// Reads the bar lines of a part, bar after bar.
#[derive(Default)]
pub(super) struct Barlines {
    /// The text of the ending that is not closed yet.
    open: Option<String>,
    begins: bool,
    ends: Option<EndingEnd>,
    opens: Barline,
    closes: Barline,
}

impl Barlines {
    /// Takes a `barline` element of the bar; those in the middle of a bar are none of these.
    pub(super) fn element(&mut self, barline: Node) {
        let at_begin = match barline.attribute("location") {
            Some("left") => true,
            None | Some("right") => false,
            Some(_) => return,
        };
        let line = line(barline);
        *(if at_begin { &mut self.opens } else { &mut self.closes }) = line;
        let Some(ending) = child(barline, "ending").filter(|ending| ending.attribute("print-object") != Some("no"))
        else {
            return;
        };
        match ending.attribute("type") {
            Some("start") => {
                self.open = Some(text(ending));
                self.begins = true;
            }
            Some("stop") => self.ends = Some(EndingEnd::Hook),
            Some("discontinue") => self.ends = Some(EndingEnd::Open),
            _ => {}
        }
    }

    /// Puts what was found on the bar. Where it is repeated from, an ending is over.
    pub(super) fn end_bar(&mut self, bar: &mut WrittenBar) {
        bar.opens = std::mem::take(&mut self.opens);
        bar.closes = std::mem::take(&mut self.closes);
        let repeated = (bar.closes == Barline::Repeat).then_some(EndingEnd::Hook);
        let ends = self.ends.take().or(repeated);
        let begins = std::mem::take(&mut self.begins);
        bar.ending = self.open.clone().map(|text| Ending { text, begins, ends: ends.unwrap_or(EndingEnd::GoesOn) });
        if ends.is_some() {
            self.open = None;
        }
    }
}

/// Ends what the file leaves open where the next bracket begins, or with the last bar.
pub(super) fn close_endings<'a>(bars: impl DoubleEndedIterator<Item = &'a mut WrittenBar>) {
    let mut goes_on = false;
    for bar in bars.rev() {
        if let Some(ending) = bar.ending.as_mut().filter(|ending| ending.ends == EndingEnd::GoesOn && !goes_on) {
            ending.ends = EndingEnd::Open;
        }
        goes_on = bar.ending.as_ref().is_some_and(|ending| !ending.begins);
    }
}

fn line(barline: Node) -> Barline {
    let style = child(barline, "bar-style").and_then(|style| style.text()).map(str::trim);
    match style {
        _ if child(barline, "repeat").is_some() => Barline::Repeat,
        Some("light-light") => Barline::Double,
        Some("light-heavy" | "heavy-light" | "heavy-heavy" | "heavy") => Barline::Final,
        Some("dashed" | "dotted") => Barline::Dashed,
        Some("none") => Barline::Hidden,
        _ => Barline::Single,
    }
}

/// As printed, else made from its numbers: `1. 2.`
fn text(ending: Node) -> String {
    words(ending).unwrap_or_else(|| {
        let numbers = ending.attribute("number").unwrap_or("").split([',', ' ']).map(str::trim);
        let numbers: Vec<String> = numbers.filter(|n| !n.is_empty()).take(8).map(|n| format!("{n}.")).collect();
        numbers.join(" ").chars().take(24).collect()
    })
}
