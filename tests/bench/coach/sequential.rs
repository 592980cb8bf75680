//! A new step whose chance does not change: the coach's decision beside what any sequential test needs that
//! errs as often.

use crate::players::dice::Dice;
use crate::wald::least_trials;
use std::rc::Rc;
use tailfirst::{
    clock::Moment,
    method::{Coach, Happening, HappeningKind, Leaving, Move, Reason, Settings, Verdict},
    music::{Hand, Meter, NoteValue, counted},
};

/// The chances between which the setting's level lies: clearly not secure, clearly secure.
pub const BAD: f64 = 0.6;
pub const GOOD: f64 = 0.9;
const PLAYERS: u64 = 20_000;

/// What the coach decides, and how soon that could be decided.
pub struct Compared {
    /// Shares of secure decisions where the chance is bad and where it is good.
    pub secure: (f64, f64),
    /// Repetitions until a decision where the chance is good, on average.
    pub repetitions: f64,
    /// The fewest that any test with these errors needs.
    pub least: f64,
}

impl Compared {
    pub fn ratio(&self) -> f64 {
        self.repetitions / self.least
    }
}

pub fn compare() -> Compared {
    let ((bad, _), (good, repetitions)) = (decide(BAD), decide(GOOD));
    Compared { secure: (bad, good), repetitions, least: least_trials(BAD, GOOD, bad, good) }
}

/// The share of new steps that are found secure, and the repetitions until that or anything else is decided.
fn decide(chance: f64) -> (f64, f64) {
    let passage = counted(1, &[Hand::Right], Meter::COMMON).expect("an onset");
    let snippet = Rc::new(crate::invented::snippet(passage, crate::invented::tempo(NoteValue::Quarter, 0, 80)));
    let (mut secure, mut repetitions) = (0, 0);
    for player in 0..PLAYERS {
        let mut dice = Dice::of(player, 9);
        let (found, after) = decision(Coach::new(Rc::clone(&snippet)), || {
            if dice.happens(chance) { Verdict::Clean } else { Verdict::NotYet }
        });
        secure += u64::from(found);
        repetitions += after;
    }
    (secure as f64 / PLAYERS as f64, repetitions as f64 / PLAYERS as f64)
}

fn decision(mut coach: Coach, mut verdict: impl FnMut() -> Verdict) -> (bool, u64) {
    let at = Moment::new(0, 0);
    let settings = Settings { block_minutes: 30, ..Settings::default() };
    coach.follow(&Happening { at, kind: HappeningKind::BlockBegan(settings) });
    let step = coach.advice(at).step;
    for repetition in 1.. {
        coach.follow(&Happening {
            at,
            kind: HappeningKind::Played { step, verdict: verdict(), cause: None, broke_at: None },
        });
        let advice = coach.advice(at);
        if advice.led_by != Move::Again {
            return (advice.reason == Reason::Leave(Leaving::WholeSecure), repetition);
        }
    }
    unreachable!("a decision comes in the end")
}
