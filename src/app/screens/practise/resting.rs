//! Rest: what rests until when or is done for today, why, and what to do meanwhile.

use super::{
    super::super::{
        desk::{DeskNow, use_desk},
        route::Route,
        words,
    },
    face::Rest,
};
use crate::{
    agenda::undo::{self, Undo},
    clock::Moment,
    journal::{Event, SnippetId, SnippetRecord, State},
    method::{Advice, Done, Leaving, Reason, Standing, What, block},
    words::say,
};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct RestingProps {
    pub id: SnippetId,
    pub advice: Advice,
    pub now: Moment,
    pub rest: Rest,
    pub run: Callback<bool>,
    /// Told `true` to ask why.
    pub ask: Callback<bool>,
}

#[component]
pub fn Resting(props: &RestingProps) -> Html {
    let desk = use_desk();
    {
        let run = props.run.clone();
        use_effect_with((), move |()| run.emit(false));
    }
    let state = desk.state();
    let name = state.snippet(props.id).map(|record| record.snippet.name().to_string()).unwrap_or_default();
    let undo = state.snippet(props.id).and_then(|record| match props.rest {
        Rest::Today(Done::GoodEnough | Done::LeftOut) => undo::wish(record, props.now.day()),
        Rest::Until(_) | Rest::Today(Done::BlocksPlayed) => undo::last(record),
    });
    html! {
        <main class="page rest">
            <h1 tabindex="-1">{ heading(props.rest) }</h1>
            { for left_for(props).map(|why| html! { <p class="why-left">{ why }</p> }) }
            { until(props, &name) }
            { advised(meanwhile(&state, props.id, props.now)) }
            <p class="caution">{ say::pain() }</p>
            <nav class="small" aria-label={say::rest()}>
                <button onclick={Route::Today.on_tap()}>{ say::today() }</button>
                { for undo.map(|undo| take_back(&desk, undo, props.advice.reason)) }
                <button onclick={props.ask.reform(|_| true)}>{ say::why() }</button>
                {
                    for matches!(props.rest, Rest::Until(_)).then(|| html! {
                        <button onclick={desk.on_tap(Event::GoodEnough { snippet: props.id })}>{ say::good_enough_for_today() }</button>
                    })
                }
            </nav>
        </main>
    }
}

fn heading(rest: Rest) -> &'static str {
    match rest {
        Rest::Until(_) => say::rest(),
        Rest::Today(Done::BlocksPlayed | Done::GoodEnough) => say::done_for_today(),
        Rest::Today(Done::LeftOut) => say::not_today(),
    }
}

/// Why the block was left, where it is a block that led here.
fn left_for(props: &RestingProps) -> Option<String> {
    match (props.rest, props.advice.reason) {
        (Rest::Today(Done::LeftOut), _) => None,
        (Rest::Today(Done::GoodEnough), _) => Some(words::leave(Leaving::GoodEnough)),
        (_, Reason::Leave(leaving)) => Some(words::leave(leaving)),
        _ => Some(words::leave(Leaving::Stopped)),
    }
}

fn until(props: &RestingProps, name: &str) -> Html {
    let (large, small) = match props.rest {
        Rest::Until(until) => {
            (words::countdown(until.ms_since(props.now)), say::rests_until(name, &words::wall(until)))
        }
        Rest::Today(done) => (say::tomorrow().to_string(), words::done(done, name)),
    };
    let role = matches!(props.rest, Rest::Until(_)).then_some("timer");
    html! { <p class="until"><strong {role}>{ large }</strong><span>{ small }</span></p> }
}

fn take_back(desk: &DeskNow, undo: Undo, reason: Reason) -> Html {
    let desk = desk.clone();
    let onclick = Callback::from(move |_: MouseEvent| desk.take_back(undo));
    html! { <button {onclick}>{ words::undo(undo.what, reason) }</button> }
}

fn advised(meanwhile: Meanwhile) -> Html {
    match meanwhile {
        Meanwhile::Away => html! {
            <p class="meanwhile">
                { say::stay_away() }
            </p>
        },
        Meanwhile::Another(other, name) => html! {
            <>
                <p class="meanwhile">{ say::away_or_something_unlike() }</p>
                <button class="primary" onclick={Route::Practise(other).on_tap()}>{ name }</button>
            </>
        },
        Meanwhile::Nothing => html! {
            <p class="meanwhile">{ say::nothing_else_due() }</p>
        },
    }
}

/// What to do while a snippet rests.
enum Meanwhile {
    /// The day's first rest: Cash 2009 and Duke, Allen, Cash and Simmons 2009 found the largest
    /// overnight gain after a rest of five minutes early in practice, and Simmons, Allen, Cash and
    /// Duke 2019 a smaller one where other keys were played in it.
    Away,
    /// Another snippet that is ready.
    Another(SnippetId, String),
    Nothing,
}

/// The early rest lasts five minutes (Cash 2009).
const EARLY_REST_MS: i64 = 5 * 60_000;

fn meanwhile(state: &State, resting: SnippetId, now: Moment) -> Meanwhile {
    let Some(record) = state.snippet(resting) else { return Meanwhile::Nothing };
    let blocks_today: usize = state.snippets().map(|(_, record)| blocks_on(record, now)).sum();
    let since = record.history().last().map_or(i64::MAX, |last| now.ms_since(last.at));
    if blocks_today == 1 && since < EARLY_REST_MS {
        return Meanwhile::Away;
    }
    let ready = |record: &SnippetRecord| {
        matches!(block::standing(record.history(), &state.preferences.method, now), Standing::Ready { .. })
    };
    // Another piece is less alike than another place in the same one.
    let others = || state.snippets().filter(|(id, other)| *id != resting && ready(other));
    let unlike = others().find(|(_, other)| other.piece != record.piece).or_else(|| others().next());
    unlike.map_or(Meanwhile::Nothing, |(id, other)| Meanwhile::Another(id, other.snippet.name().to_string()))
}

fn blocks_on(record: &SnippetRecord, now: Moment) -> usize {
    let began = |what: &What| matches!(what, What::BlockBegan(_));
    record.history().iter().filter(|happening| began(&happening.what) && happening.at.day() == now.day()).count()
}
