//! A plain pulse that goes on until it is stopped: for tapping a rhythm in.

use crate::{
    music::{Meter, Tempo},
    pulse::{
        Beat, Phase,
        round::shown_every,
        schedule::{AHEAD, Clicks, HandedOver},
    },
};

/// The first beat comes this many seconds after the tap that starts it.
const LEAD: f64 = 0.3;

/// Beats of one meter at one tempo, a bar of count-in before the first.
pub struct Metronome<C: Clicks> {
    clicks: HandedOver<C>,
    meter: Meter,
    beats_in_bar: u32,
    /// Seconds of a beat.
    beat: f64,
    /// When the first beat of the count-in sounds, on the clock.
    began: f64,
    /// The next beat to be handed over.
    next: u32,
}

impl<C: Clicks> Metronome<C> {
    /// Starts with the count-in.
    pub fn new(clock: C, meter: Meter, tempo: Tempo) -> Self {
        let beat = tempo.seconds(meter.beat().quarters());
        let whole_beats = (meter.bar() / meter.beat().quarters()).ceil().to_integer();
        let began = clock.now() + LEAD;
        let beats_in_bar = u32::try_from(whole_beats).unwrap_or(1).max(1);
        Metronome { clicks: HandedOver::new(clock), meter, beats_in_bar, beat, began, next: 0 }
    }

    /// Hands over the clicks that come soon; on another clock the count-in begins again. To be called many times a
    /// second.
    pub fn tick(&mut self) {
        let now = self.clicks.now();
        if self.clicks.has_another_clock() {
            (self.began, self.next) = (now + LEAD, 0);
        }
        self.clicks.forget_before(now);
        while self.at(self.next) < now + AHEAD {
            self.clicks.hand_over(self.at(self.next), self.opens_group(self.next));
            self.next += 1;
        }
    }

    /// Seconds from the first beat after the count-in to this moment, for a listener who hears each sound `latency`
    /// seconds after the clock.
    pub fn seconds(&self, latency: f64) -> f64 {
        self.clicks.now() - latency - self.at(self.beats_in_bar)
    }

    /// Where the pulse is for the same listener; fast beats are thinned out for the eye.
    pub fn phase(&self, latency: f64) -> Phase {
        let stride = shown_every(self.beat, self.beats_in_bar);
        let marks = (self.clicks.now() - latency - self.began) / (self.beat * f64::from(stride));
        let marks = marks.max(0.0);
        let mark = |mark: u32| {
            let index = mark * stride;
            let (number, count_in) = (index % self.beats_in_bar + 1, index < self.beats_in_bar);
            Beat { at: self.beat * f64::from(index), number, opens_group: self.opens_group(index), count_in }
        };
        Phase { progress: marks.fract(), last: mark(marks as u32), next: mark(marks as u32 + 1), onset: None }
    }

    /// Whether the bar or a group of its meter begins with this beat.
    fn opens_group(&self, beat: u32) -> bool {
        let at = self.meter.beat().quarters() * i64::from(beat % self.beats_in_bar);
        self.meter.group_starts().any(|start| start == at)
    }

    fn at(&self, beat: u32) -> f64 {
        self.began + self.beat * f64::from(beat)
    }
}
