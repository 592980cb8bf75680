//! Progress: how far each snippet has come and what keeps failing. The share of clean repetitions
//! is shown, not minutes: it is what went with the next day's result (Duke, Simmons and Cash 2009).

use super::super::{desk::DeskNow, route::Route, words};
use crate::{
    clock::Moment,
    journal::{PieceRecord, SnippetRecord, State},
    method::{Cause, Coach, Verdict, What},
};
use std::rc::Rc;
use yew::prelude::*;

pub fn progress(desk: &DeskNow) -> Html {
    let now = desk.now();
    let state = desk.state();
    let pieces = state.pieces().iter().filter(|piece| !piece.snippets.is_empty());
    html! {
        <main class="page progress">
            <h1 tabindex="-1">{ "Progress" }</h1>
            {
                if pieces.clone().next().is_none() {
                    html! { <p>{ "Nothing has been practised yet." }</p> }
                } else {
                    pieces.map(|piece| piece_progress(&state, piece, now)).collect::<Html>()
                }
            }
        </main>
    }
}

fn piece_progress(state: &State, piece: &PieceRecord, now: Moment) -> Html {
    let until = piece.piece.date.map(|date| match date - now.day() {
        0 => "today".to_string(),
        days @ 1.. => format!("in {}", words::count(days.unsigned_abs() as usize, "day")),
        days => format!("{} ago", words::count(days.unsigned_abs() as usize, "day")),
    });
    let snippets = piece.snippets.iter().filter_map(|id| Some((*id, state.snippet(*id)?)));
    html! {
        <section key={piece.id.0.to_string()}>
            <h2>{ &piece.piece.title }{ for until.map(|until| html! { <small>{ until }</small> }) }</h2>
            <ul class="rows">
                {
                    for snippets.map(|(id, record)| html! {
                        <li class="row">
                            <a class="name" href={format!("#{}", Route::Practise(id))}>
                                { record.snippet.name() }<small>{ how_far(record, now) }</small>
                            </a>
                            <span class="side">{ share(record) }</span>
                        </li>
                    })
                }
            </ul>
        </section>
    }
}

/// How much of the snippet the work has reached, and what keeps failing.
fn how_far(record: &SnippetRecord, now: Moment) -> String {
    let mut coach = Coach::new(Rc::clone(&record.snippet));
    record.history().iter().for_each(|happening| coach.follow(happening));
    let step = coach.advice(now).step;
    let reached = format!(
        "{} of {}, {}",
        step.span.count(),
        words::count(record.snippet.passage().onsets().len(), "onset"),
        words::hands(step.hands).to_ascii_lowercase()
    );
    match most_named(record) {
        Some(cause) => format!("{reached} · most often {}", words::cause(cause)),
        None => reached,
    }
}

fn repetitions(record: &SnippetRecord) -> impl Iterator<Item = (Verdict, Option<Cause>)> {
    record.history().iter().filter_map(|happening| match happening.what {
        What::Played { verdict, cause, .. } => Some((verdict, cause)),
        _ => None,
    })
}

fn share(record: &SnippetRecord) -> String {
    let all = repetitions(record).count();
    let clean = repetitions(record).filter(|(verdict, _)| *verdict == Verdict::Clean).count();
    if all == 0 { "not begun".into() } else { format!("{clean} of {all} clean") }
}

fn most_named(record: &SnippetRecord) -> Option<Cause> {
    let times = |cause: &Cause| repetitions(record).filter(|(_, named)| *named == Some(*cause)).count();
    Cause::ALL.into_iter().filter(|cause| times(cause) > 0).max_by_key(times)
}
