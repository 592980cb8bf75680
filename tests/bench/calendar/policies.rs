//! Ways to spend the minutes of a day: the calendar's plan, and what it has to be better than.

use super::families::Learned;
use tailfirst::{
    calendar::{
        Chance, ColdTry, Forecast, Player, Retention, Trace,
        forecast::{Learning, Outlook, Part},
        plan::{Bounds, Candidate, Plan, Share, Sitting, SoFar},
        turns::{chance_in_turn, turns},
    },
    clock::{Day, Moment},
};

/// Minutes of a day, of a block and of a rest; the day on which everything is played.
pub const MINUTES: u16 = 40;
pub const BLOCK: u16 = 5;
const REST: u16 = 15;
pub const DATE: u32 = 42;
/// Blocks that fit a day with its pause.
const BLOCKS: usize = 7;
const MOST_A_DAY: usize = 3;

/// How the day is spent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Policy {
    Calendar,
    MindReader,
    RoundRobin,
    Weakest,
    UntilSecure,
    Expanding,
}

impl Policy {
    pub const ALL: [Policy; 6] = [
        Policy::Calendar,
        Policy::MindReader,
        Policy::RoundRobin,
        Policy::Weakest,
        Policy::UntilSecure,
        Policy::Expanding,
    ];

    pub fn name(self) -> &'static str {
        match self {
            Policy::Calendar => "calendar",
            Policy::MindReader => "reads the mind",
            Policy::RoundRobin => "round robin",
            Policy::Weakest => "the weakest",
            Policy::UntilSecure => "until secure",
            Policy::Expanding => "gaps 1 2 4 8",
        }
    }
}

/// What is known of a snippet from outside.
#[derive(Clone, Debug)]
pub struct Known {
    trace: Trace,
    /// What was heard at the end of its last block.
    evening: f64,
    /// Rounds of cold tries kept in a row.
    kept: u32,
    due: u32,
    blocks: u32,
}

impl Default for Known {
    fn default() -> Self {
        Known { trace: Trace::default(), evening: 0.0, kept: 0, due: 0, blocks: 0 }
    }
}

fn at(day: u32) -> Moment {
    Moment::new(i64::from(day) * 86_400_000, 0)
}

fn date(day: u32) -> Day {
    at(day).day()
}

impl Known {
    pub fn hear(&mut self, day: u32, kept: Option<bool>, heard: f64) {
        let evening = self.believed(day, heard);
        if let Some(kept) = kept {
            self.trace.heard(at(day), if kept { ColdTry::Kept } else { ColdTry::Missed });
            self.kept = if kept { self.kept + 1 } else { 0 };
            self.due = day + (1 << self.kept.saturating_sub(1).min(3));
        }
        self.trace.practised(at(day), Chance::new(evening));
        (self.evening, self.blocks) = (evening, self.blocks + 1);
    }
}

impl Known {
    /// The chance after a block: what was heard at its end, by how it is expected to go on from what was believed before.
    fn believed(&self, day: u32, heard: f64) -> f64 {
        let retention = Retention::of(&self.trace, &Player::of([&self.trace]));
        let now = retention.map_or(0.2, |retention| retention.at(at(day)).mean.get());
        let missing = (LEARNING.limit.get() - now).max(0.0) * (1.0 - LEARNING.a_minute).powi(i32::from(BLOCK));
        let expected = LEARNING.limit.get() - missing;
        (EXPECTED * expected + 8.0 * heard) / (EXPECTED + 8.0)
    }
}

/// How many repetitions what is expected counts for, beside the eight that are heard.
const EXPECTED: f64 = 24.0;
/// What practice is expected to teach; what it does teach differs from snippet to snippet and is not known.
const LEARNING: Learning = Learning { a_minute: 0.05, spread: 0.5, limit: Chance::new(0.95) };

/// The snippets to play on a day, in order.
pub fn day(policy: Policy, day: u32, known: &[Known], truth: &[Learned]) -> Vec<usize> {
    match policy {
        Policy::Calendar => planned(day, known, &believed(day, known)),
        Policy::MindReader => planned(day, known, &|snippet, every| foreseen(day, &truth[snippet], every)),
        Policy::RoundRobin => by_rank(known, |_, known, today| (today, f64::from(known.blocks))),
        Policy::Weakest => by_rank(known, |_, known, _| (0, known.evening)),
        Policy::UntilSecure => by_rank(known, |snippet, known, _| match known.evening < 0.85 {
            true => (0, snippet as f64),
            false => (1, f64::from(known.blocks)),
        }),
        Policy::Expanding => by_rank(known, |_, known, today| match (today, known.due <= day) {
            (0, true) => (0, f64::from(known.due)),
            _ => (1, known.evening),
        }),
    }
}

/// Takes the snippet of the lowest rank again and again; a rank may depend on the blocks it has had today.
fn by_rank(known: &[Known], rank: impl Fn(usize, &Known, usize) -> (usize, f64)) -> Vec<usize> {
    let mut played: Vec<usize> = Vec::new();
    for _ in 0..BLOCKS {
        let today = |snippet| played.iter().filter(|other| **other == snippet).count();
        // Fifteen minutes are three blocks of others.
        let has_rested = |snippet: &usize| !played.iter().rev().take(3).any(|other| other == snippet);
        let may = (0..known.len()).filter(has_rested).filter(|snippet| today(*snippet) < MOST_A_DAY);
        let ranked = may.map(|snippet| (rank(snippet, &known[snippet], today(snippet)), snippet));
        let next = ranked.min_by(|one, other| one.0.partial_cmp(&other.0).expect("numbers"));
        played.extend(next.map(|(_, snippet)| snippet));
    }
    played
}

/// What is new is worth more than what is overdue, and a second block of a day little.
const NEW: f64 = 9.0;
const AGAIN: f64 = 0.1;

/// The plan of the day, where a snippet that comes back every so many days is clean on the date with this chance.
fn planned(day: u32, known: &[Known], chance: &dyn Fn(usize, f64) -> f64) -> Vec<usize> {
    let share = Share { rest: REST, blocks_left: MOST_A_DAY as u32, ..Share::default() };
    let turns = turns(known.len(), BLOCKS as f64, chance);
    let mut candidates: Vec<Candidate> = Vec::new();
    for (snippet, every) in turns.into_iter().enumerate() {
        // What was never played comes first; then what is most overdue by its own turn.
        let gap = known[snippet].trace.practised_at().map(|last| f64::from(date(day) - last.day()));
        let overdue = gap.map_or(NEW, |gap| gap / every);
        for (nth, share) in [1.0, AGAIN].into_iter().enumerate() {
            let needs = (nth > 0).then(|| candidates.len() - 1);
            let (minutes, worth) = (BLOCK, overdue * share);
            candidates.push(Candidate { snippet, minutes, worth, needs, closes: false, is_due: false });
        }
    }
    let sitting = Sitting::new(Bounds::usual(MINUTES), vec![share; known.len()], candidates, SoFar::default());
    let sitting = sitting.unwrap_or_else(|| panic!("a sound day {day}"));
    Plan::of(&sitting).blocks.iter().map(|block| sitting.candidates()[block.candidate].snippet).collect()
}

/// What the calendar believes.
fn believed(day: u32, known: &[Known]) -> impl Fn(usize, f64) -> f64 {
    let player = Player::of(known.iter().map(|known| &known.trace));
    let part =
        |known: &Known| Retention::of(&known.trace, &player).map(|retention| Part { retention, learning: LEARNING });
    let parts: Vec<Option<Part>> = known.iter().map(part).collect();
    move |snippet, every| {
        let chance = |part: &Part| chance_in_turn(part, date(day), date(DATE), every, f64::from(BLOCK)).get();
        parts[snippet].as_ref().map_or(0.0, chance)
    }
}

/// What the calendar foretells of the date; `None` before everything has been played.
pub fn foretold(known: &[Known], seed: u64) -> Option<Forecast> {
    let player = Player::of(known.iter().map(|known| &known.trace));
    let part = |known: &Known| Some(Part { retention: Retention::of(&known.trace, &player)?, learning: LEARNING });
    let parts: Vec<Part> = known.iter().map(part).collect::<Option<_>>()?;
    Some(Forecast::of(&parts, Outlook { date: date(DATE), minutes_a_day: f64::from(MINUTES), seed }))
}

/// What comes true of a snippet that comes back every so many days.
fn foreseen(day: u32, truth: &Learned, every: f64) -> f64 {
    let mut snippet = truth.clone();
    let mut next = f64::from(day).max(truth.practised().map_or(0.0, |last| f64::from(last) + every));
    while next < f64::from(DATE) {
        snippet.expect(next as u32, f64::from(BLOCK));
        next += every;
    }
    snippet.cold(DATE)
}
