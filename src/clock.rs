//! Wall time as a value: the moment something happened and the player's own day it belongs to.

use std::{fmt, ops::Add, ops::Sub, str::FromStr};
use time::{Date, Month};

/// A point in wall time together with the player's offset from UTC there, so that any device can
/// tell which day it was for the player. Ordered by the instant alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    unix_ms: i64,
    offset_minutes: i16,
}

/// The instants RFC 3339 can print, in milliseconds since 1970: the years 0 to 9999.
const PRINTABLE: std::ops::RangeInclusive<i64> = -62_167_132_800_000..=253_402_214_400_000;
const MINUTE: i64 = 60_000;
const DAY: i64 = 24 * 60 * MINUTE;

impl Moment {
    /// A moment from milliseconds since 1970-01-01T00:00Z and the local offset in minutes east of UTC. Values that no
    /// clock shows are clamped to what can be written down.
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

    /// Minutes east of UTC on the player's wall.
    pub fn offset_minutes(self) -> i16 {
        self.offset_minutes
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

/// In the format of RFC 3339: `2026-11-25T18:30:00.5+01:00`, a `Z` for no offset, no more decimals than needed.
impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let (seconds, ms) = (self.local_ms().rem_euclid(DAY) / 1000, self.local_ms().rem_euclid(1000));
        write!(f, "{}T{:02}:{:02}:{:02}", self.day(), seconds / 3600, seconds / 60 % 60, seconds % 60)?;
        if ms != 0 {
            write!(f, ".{}", format!("{ms:03}").trim_end_matches('0'))?;
        }
        if self.offset_minutes == 0 {
            return f.write_str("Z");
        }
        let (sign, east) = (if self.offset_minutes < 0 { '-' } else { '+' }, self.offset_minutes.abs());
        write!(f, "{sign}{:02}:{:02}", east / 60, east % 60)
    }
}

/// A text that is neither a moment nor a day.
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
        moment(text).ok_or_else(|| NotATime(text.into()))
    }
}

/// The `date-time` of RFC 3339, section 5.6.
fn moment(text: &str) -> Option<Moment> {
    let (date, time) = text.split_once(['T', 't', ' '])?;
    let (clock, offset) = time.split_at(time.find(['Z', 'z', '+', '-'])?);
    let (ms, east) = (ms_of_day(clock)?, minutes_east(offset)?);
    Some(Moment::new(i64::from(day(date)?.0) * DAY + ms - i64::from(east) * MINUTE, east))
}

/// The time of day in ms; what is finer is cut off, and a leap second is the end of the one before it.
fn ms_of_day(clock: &str) -> Option<i64> {
    let (clock, decimals) = clock.split_once('.').unwrap_or((clock, "0"));
    let [hour, minute, second] = numbers(clock, ':', [2, 2, 2])?;
    let [thousandths] = numbers(&format!("{decimals:0<3.3}"), ':', [3])?;
    let in_range = hour < 24 && minute < 60 && second <= 60;
    let is_number = !decimals.is_empty() && decimals.bytes().all(|byte| byte.is_ascii_digit());
    let in_minute = if second == 60 { 59_999 } else { second * 1000 + thousandths };
    (in_range && is_number).then(|| i64::from(hour * 60 + minute) * MINUTE + i64::from(in_minute))
}

fn minutes_east(offset: &str) -> Option<i16> {
    if offset.eq_ignore_ascii_case("Z") {
        return Some(0);
    }
    let [hours, minutes] =
        numbers(&offset[1..], ':', [2, 2]).filter(|[hours, minutes]| *hours < 24 && *minutes < 60)?;
    let minutes = (hours * 60 + minutes) as i16;
    Some(if offset.starts_with('-') { -minutes } else { minutes })
}

/// Numbers of so many digits each, separated by `mark`.
fn numbers<const N: usize>(text: &str, mark: char, digits: [usize; N]) -> Option<[i32; N]> {
    let mut parts = text.split(mark);
    let mut numbers = [0; N];
    for (number, digits) in numbers.iter_mut().zip(digits) {
        let part =
            parts.next().filter(|part| part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit()))?;
        *number = part.parse().ok()?;
    }
    parts.next().is_none().then_some(numbers)
}

/// A calendar day, counted from 1970-01-01. Written as `2026-11-25`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(i32);

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
        let (year, month, day) = Date::from_julian_day(self.0 + EPOCH).map_err(|_| fmt::Error)?.to_calendar_date();
        write!(f, "{year:04}-{:02}-{day:02}", u8::from(month))
    }
}

impl FromStr for Day {
    type Err = NotATime;
    fn from_str(text: &str) -> Result<Self, NotATime> {
        day(text).ok_or_else(|| NotATime(text.into()))
    }
}

/// The `full-date` of RFC 3339, section 5.6.
fn day(text: &str) -> Option<Day> {
    let [year, month, day] = numbers(text, '-', [4, 2, 2])?;
    let month = Month::try_from(month as u8).ok()?;
    Date::from_calendar_date(year, month, day as u8).ok().map(|date| Day(date.to_julian_day() - EPOCH))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use time::{OffsetDateTime, UtcOffset, format_description::well_known::Rfc3339};

    proptest! {
        #[test]
        fn moments_are_written_and_read_as_rfc_3339(unix_ms in PRINTABLE, minutes in -14_i16 * 60..=14 * 60) {
            let offset = UtcOffset::from_whole_seconds(i32::from(minutes) * 60).expect("an offset");
            let utc = OffsetDateTime::from_unix_timestamp_nanos(i128::from(unix_ms) * 1_000_000).expect("a time");
            let written = utc.to_offset(offset).format(&Rfc3339).expect("a text");
            let moment = Moment::new(unix_ms, minutes);
            prop_assert_eq!(moment.to_string(), &*written);
            prop_assert_eq!(written.parse(), Ok(moment));
        }

        #[test]
        fn what_is_no_time_is_refused(text in "[0-9]{4}-[01][0-9]-[0-3][0-9]T[0-2][0-9]:[0-6][0-9]:[0-5][0-9](\\.[0-9]{0,12})?(Z|[+-][0-2][0-9]:[0-6][0-9])?") {
            let read = OffsetDateTime::parse(&text, &Rfc3339).ok().map(|read| read.offset().whole_minutes());
            let ours = text.parse::<Moment>().ok();
            prop_assert_eq!(ours.is_some(), read.is_some(), "{}", text);
            let within = read.filter(|minutes| minutes.abs() <= 14 * 60);
            prop_assert!(within.is_none_or(|minutes| ours.is_some_and(|moment| moment.offset_minutes == minutes)));
        }
    }

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
