//! Whether the date will be met: the days until then, played through many times over from what is believed.
//!
//! Each run draws a half-life for each snippet from its posterior and a speed of learning, then goes from return to return:
//! a cold try, kept or missed by chance, then minutes of practice. The minutes a day are shared out evenly over all returns
//! there are until the date. The returns do not depend on the minutes, and each draw belongs to one event, so that more
//! minutes cannot lower the forecast, run by run. On the way the model leaves out that a day may have too little time for
//! all that is due on it.

use crate::{
    calendar::{chance::Chance, draw::Draws, half_life, retention::Retention, returns::returns, trace::grown},
    clock::Day,
    sort,
};

/// Times the days are played through: the error of a chance is at most 0.025 (one standard deviation).
const RUNS: usize = 400;
/// Returns to one snippet that are looked ahead to.
const MOST_RETURNS: usize = 10;
/// Of the minutes a day, what is played; five in thirty are pauses.
pub const PLAYED: f64 = 25.0 / 30.0;

/// How a snippet is learned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learning {
    /// The share of what is still missing that a minute of practice adds, 0..1.
    pub a_minute: f64,
    /// How unsure that is: the standard deviation of its logarithm, ≥ 0.
    pub spread: f64,
    /// What practice leads to in the end.
    pub limit: Chance,
}

impl Learning {
    /// The share of what was missing that is still missing after so many minutes, at the usual speed.
    pub(super) fn missing_after(&self, minutes: f64) -> f64 {
        (1.0 - self.a_minute.clamp(0.0, 0.999)).powf(minutes)
    }

    /// The chance after practice has added this share of what was missing.
    pub(super) fn after(&self, now: f64, learned: f64) -> f64 {
        let limit = self.limit.get().max(now);
        limit - (limit - now) * (1.0 - learned)
    }
}

/// A snippet on its way to the date.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What is believed of how long it holds.
    pub retention: Retention,
    /// How it is learned.
    pub learning: Learning,
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlook {
    /// When everything is to be clean at the first try.
    pub date: Day,
    /// The present pace, pauses included; > 0.
    pub minutes_a_day: f64,
    /// The same seed gives the same forecast.
    pub seed: u64,
}

/// What is expected of the date.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// For each snippet, the chance that it is clean.
    pub each: Vec<Chance>,
    /// The chance that all are.
    pub whole: Chance,
    /// How many are clean: fewer with probability of at most 0.1, and more with at most 0.1.
    pub clean: (usize, usize),
    /// The snippet that is least likely to be clean.
    pub holds_back: Option<usize>,
}

/// What would change a forecast.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// So many minutes more a day.
    MoreMinutes(f64),
    /// Without this snippet, whose minutes the others get.
    Without(usize),
    /// Everything easier by so many logits: what a notch of the metronome is worth.
    Easier(f64),
}

impl Forecast {
    /// What is expected of these snippets together.
    pub fn of(parts: &[Part], outlook: Outlook) -> Self {
        let ways = parts.iter().map(|part| Way::of(part, outlook.date)).collect::<Vec<_>>();
        Forecast::along(&ways, outlook)
    }

    /// The same after a change.
    pub fn changed(parts: &[Part], outlook: Outlook, change: Change) -> Self {
        let ways = parts.iter().map(|part| Way::of(part, outlook.date)).collect::<Vec<_>>();
        Forecast::changed_along(ways, outlook, change)
    }

    /// What is expected, and what after each of the changes that `ask` makes of it.
    pub fn with_changes(
        parts: &[Part],
        outlook: Outlook,
        ask: impl FnOnce(&Forecast) -> Vec<Change>,
    ) -> (Self, Vec<Self>) {
        let ways = parts.iter().map(|part| Way::of(part, outlook.date)).collect::<Vec<_>>();
        let forecast = Forecast::along(&ways, outlook);
        let changes = ask(&forecast);
        let changed = changes.into_iter().map(|change| Forecast::changed_along(ways.clone(), outlook, change));
        let changed = changed.collect();
        (forecast, changed)
    }

    fn changed_along(mut ways: Vec<Way>, outlook: Outlook, change: Change) -> Self {
        let mut outlook = outlook;
        match change {
            Change::MoreMinutes(minutes) => outlook.minutes_a_day += minutes.max(0.0),
            Change::Without(part) => ways[part].is_left_out = true,
            Change::Easier(logits) => ways.iter_mut().for_each(|way| way.easier = logits),
        }
        Forecast::along(&ways, outlook)
    }

    fn along(ways: &[Way], outlook: Outlook) -> Self {
        let counted = || ways.iter().enumerate().filter(|(_, way)| !way.is_left_out);
        let minutes = minutes_a_return(ways, outlook);
        let draws = Draws::of(outlook.seed);
        let mut times_clean = vec![0usize; ways.len()];
        let mut counts: Vec<usize> = Vec::new();
        for run in 0..RUNS {
            let mut clean = 0;
            for (index, way) in counted() {
                if way.is_clean(minutes, &|event| draws.at([run, index, event])) {
                    times_clean[index] += 1;
                    clean += 1;
                }
            }
            counts.push(clean);
        }
        let share = |times: usize| Chance::new(times as f64 / RUNS as f64);
        let all = counted().count();
        let whole = share(counts.iter().filter(|clean| **clean == all).count());
        sort::by_key(&mut counts, |clean| *clean);
        Forecast {
            whole,
            clean: (counts[RUNS / 10], counts[RUNS - 1 - RUNS / 10]),
            holds_back: counted().map(|(index, _)| index).min_by_key(|index| times_clean[*index]),
            each: times_clean.into_iter().map(share).collect(),
        }
    }
}

/// Minutes of practice at each return, where all share what there is until the date.
fn minutes_a_return(ways: &[Way], outlook: Outlook) -> f64 {
    let all: usize = ways.iter().filter(|way| !way.is_left_out).map(|way| way.returns.len()).sum();
    let days = ways.iter().map(|way| way.days).max().unwrap_or(0);
    PLAYED * outlook.minutes_a_day.max(0.0) * f64::from(days.max(0)) / all.max(1) as f64
}

/// A snippet's way to the date.
#[derive(Clone)]
struct Way<'a> {
    part: &'a Part,
    /// Gaps before each return, in days.
    returns: Vec<f64>,
    /// The gap before the date, in days.
    last: f64,
    /// Days from the last practice to the date.
    days: i32,
    /// In logits.
    easier: f64,
    is_left_out: bool,
}

impl<'a> Way<'a> {
    fn of(part: &'a Part, date: Day) -> Self {
        let mut from = part.retention.practised_on();
        let days = date - from;
        let returns = returns(date, &part.retention, part.learning.limit, MOST_RETURNS);
        let mut gap = |day: Day| f64::from((day - std::mem::replace(&mut from, day)).max(0));
        let returns = returns.into_iter().map(&mut gap).collect();
        Way { part, returns, last: gap(date), days, easier: 0.0, is_left_out: false }
    }

    /// Whether the snippet is clean on the date, in a run with these draws.
    fn is_clean(&self, minutes: f64, draw: &dyn Fn(usize) -> f64) -> bool {
        let Part { retention, learning } = self.part;
        let easier = |chance: f64| if self.easier == 0.0 { chance } else { shifted(chance, self.easier) };
        let mut half_life = retention.half_life(retention.believed.quantile(draw(0)));
        let learned = learned(learning, minutes, draw(1), draw(2));
        let mut evening = retention.evening.chance.get();
        for (nth, gap) in self.returns.iter().enumerate() {
            let left = half_life::left_after(*gap, half_life);
            let now = evening * left;
            let is_kept = draw(4 + nth) < easier(now);
            half_life = grown(half_life, left, f64::from(u8::from(is_kept)));
            evening = learning.after(now, learned);
        }
        draw(3) < easier(evening * half_life::left_after(self.last, half_life))
    }
}

/// The share of what is missing that so many minutes add, where the speed of learning is drawn by two numbers in 0..1 (the
/// method of Box and Muller 1958).
fn learned(learning: &Learning, minutes: f64, one: f64, other: f64) -> f64 {
    let normal = (-2.0 * (1.0 - one).ln()).sqrt() * (std::f64::consts::TAU * other).cos();
    1.0 - learning.missing_after(minutes * (learning.spread * normal).exp())
}

/// A chance that is so many logits higher.
fn shifted(chance: f64, logits: f64) -> f64 {
    let odds = logits.exp() * chance;
    odds / (1.0 - chance + odds)
}
