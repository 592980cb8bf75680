//! Progress: how far each snippet has come and what keeps failing. The share of clean repetitions
//! is shown, not minutes: it is what went with the next day's result (Duke, Simmons and Cash 2009).

use crate::{
    agenda::Outlook,
    app::{
        desk::DeskNow,
        route::Route,
        words::{self, say},
    },
    clock::Moment,
    journal::{PieceRecord, SnippetId, SnippetRecord, State},
    method::Tally,
};
use yew::prelude::*;

pub fn progress(desk: &DeskNow) -> Html {
    let now = desk.now();
    let state = desk.state();
    let pieces = state.pieces().iter().filter(|piece| !piece.snippets.is_empty());
    html! {
        <main class="page progress">
            <h1 tabindex="-1">{ say::progress_heading() }</h1>
            {
                if pieces.clone().next().is_none() {
                    html! { <p>{ say::nothing_practised_yet() }</p> }
                } else {
                    pieces.map(|piece| piece_progress(desk, &state, piece, now)).collect::<Html>()
                }
            }
        </main>
    }
}

fn piece_progress(desk: &DeskNow, state: &State, piece: &PieceRecord, now: Moment) -> Html {
    let until = piece.piece.date.map(|date| match date - now.day() {
        0 => say::date_is_today().to_string(),
        days @ 1.. => say::date_is_in(days.unsigned_abs().into()),
        days => say::date_was(days.unsigned_abs().into()),
    });
    let name = |id| state.snippet(id).map(|record| record.snippet.name().to_string()).unwrap_or_default();
    let outlook = Outlook::of(state, piece, |id| desk.followed(id), now).map(|outlook| words::outlook(&outlook, name));
    let snippets = piece.snippets.iter().filter_map(|id| Some((*id, state.snippet(*id)?)));
    html! {
        <section key={piece.id.0.to_string()}>
            <h2>{ &piece.piece.title }{ for until.map(|until| html! { <small>{ until }</small> }) }</h2>
            { for outlook.map(|outlook| html! { <p class="outlook">{ outlook }</p> }) }
            <ul class="rows">{ for snippets.map(|(id, record)| snippet_progress(desk, id, record)) }</ul>
        </section>
    }
}

fn snippet_progress(desk: &DeskNow, id: SnippetId, record: &SnippetRecord) -> Html {
    let tally = Tally::of(&record.snippet, record.history());
    let onsets = record.snippet.passage().onsets().len();
    let later = words::noted_later(record);
    let costliest = desk.coach(id).map(|coach| coach.costliest()).filter(|places| !places.is_empty());
    let breaks = costliest.map(|places| words::costliest(&places, record.snippet.passage()));
    html! {
        <li class="row">
            <a class="name" href={Route::Practise(id).href()}>
                { record.snippet.name() }<small>{ words::how_far(&tally, onsets) }</small>
                { for breaks.map(|breaks| html! { <small>{ breaks }</small> }) }
                { for later.map(|later| html! { <small>{ later }</small> }) }
            </a>
            <span class="side">{ words::share_clean(&tally) }</span>
        </li>
    }
}
