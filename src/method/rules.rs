//! When a step is secure, when it is too hard, and when there is nothing more to be gained today.
//!
//! Each rule stands here once, with its threshold and its reason. None is published for a played passage.
//! Those that look at the evidence were looked for with simulated players (`cargo bench -- --tune`): the
//! fewest minutes to a clean cold try of the whole at which "secure" is true as often as it says, for every
//! family of players. The others are the method's own choice.

use crate::{
    method::{Cause, Leaving, Move, Place, Strictness, Verdict, tries::Tries},
    music::Bpm,
    sort,
};

/// How high the chance of a clean repetition must be, how certain that must be, and after how many clean
/// repetitions in a row at least.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// The chance of a clean repetition, 0..1.
    pub level: f64,
    /// The probability that the chance is above the level, 0..1.
    pub certainty: f64,
    /// However much is expected, fewer may be luck.
    pub fewest_clean: u32,
}

/// The thresholds of the rules that look at the evidence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// What is asked of the whole snippet, for [`Strictness::Lenient`].
    pub lenient: Asked,
    /// For [`Strictness::Usual`].
    pub usual: Asked,
    /// For [`Strictness::Strict`].
    pub strict: Asked,
    /// A step on the way goes well from this chance on …
    pub well: f64,
    /// … after so many clean repetitions …
    pub well_clean: u32,
    /// … so many in a row, where it was missed: one is soon an accident …
    pub after_a_miss: u32,
    /// … whatever is expected, after so many in a row …
    pub in_a_row: u32,
    /// … or so many, where the player chose it: whoever asks for a step wants to play it.
    pub chosen_clean: u32,
    /// Fewer misses happen to everyone.
    pub fewest_missed: u32,
    /// A step whose chance is lower teaches the mistake with the music.
    pub hard_below: f64,
    /// What is less likely to go right is not tried while something else is.
    pub worth_trying: f64,
    /// Repetitions a block gets before it may be found fruitless.
    pub fair_trial: usize,
    /// Repetitions of the step over which its chance must have risen; the method's own choice, as is the
    /// fair trial.
    pub flat_over: usize,
}

impl Rules {
    /// The three settings ask for the same chance of the whole, four in five, and differ in how certain that must be and how
    /// often it must have been heard: they are points on the measured curve between minutes spent and wholes
    /// wrongly called secure (`.github/coach.svg`).
    pub const CHOSEN: Rules = Rules {
        lenient: Asked { level: 0.8, certainty: 0.65, fewest_clean: 3 },
        usual: Asked { level: 0.8, certainty: 0.8, fewest_clean: 6 },
        strict: Asked { level: 0.8, certainty: 0.9, fewest_clean: 8 },
        well: 0.75,
        well_clean: 1,
        after_a_miss: 2,
        in_a_row: 3,
        chosen_clean: 3,
        fewest_missed: 2,
        hard_below: 0.7,
        worth_trying: 0.6,
        fair_trial: 12,
        flat_over: 8,
    };

    /// What the player's setting asks of the whole.
    pub fn asked(&self, strictness: Strictness) -> Asked {
        match strictness {
            Strictness::Lenient => self.lenient,
            Strictness::Usual => self.usual,
            Strictness::Strict => self.strict,
        }
    }

    /// **Goes well**: said of a step on the way; clean at once or twice in a row, and likely to be so again. Every longer step tests it again.
    pub fn goes_well(&self, tries: &Tries, chosen: bool) -> bool {
        let after_misses = if tries.missed() > 0 { self.after_a_miss } else { 0 };
        let expected = tries.chance() >= self.well || tries.in_a_row() >= self.in_a_row;
        tries.in_a_row() >= self.fewest_clean(chosen).max(after_misses) && expected
    }

    /// How often a step on the way must have been clean.
    pub fn fewest_clean(&self, chosen: bool) -> u32 {
        if chosen { self.chosen_clean } else { self.well_clean }
    }

    /// **Too hard**: missed more than once since it was taken up, and believed too unlikely to be clean.
    pub fn too_hard(&self, tries: &Tries) -> bool {
        tries.missed() >= self.fewest_missed && tries.chance() < self.hard_below
    }

    /// Whether the step, as it was left, fails more often than not. One miss happens to everyone.
    pub fn failing(&self, tries: &Tries) -> bool {
        tries.missed() > 1 && tries.chance() < self.hard_below
    }

    /// **Leave, flat or falling**: after a fair trial in the block, the present step is believed no safer
    /// than it was eight repetitions of it ago, at least half of these were missed, and they were never clean five
    /// times in a row: that is a gain, whatever follows it.
    pub fn flat_or_falling(&self, tries: &Tries, block: &[Judged]) -> Option<Leaving> {
        let (now, then) = (tries.chance(), tries.chances_back().nth(self.flat_over)?);
        let recent = &block[block.len() - self.flat_over..];
        let missed = 2 * last_misses(recent).count() >= self.flat_over;
        let gained = recent.chunk_by(|one, next| one.0 == next.0).any(is_a_gain);
        let fruitless = block.len() >= self.fair_trial && now <= then && missed && !gained;
        fruitless.then_some(Leaving::FlatOrFalling { from: then, to: now, repetitions: self.flat_over as u32 })
    }
}

/// **Secure**: said of the whole snippet; enough clean repetitions of it in a row, and enough certainty that its chance is above
/// the level asked: `stands` is how certain that is.
pub fn is_secure(tries: &Tries, asked: Asked, stands: f64) -> bool {
    tries.in_a_row() >= asked.fewest_clean && stands >= asked.certainty
}

/// Around a step, a repetition has a bar to count in and the last onset held, in beats …
pub const BEATS_AROUND: f64 = 5.0;
/// … and a breath before the next one, in seconds. Common practice, no source.
pub const BREATH: f64 = 2.0;

/// **Larger steps when easy**: after two steps in a row without a miss two onsets may come at once, after that four; a miss
/// returns to one. The method's own choice.
pub fn stride(faultless_steps: u32) -> usize {
    match faultless_steps {
        0..=1 => 1,
        2 => 2,
        _ => 4,
    }
}

/// So many clean repetitions in a row are no accident; the method's own choice.
const GAIN: usize = 5;

/// Whether a run of equal verdicts shows that something was gained.
fn is_a_gain(run: &[Judged]) -> bool {
    run.len() >= GAIN && run.iter().all(|(verdict, _)| *verdict == Verdict::Clean)
}

/// **Together at once**: where a step of both hands went well without a miss, the next onset is put in front
/// in both hands at once; after a miss it is one hand first. One hand alone tells little where both go easily, and
/// what proves too hard is narrowed to one hand.
pub fn together_at_once(tries: &Tries) -> bool {
    tries.missed() == 0
}

/// A place that fails less often, in failures a repetition, costs little …
const COSTLY: f64 = 0.1;
/// … and of one that stands out more was heard than of the places on average: so many times as much.
const STANDS_OUT: f64 = 1.5;
/// More are too many to mind.
const COSTLIEST: usize = 2;

/// **Where it breaks**: the places that cost most, the worst first, of those that have turned out worse than was to be
/// expected; each with the failures expected of it now and beforehand. The method's own choice.
pub fn costliest(hazards: impl Iterator<Item = (Place, [f64; 2])>) -> Vec<Place> {
    let mut hazards: Vec<(Place, [f64; 2])> = hazards.collect();
    let worse = |[now, beforehand]: [f64; 2]| now / beforehand;
    let mean = hazards.iter().map(|(_, hazard)| worse(*hazard)).sum::<f64>() / hazards.len().max(1) as f64;
    hazards.retain(|(_, hazard)| hazard[0] >= COSTLY && worse(*hazard) >= STANDS_OUT * mean.max(1.0));
    sort::by(&mut hazards, |(_, [one, _]), (_, [other, _])| other.total_cmp(one));
    hazards.into_iter().take(COSTLIEST).map(|(place, _)| place).collect()
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

/// Misses of the step that are looked back on for a cause …
const MINDED: usize = 9;
/// … and how often it must have been named in them; of seven causes, one is named once by chance.
const NAMED: usize = 2;
/// After so many clean repetitions in a row the cause is gone.
const GONE_AFTER: usize = 3;

/// **Mind the cause**: the one named last, where it was named at least twice and for most of the last nine misses in
/// these repetitions of one step, until three in a row were clean. A player who was late twice and is early now has
/// already paid attention to it: earlier causes do not count against the newest.
pub fn cause_to_mind(step: &[Judged]) -> Option<Cause> {
    let clean_since = step.iter().rev().take_while(|(verdict, _)| *verdict == Verdict::Clean).count();
    let misses: Vec<Option<Cause>> = last_misses(step).take(MINDED).collect();
    let newest = misses.iter().copied().flatten().next().filter(|_| clean_since < GONE_AFTER)?;
    let named = misses.iter().filter(|cause| **cause == Some(newest)).count();
    (named >= NAMED && 2 * named > misses.len()).then_some(newest)
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

/// One easing goes to about 85 % of the tempo: enough to feel, not enough to change the motion.
/// Common practice, no source.
const EASE: f64 = 0.85;
/// One climb is at least 8 %, two marks of the scale or so. Common practice, no source.
const CLIMB: f64 = 1.08;
/// Below half the target a passage is another motion (common practice, no source) …
const FLOOR: f64 = 0.5;
/// … and below the scale's slowest mark there is no pulse to feel.
const SLOWEST: u16 = 40;

/// **Ease**: to the first mark at or below 85 % of `bpm`, but not below the floor; `None` at the floor.
pub fn eased(bpm: Bpm, target: Bpm) -> Option<Bpm> {
    let half = Bpm::nearest(f64::from(target.get()) * FLOOR);
    let floor = half.max(target.min(Bpm::nearest(f64::from(SLOWEST))));
    let enough = f64::from(bpm.get()) * EASE;
    let mut slower = bpm.slower();
    while f64::from(slower.get()) > enough && slower > floor {
        slower = slower.slower();
    }
    (bpm > floor).then_some(slower.max(floor))
}

/// **Climb**: to the first mark at least 8 % above `bpm`, but not above the target.
pub fn climbed(bpm: Bpm, target: Bpm) -> Bpm {
    let enough = f64::from(bpm.get()) * CLIMB;
    let mut faster = bpm.faster();
    while f64::from(faster.get()) < enough && faster < target {
        faster = faster.faster();
    }
    faster.min(target)
}

/// How far ahead "what would change its mind" looks, in repetitions; the method's own choice.
pub const FORESEEN: u32 = 12;

/// A repetition that was begun within a block's minutes may be judged this long after them, in ms. Common practice,
/// no source: time enough to play it out.
pub const GRACE_MS: i64 = 30_000;

/// How long the early rest lasts, in ms: five minutes (Cash 2009).
pub const EARLY_REST_MS: i64 = 5 * 60_000;

/// A rest that ended longer ago than this, in ms, is no news any more; the method's own choice.
pub const NEWS_MS: i64 = 30 * 60_000;

#[cfg(test)]
mod tests {
    use super::*;

    fn bpm(beats: u16) -> Bpm {
        Bpm::new(beats).expect("in range")
    }

    #[test]
    fn easing_goes_down_the_scale_to_half_the_target_and_climbing_comes_back() {
        let target = bpm(100);
        let down: Vec<Bpm> = std::iter::successors(Some(target), |bpm| eased(*bpm, target)).collect();
        assert_eq!(down, [100, 84, 69, 58, 50].map(bpm));
        let up = |bpm: &Bpm| (*bpm < target).then(|| climbed(*bpm, target));
        let back: Vec<Bpm> = std::iter::successors(Some(bpm(50)), up).collect();
        assert_eq!(back, [50, 54, 60, 66, 72, 80, 88, 96, 100].map(bpm));
    }

    #[test]
    fn a_slow_target_is_not_eased_below_the_scale() {
        assert_eq!(eased(bpm(60), bpm(60)), Some(bpm(50)));
        assert_eq!(eased(bpm(42), bpm(60)), Some(bpm(40)));
        assert_eq!(eased(bpm(40), bpm(60)), None);
        assert_eq!(eased(bpm(30), bpm(30)), None);
    }
}
