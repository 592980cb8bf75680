//! Today: what may be practised now, what rests until when, what is done, what is left out.

use super::super::{
    desk::{DeskNow, use_desk},
    hooks::use_now,
    route::Route,
    words,
};
use crate::{
    agenda::undo,
    clock::Moment,
    journal::{Event, SnippetId, SnippetRecord, State},
    method::{Coach, Done, Reason, Standing, block},
    order,
    words::say,
};
use std::{collections::BTreeMap, rc::Rc};
use yew::prelude::*;

#[component]
pub fn Today() -> Html {
    let (desk, now) = (use_desk(), use_now());
    let state = desk.state();
    let rows = rows(&state, now);
    let beginnings = use_memo((desk.clone(), now.day()), |(desk, _)| beginnings(desk));
    if rows.is_empty() {
        return html! {
            <main class="page">
                <h1 tabindex="-1">{ say::today() }</h1>
                <p>{ say::nothing_to_practise() }</p>
                <button class="primary" onclick={Route::Pieces.on_tap()}>{ say::add_a_piece() }</button>
            </main>
        };
    }
    let (left_out, rows): (Vec<Row>, Vec<Row>) = rows.into_iter().partition(Row::is_left_out);
    let (next, others): (Vec<&Row>, Vec<&Row>) =
        rows.iter().partition(|row| Some(row.id) == rows.first().map(|first| first.id) && row.may_begin());
    html! {
        <main class="page today">
            <h1 tabindex="-1">{ say::today() }</h1>
            { for rows.is_empty().then(|| html! { <p>{ say::nothing_left_today() }</p> }) }
            { for next.into_iter().map(|row| next_up(&desk, row, &beginnings)) }
            <ul class="rows">{ for others.into_iter().map(|row| later(&state, row, &beginnings, now)) }</ul>
            { for (!left_out.is_empty()).then(|| not_today(&desk, &left_out)) }
            <p class="caution">{ say::pain() }</p>
            <button onclick={Route::Help.on_tap()}>{ say::help_heading() }</button>
        </main>
    }
}

/// A snippet as it stands today.
struct Row {
    id: SnippetId,
    standing: Standing,
    /// The day it was practised last, in days ago.
    days_since: Option<i32>,
}

impl Row {
    fn may_begin(&self) -> bool {
        matches!(self.standing, Standing::Ready { .. } | Standing::Practising { .. })
    }

    fn is_left_out(&self) -> bool {
        self.standing == Standing::DoneToday(Done::LeftOut)
    }

    /// What is under way comes first, then what has waited longest, then what is new, then what
    /// rests.
    fn rank(&self) -> (u8, i64) {
        match self.standing {
            Standing::Practising { .. } => (0, 0),
            Standing::Ready { blocks_today: 0 } => match self.days_since {
                Some(days) => (1, -i64::from(days)),
                None => (2, 0),
            },
            Standing::Ready { blocks_today } => (3, i64::from(blocks_today)),
            Standing::Resting { until } => (4, until.unix_ms()),
            Standing::DoneToday(_) => (5, 0),
        }
    }
}

fn rows(state: &State, now: Moment) -> Vec<Row> {
    let row = |(id, record): (SnippetId, &SnippetRecord)| Row {
        id,
        standing: block::standing(record.history(), &state.preferences.method, now),
        days_since: record.last_repetition().map(|(_, played)| now.day() - played.at.day()),
    };
    let mut rows: Vec<Row> = state.snippets().map(row).collect();
    order::by_key(&mut rows, Row::rank);
    rows
}

fn next_up(desk: &DeskNow, row: &Row, beginnings: &Beginnings) -> Html {
    let state = desk.state();
    let Some(record) = state.snippet(row.id) else { return html! {} };
    let word = if matches!(row.standing, Standing::Practising { .. }) { say::go_on() } else { say::practise() };
    let leave_out = desk.on_tap(Event::NotToday { snippet: row.id });
    html! {
        <section class="next" aria-label={say::next_up()}>
            <p class="of">{ piece_title(&state, record) }</p>
            <h2>{ record.snippet.name() }</h2>
            <p>{ standing_words(beginnings, row) }</p>
            <p class="ways">
                <button class="primary large" onclick={Route::Practise(row.id).on_tap()}>{ word }</button>
                <button onclick={leave_out}>{ say::not_this_one_today() }</button>
            </p>
        </section>
    }
}

fn later(state: &State, row: &Row, beginnings: &Beginnings, now: Moment) -> Html {
    let Some(record) = state.snippet(row.id) else { return html! {} };
    let side = match row.standing {
        Standing::Resting { until } => html! {
            <span class="side">{ say::rests_more(&words::countdown(until.ms_since(now))) }</span>
        },
        Standing::DoneToday(Done::GoodEnough) => html! { <span class="side">{ say::side_good_enough() }</span> },
        Standing::DoneToday(_) => html! { <span class="side">{ say::side_enough() }</span> },
        _ => html! { <span class="side">{ standing_words(beginnings, row) }</span> },
    };
    html! {
        <li>
            <a class="row" href={format!("#{}", Route::Practise(row.id))}>
                <span class="name">{ record.snippet.name() }<small>{ piece_title(state, record) }</small></span>
                { side }
            </a>
        </li>
    }
}

/// What the player has left out today, each with a tap to bring it back.
fn not_today(desk: &DeskNow, left_out: &[Row]) -> Html {
    let state = desk.state();
    let row = |row: &Row| {
        let record = state.snippet(row.id)?;
        let bring_back = {
            let (desk, id) = (desk.clone(), row.id);
            Callback::from(move |_: MouseEvent| {
                let wish = desk.state().snippet(id).and_then(|record| undo::wish(record, desk.now().day()));
                wish.into_iter().for_each(|wish| desk.take_back(wish));
            })
        };
        let label = say::bring_back_named(record.snippet.name());
        Some(html! {
            <li class="row">
                <span class="name">{ record.snippet.name() }<small>{ piece_title(&state, record) }</small></span>
                <button onclick={bring_back} aria-label={label}>{ say::bring_back() }</button>
            </li>
        })
    };
    html! {
        <section class="not-today" aria-labelledby="not-today">
            <h2 id="not-today">{ say::not_today() }</h2>
            <ul class="rows">{ for left_out.iter().filter_map(row) }</ul>
        </section>
    }
}

fn piece_title(state: &State, record: &SnippetRecord) -> String {
    state.piece(record.piece).map(|piece| piece.piece.title.clone()).unwrap_or_default()
}

/// What a block of each snippet would begin with now.
type Beginnings = BTreeMap<SnippetId, Reason>;

fn beginnings(desk: &DeskNow) -> Beginnings {
    let (state, now) = (desk.state(), desk.now());
    let begins_with = |record: &SnippetRecord| {
        let mut coach = Coach::new(Rc::clone(&record.snippet));
        record.history().iter().for_each(|happening| coach.follow(happening));
        coach.once_begun(state.preferences.method, now).advice(now).reason
    };
    state.snippets().map(|(id, record)| (id, begins_with(record))).collect()
}

fn standing_words(beginnings: &Beginnings, row: &Row) -> String {
    let begin = beginnings.get(&row.id).copied().unwrap_or(Reason::Beginning);
    words::standing(row.standing, row.days_since, begin)
}
