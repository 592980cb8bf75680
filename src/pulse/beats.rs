//! The beats of a round of practice, each on its place in its bar.

use crate::music::{Bar, BeatUnit, Meter, Passage, Quarters};

/// A beat of the pulse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beat {
    /// Seconds from the start of the round.
    pub at: f64,
    /// 1 on the bar's first beat; a pickup bar goes on from what is missing.
    pub number: u32,
    /// Whether a group of an additive meter begins: what is counted is strong there.
    pub opens_group: bool,
    /// Before the first onset that is played.
    pub count_in: bool,
}

impl Beat {
    /// Whether the bar begins here: the tallest mark.
    pub fn opens_bar(self) -> bool {
        self.number == 1
    }

    /// Whether the click is accented: where the bar or a group of its meter begins.
    pub fn is_strong(self) -> bool {
        self.opens_bar() || self.opens_group
    }
}

/// A stretch of one bar, real or only counted, in quarters.
#[derive(Clone, Copy)]
struct Stretch {
    /// Where beat 1 lies or, in a pickup bar, would lie.
    origin: Quarters,
    from: Quarters,
    to: Quarters,
    beat: Quarters,
    meter: Meter,
}

impl Stretch {
    fn places(self) -> impl Iterator<Item = BeatPlace> {
        let nth = move |n: u32| {
            let from_origin = self.beat * i64::from(n);
            let opens_group = self.meter.group_starts().any(|start| start == from_origin);
            BeatPlace { at: self.origin + from_origin, number: n + 1, opens_group }
        };
        let skipped = ((self.from - self.origin) / self.beat).ceil().to_integer() as u32;
        (skipped..).map(nth).take_while(move |place| place.at < self.to)
    }
}

/// A beat's place in the music.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeatPlace {
    /// From the start of the passage's first bar; negative before it.
    pub at: Quarters,
    /// 1 on the bar's first beat.
    pub number: u32,
    /// Whether a group of an additive meter begins.
    pub opens_group: bool,
}

/// The bars of a passage seen as a pulse that goes on before and behind what is played.
pub struct BeatGrid<'a> {
    passage: &'a Passage,
    unit: BeatUnit,
}

impl<'a> BeatGrid<'a> {
    /// The grid of `passage` at a tempo that counts `unit`.
    pub fn new(passage: &'a Passage, unit: BeatUnit) -> Self {
        BeatGrid { passage, unit }
    }

    /// Where the bar around `at` begins, counting what is missing of a pickup bar.
    pub fn bar_origin(&self, at: Quarters) -> Quarters {
        let bar = self.passage.bar_at(at);
        bar.start - missing(bar)
    }

    /// Where the bar around `at` ends when it is filled up to its meter: the last bar of a piece
    /// with a pickup is short only on paper.
    pub fn bar_end(&self, at: Quarters) -> Quarters {
        let bar = self.passage.bar_at(at);
        (bar.start + bar.length).max(bar.start - missing(bar) + bar.meter.bar())
    }

    /// The length of a full bar in the meter around `at`.
    pub fn full_bar(&self, at: Quarters) -> Quarters {
        self.passage.bar_at(at).meter.bar()
    }

    /// The beat around `at`.
    pub fn beat(&self, at: Quarters) -> Quarters {
        self.beat_of(self.passage.bar_at(at))
    }

    /// All beats of `start..end`. The bars from the one around `first` to the one around `last` are
    /// those of the passage; before and behind them the pulse goes on in their meters, in full bars.
    /// `start` is a whole number of bars before the bar of `first`. In a bar that whole beats do not
    /// fill, the last beat is short.
    pub fn beats(&self, start: Quarters, first: Quarters, last: Quarters, end: Quarters) -> Vec<BeatPlace> {
        let (entry, entered) = (self.passage.bar_at(first), self.bar_origin(first));
        let left = self.passage.bar_at(last);
        let behind = self.bar_end(last);
        let counted = |from, to, bar: &Bar| full_bars(from, to, bar.meter, self.beat_of(bar));
        let played = self.passage.bars().iter().filter(|bar| (entry.start..=left.start).contains(&bar.start));
        let played = played.map(|bar| Stretch {
            origin: bar.start - missing(bar),
            from: if bar.start == entry.start { entered } else { bar.start },
            to: if bar.start == left.start { behind } else { bar.start + bar.length },
            beat: self.beat_of(bar),
            meter: bar.meter,
        });
        counted(start, entered, entry)
            .chain(played)
            .chain(counted(behind, end, left))
            .flat_map(Stretch::places)
            .filter(|place| place.at < end)
            .collect()
    }

    fn beat_of(&self, bar: &Bar) -> Quarters {
        bar.meter.felt_in(self.unit).quarters()
    }
}

/// A bar cannot miss more than all of itself.
fn missing(bar: &Bar) -> Quarters {
    bar.missing.min(bar.meter.bar())
}

fn full_bars(from: Quarters, to: Quarters, meter: Meter, beat: Quarters) -> impl Iterator<Item = Stretch> {
    let bar = meter.bar();
    (0..).map(move |n| from + bar * n).take_while(move |origin| *origin < to).map(move |origin| Stretch {
        origin,
        from: origin,
        to: (origin + bar).min(to),
        beat,
        meter,
    })
}
