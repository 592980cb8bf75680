//! Before the pulse runs: what comes, and one large target that begins it.

use crate::{
    agenda::undo,
    app::{
        components::{
            onset_panel::{OnsetPanel, coachs_line, reminders, term},
            staff::Staff,
            tempo_mark::tempo_mark,
        },
        desk::{DeskNow, use_desk},
        device::{persistence, spawn_local},
        route::Route,
        sound::use_sound,
        words,
    },
    journal::{EntryKind, SnippetId},
    method::{Advice, Snippet},
    music::PrintedPage,
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct ReadyProps {
    pub id: SnippetId,
    pub snippet: Rc<Snippet>,
    pub page: Rc<PrintedPage>,
    pub advice: Advice,
    /// How long the minutes of a block that is under way still run, in ms; only the pulse stands still.
    #[prop_or_default]
    pub left_ms: Option<i64>,
    /// Not the first touch of the day.
    pub again: bool,
    pub run: Callback<bool>,
    /// Told `true` to ask why.
    pub ask: Callback<bool>,
}

#[component]
pub fn Ready(props: &ReadyProps) -> Html {
    let (desk, sound) = (use_desk(), use_sound());
    let step = props.advice.step;
    let begin = {
        let (desk, snippet, run) = (desk.clone(), props.id, props.run.clone());
        let goes_on = props.left_ms.is_some();
        Callback::from(move |_: MouseEvent| {
            sound.opened();
            if !goes_on {
                desk.record(EntryKind::BlockBegan { snippet });
                spawn_local(async {
                    let _shown_under_your_data = persistence::ask().await;
                });
            }
            run.emit(true);
        })
    };
    let onset = use_state_eq(|| None::<usize>);
    let go = {
        let onset = onset.setter();
        use_callback((), move |to, ()| onset.set(to))
    };
    let open = use_callback(go.clone(), |tapped, go| go.emit(Some(tapped)));
    let reminders = desk.state().snippet(props.id).map(|record| reminders(record, step.span)).unwrap_or_default();
    let minutes = desk.state().preferences.method.block_minutes as usize;
    let offer_afresh = props.advice.consider_afresh.then(|| {
        let afresh = desk.on_tap(EntryKind::StartedAfresh { snippet: props.id });
        html! { <p class="offer">{ say::consider_afresh() }<button onclick={afresh}>{ say::start_afresh() }</button></p> }
    });
    html! {
        <main class="practise ready">
            <header class="task">
                <p class="what">
                    <strong>{ words::hands(step.hands) }</strong>
                    { tempo_mark(props.snippet.pulse(step.bpm)) }
                </p>
                <h1 tabindex="-1">{ props.snippet.name() }</h1>
            </header>
            <Staff snippet={props.snippet.clone()} page={props.page.clone()} {step} tapped={open.clone()} />
            { match *onset {
                Some(onset) => html! { <OnsetPanel id={props.id} {onset} go={go} /> },
                None => coachs_line(words::coach(&props.advice), term(&desk, &props.snippet, &props.advice), &reminders),
            } }
            { for offer_afresh }
            <button class="target clean begin" onclick={begin}>
                {
                    match props.left_ms {
                        Some(left) => say::go_on_with(&words::countdown(left)),
                        None => say::begin(&say::minutes(minutes.into())),
                    }
                }
            </button>
            { ways_on(props, &desk) }
        </main>
    }
}

/// What leaves the snippet, or says something about it.
fn ways_on(props: &ReadyProps, desk: &DeskNow) -> Html {
    let snippet = props.id;
    let word = |kind: EntryKind, word: &'static str| html! { <button onclick={desk.on_tap(kind)}>{ word }</button> };
    let state = desk.state();
    let record = state.snippet(snippet);
    let undo = record.and_then(|record| undo::before_beginning(record, props.left_ms.is_some()));
    let undo = undo.map(|undo| word(undo.retracts(), words::undo(undo.kind, props.advice.reason)));
    html! {
        <nav class="small" aria-label={say::this_snippet()}>
            <button onclick={Route::Today.on_tap()}>{ say::back() }</button>
            <button onclick={Route::Snippet(snippet).on_tap()} aria-label={say::change_snippet()}>{ say::change() }</button>
            <button onclick={props.ask.reform(|_| true)}>{ say::why() }</button>
            { for undo }
            { word(EntryKind::NotToday { snippet }, say::not_this_one_today()) }
            { for props.again.then(|| word(EntryKind::GoodEnough { snippet }, say::good_enough_for_today())) }
        </nav>
    }
}
