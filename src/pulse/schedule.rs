//! When which click sounds: the rounds of a step, one after the other, handed over a little ahead of time to
//! a clock that plays them.

use crate::{
    method::{Snippet, Step},
    pulse::{Click, Phase, Round},
};
use std::{collections::VecDeque, rc::Rc};

/// Clicks are handed over this many seconds ahead: the page may be busy for as long.
pub const AHEAD: f64 = 0.4;
/// A round that is started by a tap begins this many seconds after it.
const LEAD: f64 = 0.15;
/// A page that comes back later than this many seconds after the end of its round begins again.
const SLEPT: f64 = 1.0;
/// Two instants closer than this, in seconds, are one; far below a sample.
const INSTANT: f64 = 1e-6;

/// A clock that clicks are handed over to. Its seconds count from an arbitrary start; where they jump back,
/// it has become another clock, and nothing that was handed over sounds any more.
pub trait Clicks {
    /// A click that has been handed over.
    type Handle;

    /// Seconds on the clock.
    fn now(&self) -> f64;

    /// Hands over a click for `at` seconds; `None` where nothing sounds.
    fn click_at(&self, at: f64, accent: bool) -> Option<Self::Handle>;

    /// Cancels a click that has not begun.
    fn call_off(&self, click: &Self::Handle);
}

/// The clicks that have been handed over to a clock, with the seconds at which they sound. They are cancelled when this
/// is dropped.
pub struct HandedOver<C: Clicks> {
    clock: C,
    /// What the clock showed when it was last looked at.
    seen: f64,
    clicks: Vec<(f64, C::Handle)>,
}

impl<C: Clicks> HandedOver<C> {
    /// Nothing has been handed over to `clock` yet.
    pub fn new(clock: C) -> Self {
        HandedOver { seen: clock.now(), clock, clicks: Vec::new() }
    }

    /// Seconds on the clock.
    pub fn now(&self) -> f64 {
        self.clock.now()
    }

    /// Whether the clock has become another one since this was last asked.
    pub fn has_another_clock(&mut self) -> bool {
        let before = std::mem::replace(&mut self.seen, self.clock.now());
        self.seen < before
    }

    /// Hands over a click.
    pub fn hand_over(&mut self, at: f64, accent: bool) {
        self.clicks.extend(self.clock.click_at(at, accent).map(|click| (at, click)));
    }

    /// Cancels every click from `from` seconds on.
    pub fn call_off_from(&mut self, from: f64) {
        let (kept, called_off) = std::mem::take(&mut self.clicks).into_iter().partition(|(at, _)| *at < from - INSTANT);
        self.clicks = kept;
        let called_off: Vec<(f64, C::Handle)> = called_off;
        called_off.iter().for_each(|(_, click)| self.clock.call_off(click));
    }

    /// Forgets the clicks that have sounded.
    pub fn forget_before(&mut self, now: f64) {
        self.clicks.retain(|(at, _)| *at >= now);
    }
}

impl<C: Clicks> Drop for HandedOver<C> {
    fn drop(&mut self) {
        self.call_off_from(f64::NEG_INFINITY);
    }
}

/// A round that is going on or comes next.
struct Going {
    round: Round,
    /// When it began, on the clock.
    began: f64,
    /// Up to where clicks have been handed over, in seconds of the round.
    handed_to: f64,
}

impl Going {
    fn end(&self) -> f64 {
        self.began + self.round.total()
    }
}

/// The pulse of one snippet while it is practised.
pub struct Schedule<C: Clicks> {
    clicks: HandedOver<C>,
    snippet: Rc<Snippet>,
    click: Click,
    step: Step,
    /// The round that is played and, when its end is near, the one after it.
    rounds: VecDeque<Going>,
}

impl<C: Clicks> Schedule<C> {
    /// Begins with the count-in of `step`.
    pub fn new(clock: C, snippet: Rc<Snippet>, step: Step, click: Click) -> Self {
        let (clicks, rounds) = (HandedOver::new(clock), VecDeque::new());
        let mut schedule = Schedule { clicks, snippet, click, step, rounds };
        schedule.begin(schedule.clicks.now() + LEAD);
        schedule
    }

    /// Goes on with `step`, whose verdict or advice has just changed: after the breath if the playing is over, on the
    /// next beat if not. A count-in that already fits continues.
    pub fn play(&mut self, step: Step, click: Click) {
        let changed = (step, click) != (self.step, self.click);
        (self.step, self.click) = (step, click);
        let now = self.clicks.now();
        let Some(going) = self.rounds.front() else { return };
        let elapsed = now - going.began;
        let before_playing = going.round.soundings().first().is_none_or(|first| elapsed < first.at);
        if elapsed >= going.round.played() {
            let end = going.end();
            if changed {
                self.rounds.truncate(1);
                self.clicks.call_off_from(end);
            }
        } else if changed || !before_playing {
            let next_beat = going.round.beats().iter().map(|beat| beat.at).find(|at| *at > elapsed + LEAD);
            self.begin(going.began + next_beat.unwrap_or(going.round.total()));
        }
    }

    /// Goes on to the next round when this one is over and hands over the clicks that come soon.
    /// To be called many times a second.
    pub fn tick(&mut self) {
        let now = self.clicks.now();
        if self.clicks.has_another_clock() || self.rounds.front().is_none_or(|going| now > going.end() + SLEPT) {
            self.begin(now + LEAD);
        }
        if self.rounds.len() > 1 && self.rounds.front().is_some_and(|going| now >= going.end()) {
            self.rounds.pop_front();
            self.clicks.forget_before(now);
        }
        if let Some(end) = self.rounds.back().map(Going::end).filter(|end| end - now < AHEAD) {
            self.rounds.push_back(self.going(end));
        }
        for going in &mut self.rounds {
            let to = (now + AHEAD - going.began).min(going.round.total());
            for beat in going.round.clicks(self.click, going.handed_to, to) {
                self.clicks.hand_over(going.began + beat.at, beat.is_strong());
            }
            going.handed_to = going.handed_to.max(to);
        }
    }

    /// The shortest time, in seconds, in which what is asked can have been played.
    pub fn shortest_seconds(&self) -> f64 {
        self.rounds.front().map_or(0.0, |going| going.round.shortest_seconds())
    }

    /// Where the pulse is for a listener who hears each sound `latency` seconds after the clock.
    pub fn phase(&self, latency: f64) -> Option<Phase> {
        let heard = self.clicks.now() - latency;
        self.rounds.front().map(|going| going.round.phase(heard - going.began))
    }

    fn begin(&mut self, at: f64) {
        self.clicks.call_off_from(at);
        self.rounds = VecDeque::from([self.going(at)]);
    }

    fn going(&self, began: f64) -> Going {
        Going { round: Round::new(&self.snippet, self.step), began, handed_to: 0.0 }
    }
}
