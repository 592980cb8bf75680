//! Pedal marks: signs, or a line that is hooked where the pedal is released and notched where it is changed
//! (Gould 2011, "Pedal markings", from memory).

use crate::{
    music::written::{Anchor, Pedalling, Spanner, Spans},
    notation::{
        drawing::{Ink, Point},
        engraving::{
            metrics::BRACKET,
            prepared::places::INSTANT,
            signs::{
                engraver::Engraver,
                spanners::{APART, begin, goes_on, is_shown, shown, time, x_at},
            },
        },
        glyph::Glyph,
    },
};

/// How far a sign and a hook rise over the line on which all marks of a system stand: the sign's own height, and a space
/// (common practice, no source).
const SIGN: f32 = 1.75;
const HOOK: f32 = 1.0;
/// Half the width of a notch: common practice, no source.
const NOTCH: f32 = 0.5;
/// How far `Ped.` and the asterisk begin before their place: the asterisk ends at it. Common practice, no source.
const BEFORE_PRESSED: f32 = 0.2;
const BEFORE_RELEASED: f32 = 1.2;
/// Between two signs: common practice, no source.
const BETWEEN_SIGNS: f32 = 0.3;
/// A sign further than this behind what is shown, in quarters, is one of another system: chosen.
const FAR_BEHIND: f32 = 64.0;

/// The pedals of a system, on one line under the lowest staff.
struct Pedals<'a> {
    shown: Vec<(&'a Spanner, Pedalling)>,
    staff: usize,
    y: f32,
    /// Up to where signs stand.
    free: f32,
}

pub fn pedals(engraver: &mut Engraver) {
    let plan = engraver.plan;
    let staff = plan.galley.staves() - 1;
    let all = plan.galley.part.spanners.iter().filter_map(|spanner| match spanner.kind {
        Spans::Pedal(how) if is_shown(engraver, spanner) => Some((spanner, how)),
        _ => None,
    });
    let shown: Vec<(&Spanner, Pedalling)> = all.collect();
    if shown.is_empty() {
        return;
    }
    let rise = if shown.iter().all(|(_, how)| *how == Pedalling::Line) { HOOK } else { SIGN };
    let y = engraver.pen.skylines[staff].below(0.0, plan.width) + APART + rise;
    let mut pedals = Pedals { shown, staff, y, free: f32::MIN };
    for nth in 0..pedals.shown.len() {
        let (spanner, how) = pedals.shown[nth];
        if how != Pedalling::Line {
            pedals.sign(engraver, Glyph::Pedal, &spanner.from);
        }
        if how == Pedalling::Signs {
            pedals.sign(engraver, Glyph::PedalUp, &spanner.to);
        } else {
            pedals.line(engraver, spanner, how);
        }
    }
}

impl Pedals<'_> {
    fn sign(&mut self, engraver: &mut Engraver, glyph: Glyph, anchor: &Anchor) {
        let (first, last) = shown(engraver);
        let at = time(engraver, anchor);
        if at < first - INSTANT || at > last + INSTANT && glyph == Glyph::Pedal || at > last + FAR_BEHIND {
            return;
        }
        let [left, _, right, _] = glyph.extent();
        let x = (x_at(engraver, at) - if glyph == Glyph::PedalUp { BEFORE_RELEASED } else { BEFORE_PRESSED })
            .max(self.free - left);
        if x + right <= engraver.plan.width {
            let ink = self.ink(engraver, anchor);
            engraver.pen.glyph(self.staff, ink, glyph, (x, self.y), 1.0);
            self.free = x + right + BETWEEN_SIGNS;
        }
    }

    fn ink(&self, engraver: &Engraver, anchor: &Anchor) -> Ink {
        let bar = engraver.plan.galley.bars.iter().find(|bar| bar.index as isize == anchor.bar);
        bar.map_or(Ink::Faint, |bar| (engraver.plan.inks)(bar.start + anchor.at, self.staff, true))
    }

    /// How another pedal with a line is printed that ends or begins at this time.
    fn beside(&self, engraver: &Engraver, at: f32, end: impl Fn(&Spanner) -> &Anchor) -> Option<Pedalling> {
        let mut lines = self.shown.iter().filter(|(_, how)| *how != Pedalling::Signs);
        lines.find(|(other, _)| (time(engraver, end(other)) - at).abs() < INSTANT).map(|(_, how)| *how)
    }

    fn line(&mut self, engraver: &mut Engraver, spanner: &Spanner, how: Pedalling) {
        let (begin, end) = (self.begin(engraver, spanner, how), self.end(engraver, spanner));
        let (left, right) = (begin[0].0, end[end.len() - 1].0);
        if right < left + 2.0 * NOTCH {
            return;
        }
        let is_cut = time(engraver, &spanner.from) < shown(engraver).0 - INSTANT;
        let ink = self.ink(engraver, if is_cut { &spanner.to } else { &spanner.from });
        let points: Vec<Point> = begin.into_iter().chain(end).collect();
        for ends in points.windows(2) {
            engraver.pen.line(self.staff, ink, ends[0], ends[1], BRACKET);
        }
        engraver.pen.take(self.staff, [left, self.y - HOOK, right, self.y]);
    }

    /// The left end of a line: open where it comes from the system before or follows its sign.
    fn begin(&self, engraver: &Engraver, spanner: &Spanner, how: Pedalling) -> Vec<Point> {
        let from = time(engraver, &spanner.from);
        // Behind a sign that reaches so far.
        let x = x_at(engraver, from).max(self.free);
        if from < shown(engraver).0 - INSTANT {
            return vec![(begin(engraver).max(0.0), self.y)];
        }
        if how == Pedalling::SignAndLine {
            return vec![(x, self.y)];
        }
        let is_change = self.beside(engraver, from, |other| &other.to).is_some();
        vec![(x, self.y - HOOK), (x + if is_change { NOTCH } else { 0.0 }, self.y)]
    }

    /// The right end: open where it goes on in the next system.
    fn end(&self, engraver: &Engraver, spanner: &Spanner) -> Vec<Point> {
        let to = time(engraver, &spanner.to);
        let x = x_at(engraver, to);
        if goes_on(engraver, spanner) {
            return vec![(engraver.plan.width, self.y)];
        }
        match self.beside(engraver, to, |other| &other.from) {
            Some(Pedalling::Line) => vec![(x - NOTCH, self.y), (x, self.y - HOOK)],
            Some(_) => vec![(x - NOTCH, self.y), (x - NOTCH, self.y - HOOK)],
            None => vec![(x, self.y), (x, self.y - HOOK)],
        }
    }
}
