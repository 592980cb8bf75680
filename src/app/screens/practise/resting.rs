//! Rest: what rests until when or is done for today, why, and what to do meanwhile.

use crate::{
    agenda::{
        practice::{Rest, last_miss},
        rest::{Meanwhile, meanwhile},
        undo::{self, Undo},
    },
    app::{
        desk::{DeskNow, use_desk},
        hooks::use_plan,
        route::Route,
        screens::practise::{judging::names_cause, targets::causes},
        words,
    },
    clock::Moment,
    journal::{EntryKind, SnippetId, SnippetRecord, State},
    method::{Advice, Done, Leaving, Reason},
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
    let record = state.snippet(props.id);
    let plan = use_plan(&desk, props.now);
    let undo = record.and_then(|record| match props.rest {
        Rest::Today(Done::GoodEnough | Done::LeftOut) => undo::wish(record, props.now.day()),
        Rest::Until(_) | Rest::Today(Done::BlocksPlayed) => undo::last(record),
    });
    html! {
        <main class="page rest">
            <h1 tabindex="-1">{ heading(props.rest) }</h1>
            { for left_for(props).map(|why| html! { <p class="why-left">{ why }</p> }) }
            { until(props, &name) }
            { asked_cause(&desk, record) }
            { advised(&state, meanwhile(&state, plan.as_ref().as_ref(), props.id, props.now)) }
            <p class="caution">{ say::pain() }</p>
            <nav class="small" aria-label={say::rest()}>
                <button onclick={Route::Today.on_tap()}>{ say::today() }</button>
                { for undo.map(|undo| take_back(&desk, undo, props.advice.reason)) }
                <button onclick={props.ask.reform(|_| true)}>{ say::why() }</button>
                {
                    for props.rest.can_be_overruled().then(|| html! {
                        <button onclick={desk.on_tap(EntryKind::RestOverruled { snippet: props.id })}>
                            { say::practise_anyway() }
                        </button>
                    })
                }
                {
                    for matches!(props.rest, Rest::Until(_)).then(|| html! {
                        <button onclick={desk.on_tap(EntryKind::GoodEnough { snippet: props.id })}>{ say::good_enough_for_today() }</button>
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
    html! { <button {onclick}>{ words::undo(undo.kind, reason) }</button> }
}

/// The row of causes, where a miss ended the block or was the last before it ended.
fn asked_cause(desk: &DeskNow, record: Option<&SnippetRecord>) -> Html {
    let Some(miss) = record.and_then(last_miss) else { return html! {} };
    html! {
        <section class="last-miss">
            <p>{ say::what_was_not_right_at_last() }</p>
            { causes(miss.cause, &names_cause(desk, miss.repetition)) }
        </section>
    }
}

fn advised(state: &State, meanwhile: Meanwhile) -> Html {
    match meanwhile {
        Meanwhile::Away => html! {
            <p class="meanwhile">
                { say::stay_away() }
            </p>
        },
        Meanwhile::Until(begins) => html! { <p class="meanwhile">{ say::away_until(&words::wall(begins)) }</p> },
        Meanwhile::Another(other) => html! {
            <>
                <p class="meanwhile">{ say::away_or_something_unlike() }</p>
                <button class="primary" onclick={Route::Practise(other).on_tap()}>
                    { for state.snippet(other).map(|other| other.snippet.name().to_string()) }
                </button>
            </>
        },
        Meanwhile::Nothing => html! {
            <p class="meanwhile">{ say::nothing_else_due() }</p>
        },
    }
}
