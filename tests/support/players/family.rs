//! How players differ: what learning, tiring, sleeping and forgetting do to what they play.
//!
//! Eleven families with different assumptions. The numbers of the method were looked for with those in
//! [`Family::TUNED_ON`]. Sources say where a law comes from; the numbers in it are
//! invented unless a source is named beside them, as nothing is published for a played passage.

use super::dice::Dice;
use super::player::Element;

/// Players who learn alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// Each repetition takes away the same share of what is left to learn (Heathcote, Brown & Mewhort
    /// 2000, "The power law repealed": single learners follow an exponential).
    Exponential,
    /// The next gain is ever harder to get (Newell & Rosenbloom 1981, "Mechanisms of skill acquisition
    /// and the law of practice").
    PowerLaw,
    /// What is played wrong is learned too (the linear operators of Bush & Mosteller 1955; that wrong
    /// repetitions go with worse retention is the finding of Duke, Simmons & Cash 2009).
    ErrorsToo,
    /// Tires within a block and is better after a night (Walker et al. 2002: about 20 % faster after
    /// sleep; Rickard et al. 2008 on what tires within a session, from memory).
    TiresAndSleeps,
    /// One leap much harder than the rest, hands that are hard to join, haste that costs, and a part of
    /// each day's gain gone by the morning.
    HardLeap,
    /// Held out: an element stays as it is until it falls into place at once (Bower 1961, "Application
    /// of a model to paired-associate learning").
    AllOrNone,
    /// Held out: good and bad hours, lapses that no practice removes, and a power law.
    Uneven,
    /// Held out, and written after the numbers were settled: learning gets going slowly, so that its curve
    /// is an S (a shape as old as Thurstone 1919, "The learning curve equation", from memory), tires the
    /// player and is partly gone by the morning.
    SlowStart,
    /// As exponential, but the player's ear is wrong in 7 % of the verdicts.
    WrongEar,
    /// Held out, and written after the present numbers were fixed: each wrong repetition adds as much again to what goes wrong,
    /// however sure the element was (interference: Underwood 1957, "Interference and forgetting", from memory).
    Habits,
    /// Held out, and written before the last two of the present numbers and after all others: most of what a day brings is fast and gone by the morning,
    /// the rest is slow and stays (two processes: Smith, Ghazizadeh & Shadmehr 2006, PLoS Biology 4(6):e179, from memory).
    TwoSpeeds,
}

impl Family {
    pub const ALL: [Family; 11] = [
        Family::Exponential,
        Family::PowerLaw,
        Family::ErrorsToo,
        Family::TiresAndSleeps,
        Family::HardLeap,
        Family::AllOrNone,
        Family::Uneven,
        Family::SlowStart,
        Family::WrongEar,
        Family::Habits,
        Family::TwoSpeeds,
    ];
    /// Those to whom a wrong repetition teaches the wrong.
    pub const ERRORS_STICK: [Family; 2] = [Family::ErrorsToo, Family::Habits];
    /// Those that the numbers of the method were looked for with.
    pub const TUNED_ON: [Family; 5] =
        [Family::Exponential, Family::PowerLaw, Family::ErrorsToo, Family::TiresAndSleeps, Family::HardLeap];

    pub fn name(self) -> &'static str {
        match self {
            Family::Exponential => "exponential",
            Family::PowerLaw => "power law",
            Family::ErrorsToo => "learns errors too",
            Family::TiresAndSleeps => "tires and sleeps",
            Family::HardLeap => "hard leap",
            Family::AllOrNone => "all or none",
            Family::Uneven => "uneven hours",
            Family::SlowStart => "slow start",
            Family::WrongEar => "wrong ear",
            Family::Habits => "habits",
            Family::TwoSpeeds => "two speeds",
        }
    }

    /// One player's nature.
    pub fn nature(self, dice: &mut Dice) -> Nature {
        let plain = Nature {
            law: Law::Exponential,
            rate: dice.around(0.15, 0.3),
            // About four things can be attended to at once (Cowan 2001).
            attention: dice.between(3.0, 5.0),
            meeting: 1.0,
            leap: 1.0,
            haste: dice.between(1.5, 3.0),
            tiring: 0.0,
            asleep: 1.0,
            forgotten: 0.0,
            unevenness: 0.0,
            lapses: 0.0,
            misheard: 0.0,
        };
        match self {
            Family::Exponential => plain,
            Family::PowerLaw => {
                Nature { law: Law::Power { exponent: dice.between(1.0, 1.6) }, rate: dice.around(0.5, 0.3), ..plain }
            }
            Family::ErrorsToo => Nature { law: Law::Linear { wrong: dice.between(0.3, 0.9) }, ..plain },
            Family::TiresAndSleeps => {
                Nature { tiring: dice.between(0.005, 0.02), asleep: dice.between(0.7, 0.9), ..plain }
            }
            Family::HardLeap => Nature {
                leap: dice.between(4.0, 10.0),
                meeting: dice.between(1.5, 3.0),
                haste: dice.between(3.0, 5.0),
                forgotten: dice.between(0.1, 0.3),
                ..plain
            },
            Family::AllOrNone => Nature { law: Law::AllOrNone, ..plain },
            Family::Uneven => Nature {
                law: Law::Power { exponent: dice.between(1.0, 1.6) },
                rate: dice.around(0.5, 0.3),
                unevenness: 0.3,
                lapses: dice.between(0.01, 0.05),
                ..plain
            },
            Family::SlowStart => Nature {
                law: Law::SlowStart,
                rate: dice.around(0.25, 0.3),
                tiring: dice.between(0.002, 0.01),
                forgotten: dice.between(0.05, 0.2),
                ..plain
            },
            Family::WrongEar => Nature { misheard: 0.07, ..plain },
            Family::Habits => Nature { law: Law::Habits { wrong: dice.between(0.1, 0.3) }, ..plain },
            Family::TwoSpeeds => Nature { rate: dice.around(0.22, 0.3), forgotten: dice.between(0.35, 0.6), ..plain },
        }
    }
}

/// How a repetition changes an element.
#[derive(Clone, Copy, Debug)]
pub enum Law {
    Exponential,
    Power {
        exponent: f64,
    },
    /// Right moves the chance toward one, wrong takes some of it away: it is learned so much as well.
    Linear {
        wrong: f64,
    },
    /// Right takes a share of the hazard away, wrong adds this times the rate to it.
    Habits {
        wrong: f64,
    },
    AllOrNone,
    /// As exponential, but at a fifth of the rate at first and at the whole rate only later.
    SlowStart,
}

/// One player's way of learning.
#[derive(Clone, Copy, Debug)]
pub struct Nature {
    pub law: Law,
    /// Median rate of learning of an element, per attended repetition.
    pub rate: f64,
    /// Elements that can be attended to at once.
    pub attention: f64,
    /// Hazards of the hands' meeting, and of the hardest element, as a factor of the usual.
    pub meeting: f64,
    pub leap: f64,
    /// Power of the tempo, as a share of the target, that hazards go with.
    pub haste: f64,
    /// Growth of the hazards' logarithm with each repetition since the last rest.
    pub tiring: f64,
    /// What a night makes of a hazard, as a factor, where it was practised that day …
    pub asleep: f64,
    /// … and the share of the day's gain, on the logarithmic scale, that is gone by the morning.
    pub forgotten: f64,
    /// Standard deviation of the logarithm of all hazards from one block to the next.
    pub unevenness: f64,
    /// Chance of a miss that has nothing to do with the music.
    pub lapses: f64,
    /// Chance that a repetition is judged as the opposite of what it was.
    pub misheard: f64,
}

/// The hazard of an element that has fallen into place.
const IN_PLACE: f64 = 0.004;
/// No hazard falls lower: nobody is sure of anything.
const LEAST: f64 = 0.0005;

impl Nature {
    /// `element` was played, rightly or not, with this share of the attention.
    pub fn practised(&self, element: &mut Element, right: bool, attention: f64, dice: &mut Dice) {
        let rate = (element.rate * attention).min(0.9);
        element.taught += rate;
        let hazard = match self.law {
            Law::Exponential => element.hazard * (1.0 - rate),
            Law::Power { exponent } => element.hazard * (1.0 - rate / (1.0 + element.taught)).powf(exponent),
            Law::Linear { wrong } => {
                let sure = (-element.hazard).exp();
                let sure = if right { sure + rate * (1.0 - sure) } else { sure * (1.0 - wrong * rate) };
                -sure.max(0.05).ln()
            }
            Law::Habits { .. } if right => element.hazard * (1.0 - rate),
            Law::Habits { wrong } => element.hazard + wrong * rate,
            Law::SlowStart => element.hazard * (1.0 - rate * element.taught.clamp(0.2, 1.0)),
            Law::AllOrNone if dice.happens(rate) => IN_PLACE.min(element.hazard),
            Law::AllOrNone => element.hazard,
        };
        element.hazard = hazard.max(LEAST);
    }

    /// A night has passed over `element`.
    pub fn slept(&self, element: &mut Element) {
        let practised = element.hazard < element.this_morning;
        if practised {
            let gain = (element.hazard / element.this_morning).ln();
            element.hazard *= self.asleep * (-gain * self.forgotten).exp();
        }
        element.this_morning = element.hazard;
    }
}
