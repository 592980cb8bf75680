//! What blocks of a snippet are worth today: how much likelier they make it that the snippet is clean on its date.

use crate::{
    agenda::Followed,
    calendar::{Chance, ColdTry, Retention, Trace, half_life::Density},
    clock::{Day, Moment},
};

/// Where a piece has no date, what is practised should be there in two weeks. Chosen.
const WITHOUT_A_DATE: i32 = 14;
/// What has never been played is not begun so few days before its date any more. Chosen.
const TOO_LATE_TO_BEGIN: i32 = 3;
/// So few days before the date there are cold tries only, one block a snippet. Chosen.
const COLD_TRIES_ONLY: i32 = 2;
/// No chance is counted as less, so that it has a logarithm.
const LEAST: f64 = 1e-6;
/// What a cold try that is due gains beyond that, in the same unit. Chosen, so that what may be forgotten comes before what is
/// new, which has much further to go.
const DUE_FIRST: f64 = 4.0;

/// What a snippet may have today.
#[derive(Clone, Copy)]
pub struct Offered {
    /// Most blocks …
    pub blocks: u32,
    /// … of so many minutes.
    pub minutes: u32,
    /// When it has to be clean.
    pub date: Option<Day>,
    /// Whether its cold try is due.
    pub is_due: bool,
}

/// The gains of the next blocks of one snippet today, in their order: each adds so much to the logarithm of the chance that
/// the snippet is clean on its date. The logarithms of all snippets add up to that of the piece.
pub fn gains(
    followed: &Followed,
    prior: &Density,
    Offered { blocks, minutes, date, is_due }: Offered,
    now: Moment,
) -> Vec<f64> {
    let days = date.map(|date| date - now.day()).filter(|days| *days >= 0).unwrap_or(WITHOUT_A_DATE);
    let is_new = followed.trace.practised_at().is_none();
    if is_new && days < TOO_LATE_TO_BEGIN {
        return Vec::new();
    }
    let blocks = if days <= COLD_TRIES_ONLY { blocks.min(1) } else { blocks };
    let foretold = Foretold { followed, prior, at: now.plus_minutes(u32::try_from(days).unwrap_or(0) * 24 * 60), now };
    let mut before = foretold.as_it_is();
    let mut gains = Vec::new();
    for block in 1..=blocks {
        let after = foretold.practised_for(block * minutes);
        let first = if is_due && block == 1 { DUE_FIRST } else { 0.0 };
        gains.push(first + (after.max(before) / before).ln());
        before = after.max(before);
    }
    gains
}

/// The chance of a snippet on its date, by what is done today.
struct Foretold<'a> {
    followed: &'a Followed,
    /// What is expected of its half-life beforehand.
    prior: &'a Density,
    /// The date.
    at: Moment,
    now: Moment,
}

impl Foretold<'_> {
    /// Where nothing is done.
    fn as_it_is(&self) -> f64 {
        let Followed { coach, trace } = self.followed;
        let Some(kept) = Retention::from_prior(trace, self.prior) else {
            // What is new is not forgotten, but is no more secure on its date than what was left as it is.
            return self.kept(trace, coach.whole());
        };
        // The trace foretells what the next cold try will play, which may be less than the whole.
        let share = coach.tried_next().map_or(0.0, |tried| coach.whole() / tried.max(LEAST));
        (kept.at(self.at).mean.get() * share).clamp(LEAST, 1.0)
    }

    /// Where it is practised for so many minutes, after the cold try that is due.
    fn practised_for(&self, minutes: u32) -> f64 {
        let left = self.followed.coach.whole_after(minutes);
        let trace = &self.followed.trace;
        let night = trace.practised_at().is_some_and(|last| last.day() < self.now.day());
        let cold = Retention::from_prior(trace, self.prior).filter(|_| night).map(|kept| kept.at(self.now).mean.get());
        let foretold = match cold {
            Some(clean) => {
                let after = |cold_try| {
                    let mut trace = Trace::clone(trace);
                    trace.heard(self.now, cold_try);
                    self.kept(&trace, left)
                };
                clean * after(ColdTry::Kept) + (1.0 - clean) * after(ColdTry::Missed)
            }
            None => self.kept(trace, left),
        };
        foretold.clamp(LEAST, 1.0)
    }

    /// Where practice leaves this chance now and nothing follows.
    fn kept(&self, trace: &Trace, left: f64) -> f64 {
        let mut trace = trace.clone();
        trace.practised(self.now, Chance::new(left));
        Retention::from_prior(&trace, self.prior).map_or(LEAST, |kept| kept.at(self.at).mean.get()).max(LEAST)
    }
}
