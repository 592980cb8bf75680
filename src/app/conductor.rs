//! Keeps the rounds of a step going: clicks on the audio clock, one round after the other, and
//! where the pulse is at any moment.

use super::device::audio::{AHEAD, Audio, Scheduled};
use crate::{
    method::{Snippet, Step},
    pulse::{Click, Phase, Round},
};
use std::{collections::VecDeque, rc::Rc};

/// A round that is started by a tap begins this many seconds after it.
const LEAD: f64 = 0.15;
/// A page that comes back later than this many seconds after the end of its round begins anew.
const SLEPT: f64 = 1.0;

/// A round that is going on or comes next.
struct Going {
    round: Round,
    /// When it began, on the audio clock.
    began: f64,
    /// Up to where clicks have been handed over, in seconds of the round.
    scheduled_to: f64,
}

impl Going {
    fn end(&self) -> f64 {
        self.began + self.round.total()
    }
}

/// The pulse of one snippet while it is practised.
pub struct Conductor {
    audio: Rc<Audio>,
    on_audio_clock: bool,
    snippet: Rc<Snippet>,
    click: Click,
    step: Step,
    /// The round that is played and, when its end is near, the one after it.
    rounds: VecDeque<Going>,
    scheduled: Vec<Scheduled>,
}

impl Conductor {
    /// Begins with the count-in of `step`.
    pub fn new(audio: Rc<Audio>, snippet: Rc<Snippet>, step: Step, click: Click) -> Self {
        let (on_audio_clock, at) = (audio.is_running(), audio.now() + LEAD);
        let (rounds, scheduled) = (VecDeque::new(), Vec::new());
        let mut conductor = Conductor { audio, on_audio_clock, snippet, click, step, rounds, scheduled };
        conductor.begin(at);
        conductor
    }

    /// Goes on with `step`, whose verdict or advice has just changed: after the breath if the
    /// playing is over, on the next beat if not. A count-in that fits already simply goes on.
    pub fn play(&mut self, step: Step, click: Click) {
        let changed = (step, click) != (self.step, self.click);
        (self.step, self.click) = (step, click);
        let now = self.audio.now();
        let Some(going) = self.rounds.front() else { return };
        let elapsed = now - going.began;
        let before_playing = going.round.soundings().first().is_none_or(|first| elapsed < first.at);
        if elapsed >= going.round.played() {
            let end = going.end();
            if changed {
                self.rounds.truncate(1);
                self.call_off_from(end);
            }
        } else if changed || !before_playing {
            let next_beat = going.round.beats().iter().map(|beat| beat.at).find(|at| *at > elapsed + LEAD);
            self.begin(going.began + next_beat.unwrap_or(going.round.total()));
        }
    }

    /// Goes on to the next round when this one is over and hands over the clicks that come soon.
    /// To be called many times a second.
    pub fn tick(&mut self) {
        let now = self.audio.now();
        let clock_changed = self.audio.is_running() != self.on_audio_clock;
        self.on_audio_clock = self.audio.is_running();
        if clock_changed || self.rounds.front().is_none_or(|going| now > going.end() + SLEPT) {
            self.begin(now + LEAD);
        }
        if self.rounds.len() > 1 && self.rounds.front().is_some_and(|going| now >= going.end()) {
            self.rounds.pop_front();
            self.scheduled.retain(|click| click.at >= now);
        }
        if let Some(end) = self.rounds.back().map(Going::end).filter(|end| end - now < AHEAD) {
            self.rounds.push_back(self.going(end));
        }
        for going in &mut self.rounds {
            let to = (now + AHEAD - going.began).min(going.round.total());
            let due = going.round.clicks(self.click, going.scheduled_to, to);
            self.scheduled.extend(due.filter_map(|beat| self.audio.click(going.began + beat.at, beat.is_strong())));
            going.scheduled_to = going.scheduled_to.max(to);
        }
    }

    /// The shortest time, in seconds, in which what is asked can have been played.
    pub fn shortest_seconds(&self) -> f64 {
        self.rounds.front().map_or(0.0, |going| going.round.shortest_seconds())
    }

    /// Where the pulse is as the player hears it.
    pub fn phase(&self) -> Option<Phase> {
        let heard = self.audio.now() - self.audio.latency();
        self.rounds.front().map(|going| going.round.phase(heard - going.began))
    }

    fn begin(&mut self, at: f64) {
        self.call_off_from(at);
        self.rounds = VecDeque::from([self.going(at)]);
    }

    fn going(&self, began: f64) -> Going {
        Going { round: Round::new(&self.snippet, self.step), began, scheduled_to: 0.0 }
    }

    fn call_off_from(&mut self, at: f64) {
        let later = |click: &Scheduled| click.at >= at - 1e-6;
        self.scheduled.iter().filter(|click| later(click)).for_each(Scheduled::call_off);
        self.scheduled.retain(|click| !later(click));
    }
}

impl Drop for Conductor {
    fn drop(&mut self) {
        self.call_off_from(0.0);
    }
}
