//! When a step is secure, when it is too hard, and when there is nothing more to be gained today.
//!
//! Each rule stands here once, with its threshold and its reason. All thresholds are the method's own
//! choice (invented, to be tuned); none is published for a played passage.
//!
//! Refuses to know which step follows from a rule.

use super::estimate::Estimate;
use super::{Cause, Leaving, Move, Strictness, Verdict};

/// How high the chance of a clean repetition must be, and how certain that must be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    pub level: f64,
    pub certainty: f64,
}

impl From<Strictness> for Asked {
    /// From a first step these take about three, five and eleven clean repetitions in a row; from the
    /// neighbour of a secure step two, two or three, and three or four.
    fn from(strictness: Strictness) -> Asked {
        let (level, certainty) = match strictness {
            Strictness::Lenient => (0.75, 0.70),
            Strictness::Usual => (0.80, 0.75),
            Strictness::Strict => (0.875, 0.80),
        };
        Asked { level, certainty }
    }
}

/// However much is expected of a neighbour, once clean may be luck.
const FEWEST_CLEAN: u32 = 2;

/// **Secure**: at least two clean repetitions of this very step, and enough certainty that its chance
/// is above the level asked.
pub fn secure(estimate: &Estimate, asked: Asked) -> bool {
    estimate.clean() >= FEWEST_CLEAN && estimate.tails().chance_above(asked.level) >= asked.certainty
}

/// Two misses in a row happen to everyone.
const FEWEST_MISSED: u32 = 3;
/// A step that fails every other time teaches the mistake as often as the music.
const HARD_BELOW: f64 = 0.5;
const HARD_CERTAINTY: f64 = 0.7;

/// **Too hard**: at least three misses at this very step, and enough certainty that its chance is below
/// one half.
pub fn too_hard(estimate: &Estimate) -> bool {
    estimate.missed() >= FEWEST_MISSED && estimate.tails().chance_above(HARD_BELOW) <= 1.0 - HARD_CERTAINTY
}

/// Whether the step, as it was left, fails more often than not.
pub fn failing(estimate: &Estimate) -> bool {
    estimate.repetitions() > 0 && estimate.mean() < HARD_BELOW
}

/// One repetition as the player judged it.
pub type Judged = (Verdict, Option<Cause>);

/// Misses that must each have another cause before it means that attention has gone …
const SCATTERED: usize = 4;
/// … and the repetitions they must lie within.
const SCATTERED_WITHIN: usize = 6;

/// **Leave, the causes change**: the last four misses, all within the last six repetitions, were named
/// four different causes. Whoever misses differently each time is tired, or does not yet know what is
/// meant to happen.
pub fn causes_differ(block: &[Judged]) -> Option<Leaving> {
    let recent = &block[block.len().saturating_sub(SCATTERED_WITHIN)..];
    let named: Vec<Cause> = last_misses(recent).take(SCATTERED).map_while(|cause| cause).collect();
    let differ = named.iter().enumerate().all(|(i, cause)| !named[..i].contains(cause));
    (named.len() == SCATTERED && differ).then_some(Leaving::CausesDiffer { misses: SCATTERED as u32 })
}

/// Repetitions a block gets before it may be found fruitless.
const FAIR_TRIAL: usize = 12;
/// Repetitions of the step over which its chance must have risen.
const FLAT_OVER: usize = 8;

/// **Leave, flat or falling**: after at least twelve repetitions in the block, the present step is
/// believed no safer than it was eight repetitions of it ago, and at least three of these were missed.
pub fn flat_or_falling(estimate: &Estimate, block: &[Judged]) -> Option<Leaving> {
    let (now, then) = (estimate.mean(), estimate.means_back().nth(FLAT_OVER)?);
    let missed = last_misses(&block[block.len() - FLAT_OVER..]).count();
    let fruitless = block.len() >= FAIR_TRIAL && now <= then && missed >= FEWEST_MISSED as usize;
    fruitless.then_some(Leaving::FlatOrFalling { from: then, to: now, repetitions: FLAT_OVER as u32 })
}

/// Misses that are looked back on for a cause …
const MINDED: usize = 3;
/// … and in how many of them it must have been named.
const MOST_OF_THEM: usize = 2;
/// After so many clean repetitions in a row the cause is gone.
const GONE_AFTER: usize = 3;

/// **Mind the cause**: the one named in at least two of the block's last three misses, until three
/// repetitions in a row were clean.
pub fn cause_to_mind(block: &[Judged]) -> Option<Cause> {
    let clean_since = block.iter().rev().take_while(|(verdict, _)| *verdict == Verdict::Clean).count();
    if clean_since >= GONE_AFTER {
        return None;
    }
    let last: Vec<Cause> = last_misses(block).take(MINDED).flatten().collect();
    last.iter().copied().find(|cause| last.iter().filter(|other| *other == cause).count() >= MOST_OF_THEM)
}

/// The causes of the misses, the latest first.
fn last_misses(block: &[Judged]) -> impl Iterator<Item = Option<Cause>> {
    block.iter().rev().filter(|(verdict, _)| *verdict == Verdict::NotYet).map(|(_, cause)| *cause)
}

/// Once may be a whim.
const TAKEN_BACK: usize = 2;

/// **Hold back**: a move that the player has taken back twice in a block is not made again in it.
pub fn held_back(led_by: Move, taken_back: &[Move]) -> bool {
    taken_back.iter().filter(|other| **other == led_by).count() >= TAKEN_BACK
}

/// Cold tries in a row, each on another day, that were missed although the whole was once secure.
const STALE_AFTER: u32 = 4;

/// **Consider starting afresh**: the whole snippet was secure once, and the cold tries of the last four
/// days on which it was practised were all missed.
pub fn stale(whole_was_secure: bool, missed_cold_tries: u32) -> bool {
    whole_was_secure && missed_cold_tries >= STALE_AFTER
}
