//! Pedal marks: signs, or a line that is hooked where the pedal is released and notched where it is changed
//! (Gould 2011, "Pedal markings", from memory).

use super::{
    super::drawing::{Ink, Point},
    glyph::Glyph,
    metrics::BRACKET,
    spans::{APART, begin, goes_on, is_shown, shown, time, x_at},
    system::Setting,
};
use crate::music::written::{Anchor, Pedalling, Spanner, Spans};

/// How far a sign and a hook rise over the line on which all marks of a system stand.
const SIGN: f32 = 1.75;
const HOOK: f32 = 1.0;
/// Half the width of a notch.
const NOTCH: f32 = 0.5;

/// The pedals of a system, on one line under the lowest staff.
struct Pedals<'a> {
    shown: Vec<(&'a Spanner, Pedalling)>,
    staff: usize,
    y: f32,
    /// Up to where signs stand.
    free: f32,
}

pub fn pedals(setting: &mut Setting) {
    let order = setting.order;
    let staff = order.galley.staves() - 1;
    let all = order.galley.part.spanners.iter().filter_map(|spanner| match spanner.kind {
        Spans::Pedal(how) if is_shown(setting, spanner) => Some((spanner, how)),
        _ => None,
    });
    let shown: Vec<(&Spanner, Pedalling)> = all.collect();
    if shown.is_empty() {
        return;
    }
    let rise = if shown.iter().all(|(_, how)| *how == Pedalling::Line) { HOOK } else { SIGN };
    let y = setting.pen.skylines[staff].below(0.0, order.width) + APART + rise;
    let mut pedals = Pedals { shown, staff, y, free: f32::MIN };
    for nth in 0..pedals.shown.len() {
        let (spanner, how) = pedals.shown[nth];
        if how != Pedalling::Line {
            pedals.sign(setting, Glyph::Pedal, &spanner.from);
        }
        if how == Pedalling::Signs {
            pedals.sign(setting, Glyph::PedalUp, &spanner.to);
        } else {
            pedals.line(setting, spanner, how);
        }
    }
}

impl Pedals<'_> {
    fn sign(&mut self, setting: &mut Setting, glyph: Glyph, anchor: &Anchor) {
        let (first, last) = shown(setting);
        let at = time(setting, anchor);
        if at < first - 1e-3 || at > last + 1e-3 && glyph == Glyph::Pedal || at > last + 64.0 {
            return;
        }
        let [left, _, right, _] = glyph.extent();
        let x = (x_at(setting, at) - if glyph == Glyph::PedalUp { 1.2 } else { 0.2 }).max(self.free - left);
        if x + right <= setting.order.width {
            let ink = self.ink(setting, anchor);
            setting.pen.glyph(self.staff, ink, glyph, (x, self.y), 1.0);
            self.free = x + right + 0.3;
        }
    }

    fn ink(&self, setting: &Setting, anchor: &Anchor) -> Ink {
        let bar = setting.order.galley.bars.iter().find(|bar| bar.index as isize == anchor.bar);
        bar.map_or(Ink::Faint, |bar| (setting.order.inks)(bar.start + anchor.at, self.staff, true))
    }

    /// How another pedal with a line is printed that ends or begins at this time.
    fn beside(&self, setting: &Setting, at: f32, end: impl Fn(&Spanner) -> &Anchor) -> Option<Pedalling> {
        let mut lines = self.shown.iter().filter(|(_, how)| *how != Pedalling::Signs);
        lines.find(|(other, _)| (time(setting, end(other)) - at).abs() < 1e-3).map(|(_, how)| *how)
    }

    fn line(&mut self, setting: &mut Setting, spanner: &Spanner, how: Pedalling) {
        let (begin, end) = (self.begin(setting, spanner, how), self.end(setting, spanner));
        let (left, right) = (begin[0].0, end[end.len() - 1].0);
        if right < left + 2.0 * NOTCH {
            return;
        }
        let is_cut = time(setting, &spanner.from) < shown(setting).0 - 1e-3;
        let ink = self.ink(setting, if is_cut { &spanner.to } else { &spanner.from });
        let points: Vec<Point> = begin.into_iter().chain(end).collect();
        for ends in points.windows(2) {
            setting.pen.line(self.staff, ink, ends[0], ends[1], BRACKET);
        }
        setting.pen.take(self.staff, [left, self.y - HOOK, right, self.y]);
    }

    /// The left end of a line: open where it comes from the system before or follows its sign.
    fn begin(&self, setting: &Setting, spanner: &Spanner, how: Pedalling) -> Vec<Point> {
        let from = time(setting, &spanner.from);
        // Behind a sign that reaches so far.
        let x = x_at(setting, from).max(self.free);
        if from < shown(setting).0 - 1e-3 {
            return vec![(begin(setting).max(0.0), self.y)];
        }
        if how == Pedalling::SignAndLine {
            return vec![(x, self.y)];
        }
        let is_change = self.beside(setting, from, |other| &other.to).is_some();
        vec![(x, self.y - HOOK), (x + if is_change { NOTCH } else { 0.0 }, self.y)]
    }

    /// The right end: open where it goes on in the next system.
    fn end(&self, setting: &Setting, spanner: &Spanner) -> Vec<Point> {
        let to = time(setting, &spanner.to);
        let x = x_at(setting, to);
        if goes_on(setting, spanner) {
            return vec![(setting.order.width, self.y)];
        }
        match self.beside(setting, to, |other| &other.from) {
            Some(Pedalling::Line) => vec![(x - NOTCH, self.y), (x, self.y - HOOK)],
            Some(_) => vec![(x - NOTCH, self.y), (x - NOTCH, self.y - HOOK)],
            None => vec![(x, self.y), (x, self.y - HOOK)],
        }
    }
}
