//! When to come back to a snippet before its date.
//!
//! Gaps grow toward the date, and are made longer where it costs next to nothing: for facts the best gap
//! grows with the time to the test, and one too long costs less than one too short (Cepeda et al. 2008). Their day numbers
//! are for facts and are not used; what the gaps do here is what [`Retention`] says of this snippet.

use crate::{
    calendar::{chance::Chance, half_life, retention::Retention, trace::grown},
    clock::Day,
};

/// Days before the date, itself excepted, that hold only cold tries and whole run-throughs. Chosen.
pub const LAST_DAYS: i32 = 3;
/// Gaps are made longer where it costs less than this share of the chance. Chosen.
const AS_GOOD: f64 = 0.005;
/// How much longer each gap is than the one before.
const RATIOS: [f64; 6] = [1.0, 1.25, 1.5, 2.0, 2.5, 3.0];
/// What a change of a day has to gain to count.
const LEAST_GAIN: f64 = 1e-6;
/// Half-lives less likely than this do not matter.
const NEGLIGIBLE: f64 = 1e-6;
/// Gaps are looked for with so many points of the grid put together, which tells them apart as well.
const THINNED_BY: usize = 6;

/// What a day is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Practice.
    Practice,
    /// Cold tries and whole run-throughs only.
    RunThroughs,
    /// The date itself, and after.
    Over,
}

/// What the day `today` is for, before a performance on `date`.
pub fn phase(today: Day, date: Day) -> Phase {
    match date - today {
        ..=0 => Phase::Over,
        1..=LAST_DAYS => Phase::RunThroughs,
        _ => Phase::Practice,
    }
}

/// The chance of a clean cold try on `date` where the snippet is practised on these days, ascending and before it, and
/// practice `leaves` this chance each time. A half-life grows by what is expected of each cold try.
pub fn chance_on(date: Day, retention: &Retention, returns: &[Day], leaves: Chance) -> Chance {
    chance_by(&likely(retention), date, retention, returns, leaves)
}

/// The half-lives that matter, in days, each with how likely it is.
fn likely(retention: &Retention) -> Vec<(f64, f64)> {
    let all = retention.believed.0.iter().copied().zip(retention.half_lives);
    all.filter(|(mass, _)| *mass > NEGLIGIBLE).collect()
}

/// The same by fewer points: neighbours are put together at their mean.
fn thinned(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let together = |points: &[(f64, f64)]| {
        let mass: f64 = points.iter().map(|(mass, _)| mass).sum();
        (mass, points.iter().map(|(mass, half_life)| mass * half_life).sum::<f64>() / mass)
    };
    points.chunks(THINNED_BY).map(together).collect()
}

fn chance_by(points: &[(f64, f64)], date: Day, retention: &Retention, returns: &[Day], leaves: Chance) -> Chance {
    let from = retention.practised_on();
    let (mut chance, mut all) = (0.0, 0.0);
    for (mass, half_life) in points {
        let (mut half_life, mut evening, mut last) = (*half_life, retention.evening.chance.get(), from);
        for day in returns {
            let left = half_life::left_after(f64::from(*day - last), half_life);
            half_life = grown(half_life, left, evening * left);
            (evening, last) = (leaves.get(), *day);
        }
        chance += mass * evening * half_life::left_after(f64::from(date - last), half_life);
        all += mass;
    }
    Chance::new(chance / all)
}

/// The days on which to come back before `date`, at most so many: those after which the chance on the date is highest.
/// The gaps between them grow, and none lies in the last days; empty where there is no time left.
pub fn returns(date: Day, retention: &Retention, leaves: Chance, most: usize) -> Vec<Day> {
    let (points, span) = (thinned(&likely(retention)), date - retention.practised_on() - LAST_DAYS - 1);
    let search = Search { date, retention, points, leaves, span };
    let climbed = search.growing_evenly(most).into_iter().map(|gaps| search.climbed(gaps));
    let best = search.best(climbed);
    search.days(&search.stretched(best))
}

/// Gaps in days, each at least as long as the one before.
type Gaps = Vec<i32>;

struct Search<'a> {
    date: Day,
    retention: &'a Retention,
    /// Half-lives with how likely they are.
    points: Vec<(f64, f64)>,
    leaves: Chance,
    /// Days in which the last return can lie.
    span: i32,
}

impl Search<'_> {
    fn days(&self, gaps: &Gaps) -> Vec<Day> {
        let from = self.retention.practised_on();
        gaps.iter()
            .scan(from, |day, gap| {
                *day = *day + *gap;
                Some(*day)
            })
            .collect()
    }

    fn chance(&self, gaps: &Gaps) -> f64 {
        chance_by(&self.points, self.date, self.retention, &self.days(gaps), self.leaves).get()
    }

    /// For each ratio the best gaps of which each is longer than the one before by it.
    fn growing_evenly(&self, most: usize) -> Vec<Gaps> {
        let gap = |first: i32, ratio: f64, nth: usize| (f64::from(first) * ratio.powi(nth as i32)).round() as i32;
        let fitting = |first, ratio| {
            let mut left = self.span;
            let all = (0..most).map(move |nth| gap(first, ratio, nth));
            all.take_while(move |gap| {
                left -= gap;
                left >= 0
            })
            .collect::<Gaps>()
        };
        let best = |ratio| self.best((1..=self.span).map(|first| fitting(first, ratio)));
        RATIOS.into_iter().map(best).collect()
    }

    /// Of these the gaps after which the chance is highest; none where there are none.
    fn best(&self, ways: impl IntoIterator<Item = Gaps>) -> Gaps {
        let weighed = ways.into_iter().map(|gaps| (self.chance(&gaps), gaps));
        weighed.max_by(|one, other| one.0.total_cmp(&other.0)).map_or(Gaps::new(), |(_, gaps)| gaps)
    }

    /// These gaps with one of them longer and one shorter by a day, or only either, where they still grow and fit.
    fn with(&self, gaps: &Gaps, longer: Option<usize>, shorter: Option<usize>) -> Option<Gaps> {
        let mut changed = gaps.clone();
        longer.into_iter().for_each(|nth| changed[nth] += 1);
        shorter.into_iter().for_each(|nth| changed[nth] -= 1);
        let fits = changed.first().is_some_and(|first| *first > 0)
            && changed.is_sorted()
            && changed.iter().sum::<i32>() <= self.span;
        fits.then_some(changed)
    }

    /// The gaps after changing them a day at a time, for as long as that is better.
    fn climbed(&self, mut gaps: Gaps) -> Gaps {
        let mut best = self.chance(&gaps);
        let one_or_none = || (0..gaps.len()).map(Some).chain([None]);
        let moves: Vec<_> =
            one_or_none().flat_map(|longer| one_or_none().map(move |shorter| (longer, shorter))).collect();
        loop {
            let better = moves.iter().filter_map(|(longer, shorter)| self.with(&gaps, *longer, *shorter));
            let better = better.map(|gaps| (self.chance(&gaps), gaps)).find(|(chance, _)| *chance > best + LEAST_GAIN);
            match better {
                Some((chance, next)) => (best, gaps) = (chance, next),
                None => return gaps,
            }
        }
    }

    /// The gaps made longer, the earliest first, for as long as it costs next to nothing.
    fn stretched(&self, mut gaps: Gaps) -> Gaps {
        let least = self.chance(&gaps) * (1.0 - AS_GOOD);
        for nth in 0..gaps.len() {
            while let Some(longer) = self.with(&gaps, Some(nth), None).filter(|longer| self.chance(longer) >= least) {
                gaps = longer;
            }
        }
        gaps
    }
}
