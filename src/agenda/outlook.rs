//! Whether the date of a piece will be met, from what was practised so far and at the present pace.

use crate::{
    agenda::Followed,
    calendar::{
        self, Chance, Retention, Trace,
        forecast::{self, Change, Forecast, Learning, Part},
    },
    clock::{Day, Moment},
    journal::{PieceRecord, SnippetId, State},
    method::{Coach, block},
};

/// Days over which the present pace is measured: two weeks. Chosen.
const PACE_DAYS: i32 = 14;
/// What more minutes would change is asked for so many. Chosen.
pub const MORE_MINUTES: u32 = 10;
/// What practice leads to in the end, where nothing else is known. Chosen, no published value exists.
const LIMIT: Chance = Chance::new(0.95);
/// How unsure the speed of learning is, in its logarithm. Chosen, no published value exists.
const SPREAD: f64 = 0.5;

/// What is expected of a piece on its date.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlook {
    /// How many snippets have not been begun; they are not in the figures.
    pub not_begun: usize,
    /// Minutes a day at the present pace, pauses included, rounded.
    pub minutes_a_day: u32,
    /// The chance that all begun snippets are clean.
    pub whole: Chance,
    /// How many of how many are clean: so many at least and at most, four times in five.
    pub clean: (usize, usize, usize),
    /// The snippet that holds it back, and the chance of the others without it; `None` where there is only one.
    pub holds_back: Option<(SnippetId, Chance)>,
    /// The chance with [`MORE_MINUTES`] more a day.
    pub with_more_minutes: Chance,
}

impl Outlook {
    /// The outlook of a piece; `None` where it has no date to come, or nothing of it has gone well yet or was played lately.
    pub fn of(
        state: &State,
        piece: &PieceRecord,
        followed: impl Fn(SnippetId) -> Option<Followed>,
        now: Moment,
    ) -> Option<Outlook> {
        let date = piece.piece.date.filter(|date| *date > now.day())?;
        let all: Vec<_> = state.snippets().filter_map(|(id, _)| Some((id, followed(id)?))).collect();
        let player = calendar::Player::of(all.iter().map(|(_, followed)| &*followed.trace));
        let of_piece = all.iter().filter(|(id, _)| piece.snippets.contains(id));
        let (ids, parts): (Vec<SnippetId>, Vec<Part>) =
            of_piece.filter_map(|(id, followed)| Some((*id, part(followed, &player)?))).unzip();
        let minutes_a_day = pace(state, now.day());
        if parts.is_empty() || minutes_a_day == 0 {
            return None;
        }
        let outlook = forecast::Outlook { date, minutes_a_day: minutes_a_day.into(), seed: SEED };
        let more = Change::MoreMinutes(MORE_MINUTES.into());
        let others = |forecast: &Forecast| forecast.holds_back.filter(|_| parts.len() > 1);
        let (forecast, changed) = Forecast::with_changes(&parts, outlook, |forecast| {
            [more].into_iter().chain(others(forecast).map(Change::Without)).collect()
        });
        let holds_back = others(&forecast).zip(changed.get(1));
        Some(Outlook {
            not_begun: piece.snippets.len() - parts.len(),
            minutes_a_day,
            whole: forecast.whole,
            clean: (forecast.clean.0, forecast.clean.1, parts.len()),
            holds_back: holds_back.map(|(part, without)| (ids[part], without.whole)),
            with_more_minutes: changed[0].whole,
        })
    }
}

/// The same forecast each time it is looked at.
const SEED: u64 = 20;

/// A snippet on its way, once something of it went well: what is foretold is the whole.
fn part(followed: &Followed, player: &calendar::Player) -> Option<Part> {
    let mut whole = Trace::clone(&followed.trace);
    whole.practised(followed.trace.practised_at()?, Chance::new(followed.coach.whole()));
    let retention = Retention::from_prior(&whole, &player.expects_beside(&followed.trace))?;
    Some(Part { retention, learning: learning(&followed.coach) })
}

/// What a minute adds, as the coach expects it of the step that is played now.
fn learning(coach: &Coach) -> Learning {
    let (now, later) = (coach.whole(), coach.whole_after(1));
    let missing = (LIMIT.get() - now).max(f64::MIN_POSITIVE);
    Learning { a_minute: ((later - now) / missing).clamp(0.0, 0.5), spread: SPREAD, limit: LIMIT }
}

/// Minutes a day over the last two weeks, or since the first practice in them, with the pauses that belong to them.
fn pace(state: &State, today: Day) -> u32 {
    let days = (0..PACE_DAYS).map(|back| today + -back);
    let minutes: Vec<f64> = days.map(|day| played_minutes(state, day)).collect();
    let since = minutes.iter().rposition(|minutes| *minutes > 0.0).map_or(0, |first| first + 1);
    let played: f64 = minutes.iter().sum::<f64>() / since.max(1) as f64;
    (played / forecast::PLAYED).round() as u32
}

fn played_minutes(state: &State, day: Day) -> f64 {
    let blocks = state.snippets().flat_map(|(_, record)| block::played_on(record.history(), day));
    blocks.map(|(began, ended)| ended.ms_since(began).max(0) as f64 / 60_000.0).sum()
}
