//! A plain pulse that goes on until it is stopped: for tapping a rhythm in.

use super::device::audio::{AHEAD, Audio, Scheduled};
use crate::{
    music::{Meter, Tempo},
    pulse::{Beat, Phase, round::shown_every},
};
use std::rc::Rc;

/// The first beat comes this many seconds after the tap that starts it.
const LEAD: f64 = 0.3;

/// Beats of one meter at one tempo, a bar of count-in before the first.
pub struct Metronome {
    audio: Rc<Audio>,
    meter: Meter,
    beats_in_bar: u32,
    beat: f64,
    /// When the first beat of the count-in sounds, on the audio clock.
    began: f64,
    /// The next beat to be handed over.
    next: u32,
    scheduled: Vec<Scheduled>,
}

impl Metronome {
    /// Starts with the count-in.
    pub fn new(audio: Rc<Audio>, meter: Meter, tempo: Tempo) -> Self {
        let beat = tempo.seconds(meter.beat().quarters());
        let whole_beats = (meter.bar() / meter.beat().quarters()).ceil().to_integer();
        let began = audio.now() + LEAD;
        let beats_in_bar = u32::try_from(whole_beats).unwrap_or(1).max(1);
        Metronome { audio, meter, beats_in_bar, beat, began, next: 0, scheduled: Vec::new() }
    }

    /// Hands over the clicks that come soon. To be called many times a second.
    pub fn tick(&mut self) {
        let now = self.audio.now();
        self.scheduled.retain(|click| click.at >= now);
        while self.at(self.next) < now + AHEAD {
            let strong = self.opens_group(self.next);
            self.scheduled.extend(self.audio.click(self.at(self.next), strong));
            self.next += 1;
        }
    }

    /// Seconds from the first beat after the count-in to this moment, as the player hears it.
    pub fn seconds(&self) -> f64 {
        self.audio.now() - self.audio.latency() - self.at(self.beats_in_bar)
    }

    /// Where the pulse is as the player hears it; of fast beats no more are shown than the eye should
    /// meet.
    pub fn phase(&self) -> Phase {
        let stride = shown_every(self.beat, self.beats_in_bar);
        let marks = (self.audio.now() - self.audio.latency() - self.began) / (self.beat * f64::from(stride));
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

impl Drop for Metronome {
    fn drop(&mut self) {
        self.scheduled.iter().for_each(Scheduled::call_off);
    }
}
