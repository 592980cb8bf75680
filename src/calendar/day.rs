//! A player's days: what practice belongs together, and whether a night lies between.
//!
//! Wall clocks show different dates at the same time, skip an hour or have it twice, and are set. So a day of practice
//! goes by the date only where a night could have been: what follows within [`SHORTEST_NIGHT_MS`] still belongs to the
//! day, whatever the wall shows, and after [`LONGEST_DAY_MS`] another one begins.

use crate::{
    clock::{Day, Moment},
    sort,
};

const HOUR_MS: i64 = 3_600_000;
/// A shorter pause is no night: four hours. Chosen.
pub const SHORTEST_NIGHT_MS: i64 = 4 * HOUR_MS;
/// No day of practice is longer: 20 hours. Chosen; it matters to whoever flies west and has a date twice.
pub const LONGEST_DAY_MS: i64 = 20 * HOUR_MS;

/// The hour of the wall clock at which a player's day begins, 0..=6.
///
/// Midnight unless chosen otherwise, so that dates are those on the wall and of the performance. Practice that runs past
/// midnight is not cut by it; only who comes back to the instrument after midnight and a long pause needs a later hour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct DayStart(u8);

impl DayStart {
    /// The latest hour a day may begin at.
    pub const LATEST: u8 = 6;

    /// A day that begins at this hour; `None` where that is later than [`DayStart::LATEST`].
    pub fn at(hour: u8) -> Option<Self> {
        (hour <= DayStart::LATEST).then_some(DayStart(hour))
    }

    /// The hour, 0..=6.
    pub fn hour(self) -> u8 {
        self.0
    }

    /// The date that a moment belongs to, by the wall clock of that moment.
    pub fn date(self, moment: Moment) -> Day {
        moment.plus_ms(-i64::from(self.0) * HOUR_MS).day()
    }
}

/// What was practised between two nights.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PracticeDay {
    /// The date on which it began. Two days in a row have the same one where the player flew west.
    pub date: Day,
    /// When it was begun.
    pub began: Moment,
    /// When something was practised last, so far.
    pub last: Moment,
}

impl PracticeDay {
    /// The day that is begun at this moment.
    pub fn begun(start: DayStart, at: Moment) -> Self {
        PracticeDay { date: start.date(at), began: at, last: at }
    }

    /// Whether what is practised at `at`, later than all so far, still belongs to this day. A moment that is earlier, by a
    /// clock that was set back, belongs to it too.
    pub fn goes_on(&self, start: DayStart, at: Moment) -> bool {
        let no_night = at.ms_since(self.last) < SHORTEST_NIGHT_MS || start.date(at) == self.date;
        no_night && at.ms_since(self.began) < LONGEST_DAY_MS
    }
}

/// The days of practice, the earliest first, from all moments in which something was practised, in any order.
pub fn practice_days(start: DayStart, practised: impl IntoIterator<Item = Moment>) -> Vec<PracticeDay> {
    let mut practised: Vec<Moment> = practised.into_iter().collect();
    sort::by_key(&mut practised, |at| *at);
    let mut days: Vec<PracticeDay> = Vec::new();
    for at in practised {
        match days.last_mut() {
            Some(day) if day.goes_on(start, at) => day.last = at,
            _ => days.push(PracticeDay::begun(start, at)),
        }
    }
    days
}
