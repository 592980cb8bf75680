//! How often each snippet comes in turn until the date, so that most are clean on it.
//!
//! The returns that there is time for are given, step by step, to where the chance on the date grows most for them. What
//! is most overdue by its own turn is then due first: where all are alike that is a round robin, and it differs from one
//! only as far as snippets differ.

use crate::{
    calendar::{
        chance::Chance,
        forecast::{Learning, Part},
        half_life,
        trace::grown,
    },
    clock::Day,
};

/// Days from one return to the next that are considered, the longest first; the first one stands for no return.
const EVERY: [f64; 10] = [60.0, 12.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5];
/// Half-lives less likely than this do not matter.
const NEGLIGIBLE: f64 = 1e-4;

/// The days from one return to the next for each of `snippets`, where so many returns a day can be made: 60 where there is
/// no time for any. `chance` says how likely a snippet is to be clean on the date where it comes back so often.
pub fn turns(snippets: usize, returns_a_day: f64, chance: impl Fn(usize, f64) -> f64) -> Vec<f64> {
    let chances: Vec<_> = (0..snippets).map(|snippet| EVERY.map(|every| chance(snippet, every))).collect();
    let mut taken = vec![0; snippets];
    let mut left = returns_a_day;
    loop {
        let costs = |from: usize, to: usize| 1.0 / EVERY[to] - 1.0 / EVERY[from];
        let better = (0..snippets).flat_map(|snippet| (taken[snippet] + 1..EVERY.len()).map(move |to| (snippet, to)));
        let gain = |(snippet, to): &(usize, usize)| {
            let from = taken[*snippet];
            (chances[*snippet][*to] - chances[*snippet][from]) / costs(from, *to)
        };
        let affordable = better.filter(|(snippet, to)| costs(taken[*snippet], *to) <= left);
        let Some((snippet, to)) = affordable.max_by(|one, other| gain(one).total_cmp(&gain(other))) else { break };
        left -= costs(taken[snippet], to);
        taken[snippet] = to;
    }
    taken.into_iter().map(|taken| EVERY[taken]).collect()
}

/// The chance of a clean cold try on `date` that is expected where the snippet gets so many minutes of practice every so
/// many days from its last on, or today where that is past.
pub fn chance_in_turn(part: &Part, today: Day, date: Day, every: f64, minutes: f64) -> Chance {
    let Part { retention, learning } = part;
    let until = f64::from(date - retention.practised_on());
    let first = every.max(f64::from(today - retention.practised_on()));
    let likely = retention.believed.0.iter().zip(&retention.half_lives).filter(|(mass, _)| **mass > NEGLIGIBLE);
    let (mut chance, mut all) = (0.0, 0.0);
    for (mass, half_life) in likely {
        let mut snippet = Snippet { half_life: *half_life, evening: retention.evening.chance.get() };
        let (mut last, mut next) = (0.0, first);
        while next < until {
            snippet.practise(next - last, minutes, learning);
            (last, next) = (next, next + every);
        }
        chance += mass * snippet.evening * half_life::left_after(until - last, snippet.half_life);
        all += mass;
    }
    Chance::new(chance / all)
}

/// What is expected of a snippet at one half-life.
struct Snippet {
    half_life: f64,
    evening: f64,
}

impl Snippet {
    fn practise(&mut self, gap: f64, minutes: f64, learning: &Learning) {
        let left = half_life::left_after(gap, self.half_life);
        let now = self.evening * left;
        self.half_life = grown(self.half_life, left, now);
        self.evening = learning.after(now, 1.0 - learning.missing_after(minutes));
    }
}
