//! One player, one excerpt, one way to practise: day after day until the whole holds cold.

use super::dice::Dice;
use super::excerpt::{excerpt, seconds};
use super::family::Family;
use super::player::Player;
use super::policy::Policy;
use std::rc::Rc;
use tailfirst::{
    clock::Moment,
    method::{Snippet, Step, Verdict},
};

/// Five minutes a block, fifteen minutes of rest, three blocks a day: the method's defaults.
const BLOCK_SECONDS: f64 = 300.0;
const REST_SECONDS: f64 = 900.0;
const BLOCKS_A_DAY: usize = 3;
/// Whoever is not there after so many days is taken to be not there at all.
const DAYS: usize = 60;
/// What a step must be to be truly secure: at least the chance that the usual strictness asks.
pub const LEVEL: f64 = 0.8;

/// What came of it.
#[derive(Clone, Debug, Default)]
pub struct Story {
    /// Whether the first repetition of some day was the whole snippet, clean, and truly secure.
    pub arrived: bool,
    pub days: u32,
    /// Wall time of all repetitions, without rests.
    pub minutes: f64,
    pub repetitions: u32,
    pub missed: u32,
    /// Repetitions of steps that were truly secure already.
    pub overdone: u32,
    /// Each time that the whole was held to be secure: its true chance then.
    pub declared: Vec<f64>,
    /// What was expected of each repetition, and whether it was judged clean.
    pub expected: Vec<(f64, bool)>,
}

/// The story of player `number` of `family` by the policy that `begin` makes for the excerpt.
pub fn practise(family: Family, number: u64, begin: impl FnOnce(&Rc<Snippet>) -> Box<dyn Policy>) -> Story {
    let snippet = excerpt(&mut Dice::of(number, 0));
    let mut player = Player::new(family, &snippet, number);
    let mut policy = begin(&snippet);
    let mut story = Story::default();
    for day in 0..DAYS {
        story.days += 1;
        if a_day(day, &snippet, &mut player, policy.as_mut(), &mut story) {
            story.arrived = true;
            return story;
        }
        player.sleep();
    }
    story
}

/// Plays a day's blocks; tells whether the first repetition was the cold try that was wanted.
fn a_day(day: usize, snippet: &Snippet, player: &mut Player, policy: &mut dyn Policy, story: &mut Story) -> bool {
    let whole = Step {
        span: snippet.whole(),
        hands: snippet.hands_in(snippet.whole()).expect("hands"),
        bpm: snippet.tempo().bpm,
    };
    let morning = Moment::new(day as i64 * 86_400_000 + 36_000_000, 0);
    let mut clock = 0.0;
    let mut cold = true;
    for _ in 0..BLOCKS_A_DAY {
        let ends = clock + BLOCK_SECONDS;
        policy.sit_down(morning.plus_ms((clock * 1e3) as i64));
        while let Some(step) = policy.next().filter(|_| clock < ends) {
            let truth = player.chance(step);
            let verdict = player.play(step);
            clock += seconds(snippet, step);
            story.minutes += seconds(snippet, step) / 60.0;
            let heard = player.judge(verdict);
            story.take_in(truth, verdict);
            story.expected.extend(policy.expects().map(|expected| (expected, heard == Verdict::Clean)));
            if std::mem::take(&mut cold) && step == whole && verdict == Verdict::Clean && truth >= LEVEL {
                return true;
            }
            policy.hear(heard, morning.plus_ms((clock * 1e3) as i64), player.chance(step));
        }
        if policy.is_done_today() {
            story.declared.push(player.chance(whole));
            break;
        }
        clock = ends + REST_SECONDS;
        player.rest();
    }
    false
}

impl Story {
    fn take_in(&mut self, truth: f64, verdict: Verdict) {
        self.repetitions += 1;
        self.missed += u32::from(verdict == Verdict::NotYet);
        self.overdone += u32::from(truth >= LEVEL);
    }
}
