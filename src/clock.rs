//! Wall time as a value: the moment something happened and the player's own day it belongs to.
//!
//! Refuses to know what time it is now: the device tells, everything else takes a [`Moment`] as an
//! argument.

use serde::{Deserialize, Serialize};
use std::{fmt, ops::Add, ops::Sub, str::FromStr};
use time::{Date, OffsetDateTime, UtcOffset, format_description::well_known::Rfc3339, macros::format_description};

/// A point in wall time together with the player's offset from UTC there, so that any device can
/// tell which day it was for the player. Ordered by the instant alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Moment {
    unix_ms: i64,
    offset_minutes: i16,
}

/// The instants RFC 3339 can print, in milliseconds since 1970: the years 0 to 9999.
const PRINTABLE: std::ops::RangeInclusive<i64> = -62_167_132_800_000..=253_402_214_400_000;
const MINUTE: i64 = 60_000;
const DAY: i64 = 24 * 60 * MINUTE;

impl Moment {
    /// A moment from milliseconds since 1970-01-01T00:00Z and the local offset in minutes east of
    /// UTC. Values that no clock shows are brought to the nearest one that can be written down.
    pub fn new(unix_ms: i64, offset_minutes: i16) -> Self {
        Moment {
            unix_ms: unix_ms.clamp(*PRINTABLE.start(), *PRINTABLE.end()),
            offset_minutes: offset_minutes.clamp(-14 * 60, 14 * 60),
        }
    }

    /// Milliseconds since 1970-01-01T00:00Z.
    pub fn unix_ms(self) -> i64 {
        self.unix_ms
    }

    /// The calendar day on the player's wall.
    pub fn day(self) -> Day {
        Day(self.local_ms().div_euclid(DAY) as i32)
    }

    /// Hour and minute on the player's wall, 24-hour.
    pub fn hour_minute(self) -> (u8, u8) {
        let minutes = self.local_ms().rem_euclid(DAY) / MINUTE;
        ((minutes / 60) as u8, (minutes % 60) as u8)
    }

    /// Milliseconds from `earlier` to here; negative when `earlier` is later.
    pub fn ms_since(self, earlier: Moment) -> i64 {
        self.unix_ms - earlier.unix_ms
    }

    /// The moment `ms` milliseconds later on the same wall.
    pub fn plus_ms(self, ms: i64) -> Moment {
        Moment::new(self.unix_ms.saturating_add(ms), self.offset_minutes)
    }

    /// The moment `minutes` later on the same wall.
    pub fn plus_minutes(self, minutes: u32) -> Moment {
        self.plus_ms(i64::from(minutes) * MINUTE)
    }

    fn local_ms(self) -> i64 {
        self.unix_ms + i64::from(self.offset_minutes) * MINUTE
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let printed = UtcOffset::from_whole_seconds(i32::from(self.offset_minutes) * 60)
            .ok()
            .zip(OffsetDateTime::from_unix_timestamp_nanos(i128::from(self.unix_ms) * 1_000_000).ok())
            .and_then(|(offset, utc)| utc.to_offset(offset).format(&Rfc3339).ok());
        f.write_str(&printed.ok_or(fmt::Error)?)
    }
}

/// A text that is no moment or no day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotATime(String);

impl fmt::Display for NotATime {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "“{}” is not a time; write it as 2026-11-25 or 2026-11-25T18:30:00+01:00", self.0)
    }
}

impl std::error::Error for NotATime {}

impl FromStr for Moment {
    type Err = NotATime;
    fn from_str(text: &str) -> Result<Self, NotATime> {
        let read = OffsetDateTime::parse(text, &Rfc3339).map_err(|_| NotATime(text.into()))?;
        let ms = (read.unix_timestamp_nanos() / 1_000_000) as i64;
        Ok(Moment::new(ms, read.offset().whole_minutes()))
    }
}

impl TryFrom<String> for Moment {
    type Error = NotATime;
    fn try_from(text: String) -> Result<Self, NotATime> {
        text.parse()
    }
}

impl From<Moment> for String {
    fn from(moment: Moment) -> String {
        moment.to_string()
    }
}

/// A calendar day, counted from 1970-01-01. Written as `2026-11-25`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Day(i32);

const YMD: &[time::format_description::BorrowedFormatItem] = format_description!("[year]-[month]-[day]");
/// Julian day number of 1970-01-01.
const EPOCH: i32 = 2_440_588;

impl Add<i32> for Day {
    type Output = Day;
    fn add(self, days: i32) -> Day {
        Day(self.0 + days)
    }
}

impl Sub for Day {
    type Output = i32;
    fn sub(self, earlier: Day) -> i32 {
        self.0 - earlier.0
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let date = Date::from_julian_day(self.0 + EPOCH).map_err(|_| fmt::Error)?;
        f.write_str(&date.format(YMD).map_err(|_| fmt::Error)?)
    }
}

impl FromStr for Day {
    type Err = NotATime;
    fn from_str(text: &str) -> Result<Self, NotATime> {
        let date = Date::parse(text, YMD).map_err(|_| NotATime(text.into()))?;
        Ok(Day(date.to_julian_day() - EPOCH))
    }
}

impl TryFrom<String> for Day {
    type Error = NotATime;
    fn try_from(text: String) -> Result<Self, NotATime> {
        text.parse()
    }
}

impl From<Day> for String {
    fn from(day: Day) -> String {
        day.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_is_written_as_the_player_read_the_clock_and_read_back_the_same() {
        let moment = Moment::new(1_764_065_802_123, 60);
        assert_eq!(moment.to_string(), "2025-11-25T11:16:42.123+01:00");
        assert_eq!(moment.to_string().parse(), Ok(moment));
        assert_eq!(moment.hour_minute(), (11, 16));
    }

    #[test]
    fn the_day_is_the_players_not_greenwichs() {
        let half_past_midnight: Moment = "2026-03-01T00:30:00+02:00".parse().expect("a moment");
        assert_eq!(half_past_midnight.day().to_string(), "2026-03-01");
        assert_eq!((half_past_midnight.day() + -1).to_string(), "2026-02-28");
    }
}
