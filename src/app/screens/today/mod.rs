//! Today: what to do in the minutes there are, what may be practised now, what rests until when, what is done, what is left
//! out.

mod given;
mod planned;

use crate::{
    agenda::{self, DayPlan, today::SnippetToday, undo},
    app::{
        components::export_reminder::ExportReminder,
        desk::{DeskNow, use_desk},
        hooks::{use_now, use_plan},
        route::Route,
        words,
    },
    clock::Moment,
    journal::{EntryKind, SnippetRecord, State},
    method::{Coach, Done, Reason, Standing},
    words::say,
};
use given::Given;
use std::rc::Rc;
use yew::prelude::*;

#[component]
pub fn Today() -> Html {
    let (desk, now) = (use_desk(), use_now());
    let state = desk.state();
    let plan = use_plan(&desk, now);
    let today = agenda::Today::at(&state, now);
    if today.has_nothing() {
        return html! {
            <main class="page">
                <h1 tabindex="-1">{ say::today() }</h1>
                <p>{ say::nothing_to_practise() }</p>
                <button class="primary" onclick={Route::Pieces.on_tap()}>{ say::add_a_piece() }</button>
            </main>
        };
    }
    let given = plan.as_ref().as_ref().and(state.time_given).map(|(_, minutes)| minutes);
    let nothing_left = today.next.is_none() && today.others.is_empty();
    html! {
        <main class="page today">
            <h1 tabindex="-1">{ say::today() }</h1>
            { for nothing_left.then(|| html! { <p>{ say::nothing_left_today() }</p> }) }
            <Given {now} {given} />
            {
                match &*plan {
                    Some(plan) => with_plan(&desk, &today, plan, now),
                    None => html! {
                        <>
                            { for today.next.iter().map(|row| next_up(&desk, row, now)) }
                            <ul class="rows">{ for today.others.iter().map(|row| later(&state, row, now)) }</ul>
                        </>
                    },
                }
            }
            { for (!today.left_out.is_empty()).then(|| not_today(&desk, &today.left_out)) }
            <ExportReminder />
            <p class="caution">{ say::pain() }</p>
            <p><button onclick={Route::Help.on_tap()}>{ say::help_heading() }</button></p>
        </main>
    }
}

/// What the plan has for now, what it has later, and what is not in it.
fn with_plan(desk: &DeskNow, today: &agenda::Today, plan: &DayPlan, now: Moment) -> Html {
    let card = today.now(plan, now);
    let unplanned = today.rows().filter(|row| !plan.holds(row.id) && card.is_none_or(|card| card.id != row.id));
    let mut unplanned = unplanned.peekable();
    html! {
        <>
            { card.map_or_else(|| planned::wait(plan), |row| next_up(desk, row, now)) }
            { planned::rows(desk, plan, card.map(|row| row.id)) }
            {
                for unplanned.peek().is_some().then(|| html! {
                    <section aria-labelledby="not-planned">
                        <h2 id="not-planned">{ say::not_in_these_minutes() }</h2>
                        <ul class="rows">{ for unplanned.map(|row| later(&desk.state(), row, now)) }</ul>
                    </section>
                })
            }
        </>
    }
}

fn next_up(desk: &DeskNow, row: &SnippetToday, now: Moment) -> Html {
    let state = desk.state();
    let Some(record) = state.snippet(row.id) else { return html! {} };
    let word = if matches!(row.standing, Standing::Practising { .. }) { say::go_on() } else { say::practise() };
    let leave_out = desk.on_tap(EntryKind::NotToday { snippet: row.id });
    html! {
        <section class="next" aria-label={say::next_up()}>
            <p class="of">{ piece_title(&state, record) }</p>
            <h2>{ record.snippet.name() }</h2>
            <p>{ standing_words(row, Some(begins_with(desk, row, now)), now) }</p>
            <p class="ways">
                <button class="primary large" onclick={Route::Practise(row.id).on_tap()}>{ word }</button>
                <button onclick={leave_out}>{ say::not_this_one_today() }</button>
            </p>
        </section>
    }
}

fn later(state: &State, row: &SnippetToday, now: Moment) -> Html {
    let Some(record) = state.snippet(row.id) else { return html! {} };
    let side = match row.standing {
        Standing::Resting { until } => html! {
            <span class="side">{ say::rests_more(&words::countdown(until.ms_since(now))) }</span>
        },
        Standing::DoneToday(Done::GoodEnough) => html! { <span class="side">{ say::side_good_enough() }</span> },
        Standing::DoneToday(_) => html! { <span class="side">{ say::side_enough() }</span> },
        _ => html! { <span class="side">{ standing_words(row, None, now) }</span> },
    };
    html! {
        <li>
            <a class="row" href={Route::Practise(row.id).href()}>
                <span class="name">{ record.snippet.name() }<small>{ piece_title(state, record) }</small></span>
                { side }
            </a>
        </li>
    }
}

/// What the player has left out today, each with a tap to bring it back.
fn not_today(desk: &DeskNow, left_out: &[SnippetToday]) -> Html {
    let state = desk.state();
    let row = |row: &SnippetToday| {
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

/// How the snippet stands, with what a block of it would `begin` with where that is to be told.
fn standing_words(row: &SnippetToday, begin: Option<Reason>, now: Moment) -> String {
    words::standing(row.standing, row.days_since, begin, now)
}

/// What a block of the snippet would begin with now. The coach follows the whole history of the snippet for it, so it is
/// asked about the one snippet that comes next and not about all.
fn begins_with(desk: &DeskNow, row: &SnippetToday, now: Moment) -> Reason {
    let settings = desk.state().preferences.method;
    let begins = |coach: Rc<Coach>| coach.once_begun(settings, now).advice(now).reason;
    desk.coach(row.id).map_or(Reason::Beginning, begins)
}
