//! One round of practice as a timeline: count-in, the span, a breath, and the next round follows in
//! the unbroken pulse.
//!
//! Seconds are counted from the start of the round.

use crate::{
    method::{Snippet, Step},
    music::{Onset, Quarters},
    pulse::beats::{Beat, BeatGrid},
};

/// Least count-in before the lead-in's own bar, in seconds, rounded up to whole bars; at least one
/// bar. Common practice, no source.
const COUNT_IN: f64 = 2.0;
/// Least breath after the playing, in seconds: time to judge and to tap. The method's own choice.
const BREATH: f64 = 2.0;
/// Bars longer than this are not waited for: the breath ends on a beat instead. The method's own choice.
const LONG_BAR: f64 = 4.0;
/// Longest wait for a last note, in seconds; a longer one sounds into the breath.
const LONGEST_HOLD: f64 = 2.0;
/// Nobody plays a span faster than this multiple of its tempo and calls it clean. The method's own choice.
const RUSHED: f64 = 0.8;
/// Least time between two verdicts, in seconds: the hand must leave the glass, play and come back.
/// The method's own choice.
pub const LEAST_BETWEEN: f64 = 0.35;
/// Least time between two marks that meet, in seconds: at most three a second, so that no spot of the
/// screen changes more often than WCAG 2.2, success criterion 2.3.2 (no more than three flashes in any
/// one second) allows, whatever is drawn there.
const LEAST_MARK: f64 = 1.0 / 3.0;
/// Two instants closer than this, in seconds, are one; far below a sample.
const INSTANT: f64 = 1e-9;

/// When the click is heard.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Click {
    /// On every beat.
    #[default]
    Always,
    /// On the beats before the first onset.
    CountIn,
    /// On no beat.
    Never,
}

/// An onset that the step's hands play.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sounding {
    /// Seconds from the start of the round.
    pub at: f64,
    /// Its index in the snippet.
    pub onset: usize,
}

/// Where a moment lies between two marks of the pulse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Phase {
    /// 0 on the mark before, toward 1 on the one that comes.
    pub progress: f64,
    /// The mark before.
    pub last: Beat,
    /// The mark that comes.
    pub next: Beat,
    /// The onset that was to sound last, by its index in the snippet.
    pub onset: Option<usize>,
}

impl Phase {
    /// How far the marks have come, from 0 at the edges to 1 where they meet, and the beat that they mean. Where motion is
    /// not wanted they step: with each mark nearer, together on the bar's first.
    pub fn marks(&self, still: bool) -> (f64, Beat) {
        let number = f64::from(self.last.number.max(1));
        match (still, self.last.opens_bar()) {
            (false, _) => (self.progress, self.next),
            (true, true) => (1.0, self.last),
            (true, false) => ((number - 1.0) / number, self.last),
        }
    }
}

/// The timeline of one repetition of a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    beats: Vec<Beat>,
    /// The beats that are shown; the first of the next round closes them.
    marks: Vec<Beat>,
    soundings: Vec<Sounding>,
    goal: f64,
    played: f64,
    total: f64,
}

impl Round {
    /// The round in which `step` of `snippet` is played once.
    ///
    /// The count-in is one full bar in the meter in which the first onset lies (more bars where one
    /// lasts less than two seconds) and that onset's own bar up to it. The breath fills the bar of
    /// the goal and goes on, bar by bar, until two seconds have passed since the playing ended.
    /// Where the step's hands play nothing, its whole span is waited through.
    pub fn new(snippet: &Snippet, step: Step) -> Round {
        let passage = snippet.passage();
        let tempo = snippet.tempo().at(step.bpm);
        let per_quarter = tempo.seconds(Quarters::ONE);
        let seconds = |length: Quarters| length.as_f64() * per_quarter;
        let at = |index: usize| passage.onsets()[index.min(passage.onsets().len() - 1)].at;

        let played = played_onsets(snippet, step);
        let goal = at(step.span.last());
        let entry = played.first().map_or(at(step.span.first()), |(_, onset)| onset.at);
        let rings = |(_, onset): &(_, &Onset)| seconds(onset.at) + seconds(hold(onset, step)).min(LONGEST_HOLD);
        let released = played.last().map_or(0.0, rings).max(seconds(goal));

        let grid = BeatGrid::new(passage, tempo.beat);
        let bar = grid.full_bar(entry);
        let start = grid.bar_origin(entry) - bar * ((COUNT_IN / seconds(bar) - INSTANT).ceil() as i64).max(1);
        let end = end_of_breath(&grid, goal, released, seconds);

        let since_start = |place: Quarters| seconds(place) - seconds(start);
        let as_beat = |place: crate::pulse::beats::BeatPlace| Beat {
            at: since_start(place.at),
            number: place.number,
            opens_group: place.opens_group,
            count_in: place.at < entry,
        };
        let beats: Vec<Beat> = grid.beats(start, entry, goal, end).into_iter().map(as_beat).collect();
        let total = since_start(end);
        Round {
            marks: marks(&beats, total),
            beats,
            soundings: played.iter().map(|(onset, o)| Sounding { at: since_start(o.at), onset: *onset }).collect(),
            goal: since_start(goal),
            played: released - seconds(start),
            total,
        }
    }

    /// Every beat, in order; the first is at 0.
    pub fn beats(&self) -> &[Beat] {
        &self.beats
    }

    /// The onsets to be played, in order.
    pub fn soundings(&self) -> &[Sounding] {
        &self.soundings
    }

    /// When the step's goal is to sound.
    pub fn goal(&self) -> f64 {
        self.goal
    }

    /// When the playing is over and the breath begins.
    pub fn played(&self) -> f64 {
        self.played
    }

    /// When the next round begins.
    pub fn total(&self) -> f64 {
        self.total
    }

    /// The shortest time in which the step can have been played since the last verdict, in seconds: a
    /// tap that comes sooner is a bounce. From the first onset to the last at 1.25 times the tempo,
    /// because the player need not wait for the count-in; never less than 0.35 s.
    pub fn shortest_seconds(&self) -> f64 {
        let span = self.soundings.first().zip(self.soundings.last()).map_or(0.0, |(first, last)| last.at - first.at);
        (span * RUSHED).max(LEAST_BETWEEN)
    }

    /// Where `seconds` lies in the pulse as it is shown. Marks come no more than three a second: of faster beats every
    /// second, third, … that divides the bar is shown, the bar's first among them; in an additive meter the first of
    /// each group. What lies outside the round is clamped.
    pub fn phase(&self, seconds: f64) -> Phase {
        let next = self.marks.partition_point(|mark| mark.at <= seconds).clamp(1, self.marks.len() - 1);
        let (last, next) = (self.marks[next - 1], self.marks[next]);
        let sounded = self.soundings.partition_point(|sounding| sounding.at <= seconds);
        Phase {
            progress: ((seconds - last.at) / (next.at - last.at)).clamp(0.0, 1.0),
            last,
            next,
            onset: sounded.checked_sub(1).map(|index| self.soundings[index].onset),
        }
    }

    /// The beats that click in `from..to` seconds. Adjacent windows neither lose a click nor repeat one.
    pub fn clicks(&self, click: Click, from: f64, to: f64) -> impl Iterator<Item = &Beat> {
        let wanted = move |beat: &&Beat| match click {
            Click::Always => true,
            Click::CountIn => beat.count_in,
            Click::Never => false,
        };
        let first = self.beats.partition_point(|beat| beat.at < from);
        self.beats[first..].iter().take_while(move |beat| beat.at < to).filter(wanted)
    }
}

/// The onsets of the span that the step's hands play, with their indices.
fn played_onsets(snippet: &Snippet, step: Step) -> Vec<(usize, &Onset)> {
    let onsets = step.span.of(snippet.passage().onsets()).iter();
    let hands = |onset: &Onset| onset.notes.iter().any(|note| step.hands.include(note.hand));
    (step.span.first()..).zip(onsets).filter(|(_, onset)| hands(onset)).collect()
}

/// How long the longest of the notes that are played at an onset sounds.
fn hold(onset: &Onset, step: Step) -> Quarters {
    let played = onset.notes.iter().filter(|note| step.hands.include(note.hand));
    played.map(|note| note.lasts).max().unwrap_or(Quarters::ZERO).max(Quarters::ZERO)
}

/// The bar line at which the breath ends, or the beat where bars are long.
fn end_of_breath(grid: &BeatGrid, goal: Quarters, released: f64, seconds: impl Fn(Quarters) -> f64) -> Quarters {
    let (line, bar) = (grid.bar_end(goal), grid.full_bar(goal));
    let further = if seconds(bar) > LONG_BAR { grid.beat(goal) } else { bar };
    let lacking = released + BREATH - seconds(line);
    line + further * ((lacking / seconds(further) - INSTANT).ceil() as i64).max(0)
}

/// The beats that are shown, closed by the first of the next round.
fn marks(beats: &[Beat], total: f64) -> Vec<Beat> {
    let closing = Beat { at: total, number: 1, opens_group: true, count_in: true };
    let bars = beats.chunk_by(|_, next| !next.opens_bar());
    let mut shown: Vec<Beat> = Vec::with_capacity(beats.len() + 1);
    for bar in bars {
        let apart = bar.get(1).map_or(f64::INFINITY, |second| second.at - bar[0].at);
        let stride = shown_every(apart, bar.len() as u32);
        let has_groups = stride > 1 && bar.iter().filter(|beat| beat.opens_group).nth(1).is_some();
        let is_shown =
            |beat: &&Beat| if has_groups { beat.opens_group } else { (beat.number - 1).is_multiple_of(stride) };
        for beat in bar.iter().filter(is_shown) {
            let early = shown.last().is_some_and(|last| beat.at - last.at < LEAST_MARK - INSTANT);
            if !early && (shown.is_empty() || total - beat.at >= LEAST_MARK - INSTANT) {
                shown.push(*beat);
            }
        }
    }
    shown.push(closing);
    shown
}

/// Which fraction of a bar's `count` beats, `apart` seconds apart, is shown: every nth, where n is the smallest divisor
/// of the bar that keeps the marks apart.
pub fn shown_every(apart: f64, count: u32) -> u32 {
    let divides = |stride: &u32| count.is_multiple_of(*stride) && f64::from(*stride) * apart >= LEAST_MARK - INSTANT;
    (1..count).find(divides).unwrap_or(count)
}
