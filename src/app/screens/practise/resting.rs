//! Rest: what rests until when, why, and what to do meanwhile.

use super::{
    super::super::{desk::use_desk, route::Route, words},
    playing::undo,
};
use crate::{
    clock::Moment,
    journal::{SnippetId, SnippetRecord, State},
    method::{Advice, Reason, Standing, What, block},
};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct RestingProps {
    pub id: SnippetId,
    pub advice: Advice,
    pub now: Moment,
    /// `None`: until another day.
    pub until: Option<Moment>,
    pub run: Callback<bool>,
}

#[component]
pub fn Resting(props: &RestingProps) -> Html {
    let desk = use_desk();
    {
        let run = props.run.clone();
        use_effect_with((), move |()| run.emit(false));
    }
    let state = desk.state();
    let why = match props.advice.reason {
        Reason::Leave(leaving) => words::leave(leaving),
        _ => words::leave(crate::method::Leaving::Stopped),
    };
    let meanwhile = meanwhile(&state, props.id, props.now);
    let undo = {
        let (desk, id) = (desk.clone(), props.id);
        Callback::from(move |_: MouseEvent| undo(&desk, id))
    };
    let name = state.snippet(props.id).map(|record| record.snippet.name().to_string());
    html! {
        <main class="page rest">
            <h1 tabindex="-1">{ "Rest" }</h1>
            <p class="why-left">{ why }</p>
            {
                match props.until {
                    Some(until) => html! {
                        <p class="until">
                            <strong role="timer">{ words::countdown(until.ms_since(props.now)) }</strong>
                            <span>{ format!("{} rests until {}.", name.unwrap_or_default(), words::wall(until)) }</span>
                        </p>
                    },
                    None => html! {
                        <p class="until">
                            <strong>{ "Tomorrow" }</strong>
                            <span>{ format!("{} has had its blocks for today.", name.unwrap_or_default()) }</span>
                        </p>
                    },
                }
            }
            {
                match meanwhile {
                    Meanwhile::Away => html! {
                        <p class="meanwhile">
                            { "Stay away from the keys for five minutes: an early rest without other playing brought \
                               the largest gain overnight." }
                        </p>
                    },
                    Meanwhile::Another(other, name) => html! {
                        <>
                            <p class="meanwhile">{ "Away from the instrument, or something unlike it:" }</p>
                            <button class="primary" onclick={Route::Practise(other).on_tap()}>{ name }</button>
                        </>
                    },
                    Meanwhile::Nothing => html! {
                        <p class="meanwhile">{ "Nothing else is due now. Leave the instrument for a while." }</p>
                    },
                }
            }
            <p class="caution">{ words::PAIN }</p>
            <nav class="small" aria-label="Rest">
                <button onclick={Route::Today.on_tap()}>{ "Today" }</button>
                <button onclick={undo}>{ "Undo the last verdict" }</button>
            </nav>
        </main>
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
