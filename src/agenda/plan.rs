//! The plan of the minutes that the player has: blocks and pauses by the clock, made anew whenever something happens.

use crate::{
    agenda::{
        Followed,
        gain::{Offered, gains},
    },
    calendar::{
        self, Chance, Retention,
        likeness::{TOO_ALIKE, likeness},
        plan::{Bounds, MOST_SNIPPETS, Minutes, Offer, Plan, Share, Sitting, SoFar},
    },
    clock::{Day, Moment},
    journal::{SnippetId, SnippetRecord, State},
    method::{Standing, block},
    sort,
};

/// A cold try is due once its expected chance is below this. Chosen.
const DUE: Chance = Chance::new(0.75);
/// A block that has less than this to gain, in the logarithm of a chance, is not worth taking out the instrument for.
const LEAST_GAIN: f64 = 0.01;
/// What has not been touched for so many days, and has no date to come, waits until the player takes it up again. Chosen.
const LAID_ASIDE: i32 = 90;
const MINUTE_MS: i64 = 60_000;

/// One thing to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Entry {
    /// A block of a snippet, from when on; whether it begins with a cold try.
    Block(SnippetId, Moment),
    /// Away from the keys, from when until when.
    Pause(Moment, Moment),
}

/// The minutes from `now` until a time of this day that was typed as hours and minutes, 24-hour; `None` where that is no
/// time, or none that is to come.
pub fn minutes_until(typed: &str, now: Moment) -> Option<u16> {
    let (hours, minutes) = typed.split_once(':')?;
    let (hours, minutes): (u16, u16) = (hours.parse().ok()?, minutes.parse().ok()?);
    let (hour, minute) = now.hour_minute();
    let is_a_time = hours < 24 && minutes < 60;
    let from = 60 * u16::from(hour) + u16::from(minute);
    (60 * hours + minutes).checked_sub(from).filter(|left| is_a_time && *left > 0)
}

/// What to do until when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayPlan {
    /// The end of the player's minutes.
    pub until: Moment,
    /// In order.
    pub entries: Vec<Entry>,
}

impl DayPlan {
    /// The plan of the minutes that are left at `now` of those that the player has given; `None` where there are none.
    /// `followed` is what follows from each snippet's history.
    pub fn at(state: &State, followed: impl Fn(SnippetId) -> Option<Followed>, now: Moment) -> Option<DayPlan> {
        let (from, minutes) = state.time_given?;
        let until = from.plus_minutes(minutes.into());
        // A clock that was set back gives no more time than was said.
        let left = until.ms_since(now).min(i64::from(minutes) * MINUTE_MS);
        if left < MINUTE_MS {
            return None;
        }
        let mut sources = Sources::of(state, followed, now);
        sources.link_those_alike();
        let start = sources.free_from;
        let minutes = (until.ms_since(start).min(left) / MINUTE_MS).max(0) as Minutes;
        let sitting = Sitting::of(Bounds::usual(minutes), &sources.offers(), sources.so_far)?;
        Some(DayPlan { until: now.plus_ms(left), entries: entries(&sitting, &sources, start) })
    }

    /// The snippet to play now, where it is one's turn; else what to wait for is the first entry.
    pub fn turn(&self, now: Moment) -> Option<SnippetId> {
        match self.entries.first() {
            Some(Entry::Block(snippet, begins)) if begins.ms_since(now) < MINUTE_MS => Some(*snippet),
            _ => None,
        }
    }

    /// When the next block begins, if there is one.
    pub fn next_begins(&self) -> Option<Moment> {
        self.entries.iter().find_map(|entry| match entry {
            Entry::Block(_, begins) => Some(*begins),
            Entry::Pause(..) => None,
        })
    }

    /// Whether a block of the snippet is planned.
    pub fn holds(&self, snippet: SnippetId) -> bool {
        self.entries.iter().any(|entry| matches!(entry, Entry::Block(planned, _) if *planned == snippet))
    }
}

/// The blocks of the plan with the pauses between them.
fn entries(sitting: &Sitting, sources: &Sources, start: Moment) -> Vec<Entry> {
    let bounds = sitting.bounds();
    let mut entries = Vec::new();
    let mut free = start;
    for planned in Plan::of(sitting).blocks {
        let candidate = sitting.candidates()[planned.candidate];
        let begins = start.plus_minutes(planned.begins.into());
        if begins.ms_since(free) >= i64::from(bounds.pause) * MINUTE_MS {
            entries.push(Entry::Pause(free, begins));
        }
        entries.push(Entry::Block(sources.rows[candidate.snippet].id, begins));
        free = begins.plus_minutes(candidate.minutes.into());
    }
    entries
}

/// What the plan is made from.
struct Sources<'a> {
    rows: Vec<Row<'a>>,
    /// When the next block may begin: now, or after the one that is under way.
    free_from: Moment,
    so_far: SoFar,
}

/// A snippet that may have a block today.
struct Row<'a> {
    id: SnippetId,
    record: &'a SnippetRecord,
    offer: Offer,
}

impl<'a> Sources<'a> {
    fn of(state: &'a State, followed: impl Fn(SnippetId) -> Option<Followed>, now: Moment) -> Sources<'a> {
        let settings = &state.preferences.method;
        let in_work = state.snippets().filter(|(_, record)| !is_laid_aside(state, record, now));
        let all: Vec<_> = in_work.filter_map(|(id, record)| Some((id, record, followed(id)?))).collect();
        let player = calendar::Player::of(all.iter().map(|(.., followed)| &*followed.trace));
        let mut free_from = now;
        let mut rows = Vec::new();
        for (id, record, followed) in &all {
            let blocks_today = block::played_on(record.history(), now.day()).len() as u32;
            let ready_at = match block::standing(record.history(), settings, now) {
                Standing::Ready { .. } => now,
                Standing::Resting { until } => until,
                Standing::Practising { ends, .. } => {
                    free_from = free_from.max(ends);
                    ends.plus_minutes(settings.rest_minutes)
                }
                Standing::DoneToday(_) => continue,
            };
            let date = state.piece(record.piece).and_then(|piece| piece.piece.date);
            let left = settings.blocks_a_day.saturating_sub(blocks_today);
            let prior = player.expects_beside(&followed.trace);
            let expected = Retention::from_prior(&followed.trace, &prior).map(|kept| kept.at(now).mean);
            let is_due = blocks_today == 0 && expected.is_some_and(|expected| expected < DUE);
            let offered = Offered { blocks: left, minutes: settings.block_minutes, date, is_due };
            let gains = gains(followed, &prior, offered, now);
            let share = Share {
                ready_in: minutes_between(now, ready_at),
                rest: settings.rest_minutes as Minutes,
                blocks_left: left,
                like: Vec::new(),
            };
            let offer = Offer {
                share,
                minutes: settings.block_minutes as Minutes,
                gains: gains.into_iter().take_while(|gain| *gain >= LEAST_GAIN).collect(),
                is_due,
                was_practised: blocks_today > 0,
            };
            rows.push(Row { id: *id, record, offer });
        }
        keep_the_worthiest(&mut rows);
        let so_far = so_far(&rows, state, now, free_from);
        for row in &mut rows {
            let since_now = minutes_between(now, free_from);
            row.offer.share.ready_in = row.offer.share.ready_in.saturating_sub(since_now);
        }
        Sources { rows, free_from, so_far }
    }

    fn offers(&self) -> Vec<Offer> {
        self.rows.iter().map(|row| row.offer.clone()).collect()
    }

    fn link_those_alike(&mut self) {
        for one in 0..self.rows.len() {
            let passage = self.rows[one].record.snippet.passage();
            let alike = |other: &usize| likeness(passage, self.rows[*other].record.snippet.passage()) >= TOO_ALIKE;
            let like: Vec<usize> = (0..one).filter(alike).collect();
            self.rows[one].offer.share.like = like;
        }
    }
}

/// Whether the snippet is of a piece that the player has laid aside.
fn is_laid_aside(state: &State, record: &SnippetRecord, now: Moment) -> bool {
    let has_a_date = state.piece(record.piece).and_then(|piece| piece.piece.date).is_some_and(|date| date >= now.day());
    let untouched = |played: Day| now.day() - played > LAID_ASIDE;
    !has_a_date && record.last_repetition().is_some_and(|(_, last)| untouched(last.at.day()))
}

/// More snippets than a plan can weigh are left out, those with least to gain first.
fn keep_the_worthiest(rows: &mut Vec<Row>) {
    if rows.len() > MOST_SNIPPETS {
        let first = |row: &Row| row.offer.gains.first().copied().unwrap_or(0.0);
        sort::by(rows, |one, other| first(other).total_cmp(&first(one)));
        rows.truncate(MOST_SNIPPETS);
    }
}

/// What was played today before the plan begins at `free_from`.
fn so_far(rows: &[Row], state: &State, now: Moment, free_from: Moment) -> SoFar {
    let mut blocks: Vec<(Moment, Moment, SnippetId)> = Vec::new();
    for (id, record) in state.snippets() {
        let of_day = block::played_on(record.history(), now.day());
        blocks.extend(of_day.into_iter().map(|(began, ended)| (began, ended, id)));
    }
    sort::by_key(&mut blocks, |(began, ..)| *began);
    let pause = i64::from(Bounds::usual(0).pause) * MINUTE_MS;
    let (mut running, mut has_paused) = (0, false);
    let mut before: Option<Moment> = None;
    for (began, ended, _) in &blocks {
        if before.is_some_and(|before| began.ms_since(before) >= pause) {
            (running, has_paused) = (0, true);
        }
        running += minutes_between(*began, *ended);
        before = Some(*ended);
    }
    let last = blocks.last().and_then(|(_, ended, id)| {
        let snippet = rows.iter().position(|row| row.id == *id)?;
        Some((snippet, minutes_between(*ended, free_from)))
    });
    SoFar { last, running, has_paused }
}

/// Whole minutes, the last one begun counted; none where `to` is not later.
fn minutes_between(from: Moment, to: Moment) -> Minutes {
    let minutes = (to.ms_since(from).max(0) + MINUTE_MS - 1) / MINUTE_MS;
    Minutes::try_from(minutes).unwrap_or(Minutes::MAX)
}
