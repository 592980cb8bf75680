//! The snippet being played: the pulse, what to play, the coach's line, the two targets.

use super::{
    super::super::{
        components::{
            onset_panel::{OnsetPanel, coachs_line, reminders},
            pulse_bar::PulseBar,
            staff::{Staff, StaffMarker},
        },
        conductor::Conductor,
        desk::{DeskNow, use_desk},
        device::{audio::TICK_MS, clock::steady_seconds, keys, wake::Awake},
        sound::use_sound,
        words,
    },
    other_step::other_step,
    targets::{causes, targets},
    undo::{last_of_block, undo},
};
use crate::{
    clock::Moment,
    journal::{EntryId, Event, SnippetId},
    method::{Advice, Cause, Coach, Move, Snippet, Step, Verdict, What},
    music::Page,
    pulse::Phase,
};
use gloo::timers::callback::Interval;
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

#[derive(Properties)]
pub struct PlayingProps {
    pub id: SnippetId,
    pub snippet: Rc<Snippet>,
    pub page: Rc<Page>,
    pub coach: Rc<Coach>,
    pub advice: Advice,
    pub now: Moment,
    pub ends: Moment,
    pub run: Callback<bool>,
    /// Told `true` to ask why.
    pub ask: Callback<bool>,
}

impl PartialEq for PlayingProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.coach, &other.coach)
            && Rc::ptr_eq(&self.page, &other.page)
            && (self.id, self.now, self.ends) == (other.id, other.now, other.ends)
            && self.advice == other.advice
    }
}

/// What lies open over the coach's line.
#[derive(Clone, Copy, PartialEq)]
enum Open {
    Nothing,
    OtherStep,
    /// What is written at an onset.
    Onset(usize),
}

#[component]
pub fn Playing(props: &PlayingProps) -> Html {
    let desk = use_desk();
    let open = use_state_eq(|| Open::Nothing);
    let step = props.advice.step;
    let conductor = use_conductor(&desk, props, step);
    let marker = use_mut_ref(StaffMarker::default);
    let judge = use_judge(&desk, props, &conductor);
    let undo = use_callback((desk.clone(), props.id), |(): (), (desk, id)| undo(desk, *id));
    use_keys(&judge, &undo);
    use_memo((), |()| Awake::ask());

    let phase = {
        let conductor = conductor.clone();
        use_memo((), |()| {
            let phase: Rc<dyn Fn() -> Option<Phase>> = Rc::new(move || conductor.borrow().phase());
            phase
        })
    };
    let sounded = {
        let marker = marker.clone();
        use_callback((), move |onset: Option<usize>, ()| marker.borrow().show(onset))
    };
    let last = last_miss(&desk, props.id);
    let name = {
        let (desk, last) = (desk.clone(), last);
        Callback::from(move |cause| {
            if let Some((repetition, _)) = last {
                desk.record(Event::CauseNamed { repetition, cause });
            }
        })
    };
    let choosing = *open == Open::OtherStep;
    let choose = {
        let open = open.setter();
        Callback::from(move |_: MouseEvent| open.set(if choosing { Open::Nothing } else { Open::OtherStep }))
    };
    let close = {
        let open = open.setter();
        Callback::from(move |()| open.set(Open::Nothing))
    };
    let go = {
        let open = open.setter();
        use_callback((), move |to: Option<usize>, ()| open.set(to.map_or(Open::Nothing, Open::Onset)))
    };
    let onset = use_callback(go.clone(), |tapped, go| go.emit(Some(tapped)));
    let reminders = desk.state().snippet(props.id).map(|record| reminders(record, step.span)).unwrap_or_default();
    let end = |what: Event| {
        let (desk, run) = (desk.clone(), props.run.clone());
        Callback::from(move |_: MouseEvent| {
            run.emit(false);
            desk.record(what.clone());
        })
    };
    let undo_tap = undo.reform(|_: MouseEvent| ());
    let can_undo = desk.state().snippet(props.id).is_some_and(|record| last_of_block(record).is_some());
    html! {
        <main class="practise">
            <PulseBar phase={(*phase).clone()} {sounded} />
            <header class="task">
                <h1 class="visually-hidden" tabindex="-1">{ props.snippet.name() }</h1>
                <p class="what">
                    <strong>{ words::hands(step.hands) }</strong>
                    <span>{ words::tempo(props.snippet.tempo().at(step.bpm)) }</span>
                </p>
                { minutes_left(props.now, props.ends) }
            </header>
            <Staff snippet={props.snippet.clone()} page={props.page.clone()} {step} {marker} tapped={onset} />
            {
                match *open {
                    Open::Nothing => coachs_line(words::coach(&props.advice, &props.snippet), &reminders),
                    Open::Onset(onset) => html! { <OnsetPanel id={props.id} {onset} {go} /> },
                    Open::OtherStep => other_step(&desk, props.id, &props.snippet, step, &close),
                }
            }
            <div class="after">
                { for last.filter(|_| *open == Open::Nothing).map(|(_, named)| causes(named, &name)) }
            </div>
            { targets(&judge) }
            <nav class="small" aria-label="This step">
                <button onclick={end(Event::BlockEnded { snippet: props.id })}>{ "Stop" }</button>
                <button onclick={undo_tap} disabled={!can_undo}>{ "Undo" }</button>
                <button onclick={props.ask.reform(|_| true)}>{ "Why?" }</button>
                <button onclick={choose} aria-expanded={choosing.to_string()}>{ "Another step" }</button>
                <button onclick={end(Event::GoodEnough { snippet: props.id })} aria-label="Good enough for today">
                    { "Good enough" }
                </button>
            </nav>
        </main>
    }
}

fn minutes_left(now: Moment, ends: Moment) -> Html {
    let left = ends.ms_since(now);
    if left <= 0 {
        return html! { <p class="left" role="timer"><strong>{ "Time" }</strong><span>{ words::JUDGE_THE_LAST }</span></p> };
    }
    html! { <p class="left" role="timer"><strong>{ words::countdown(left) }</strong><span>{ "left" }</span></p> }
}

/// The conductor of this snippet, kept going and told of every new step.
#[hook]
fn use_conductor(desk: &DeskNow, props: &PlayingProps, step: Step) -> Rc<RefCell<Conductor>> {
    let (sound, click) = (use_sound(), desk.state().preferences.click);
    let snippet = props.snippet.clone();
    let conductor = use_mut_ref(move || Conductor::new(sound.opened(), snippet, step, click));
    {
        let conductor = conductor.clone();
        use_effect_with((), move |()| {
            let ticking = Interval::new(TICK_MS, move || conductor.borrow_mut().tick());
            move || drop(ticking)
        });
    }
    {
        let conductor = conductor.clone();
        let heard = desk.state().snippet(props.id).map(|record| record.history().len());
        use_effect_with((heard, step, click), move |_| conductor.borrow_mut().play(step, click));
    }
    conductor
}

/// Writes a verdict down, and that the block is over where the coach says so. A tap that comes
/// sooner than the step can be played is taken for a bounce.
#[hook]
fn use_judge(desk: &DeskNow, props: &PlayingProps, conductor: &Rc<RefCell<Conductor>>) -> Callback<Verdict> {
    let judged_at = use_mut_ref(steady_seconds);
    let (desk, conductor, run) = (desk.clone(), conductor.clone(), props.run.clone());
    let (snippet, step, coach) = (props.id, props.advice.step, props.coach.clone());
    Callback::from(move |verdict| {
        let since = steady_seconds() - *judged_at.borrow();
        if since < conductor.borrow().shortest_seconds() {
            return;
        }
        *judged_at.borrow_mut() = steady_seconds();
        desk.record(Event::Played { snippet, step, verdict });
        let over = {
            let state = desk.state();
            let last = state.snippet(snippet).and_then(|record| record.history().last());
            let mut coach = (*coach).clone();
            last.into_iter().for_each(|happening| coach.follow(happening));
            coach.advice(desk.now()).led_by == Move::Leave
        };
        if over {
            run.emit(false);
            desk.record(Event::BlockEnded { snippet });
        }
    })
}

/// Keys and pedals: which keys a pedal sends is no standard, so the common pairs all do.
#[hook]
fn use_keys(judge: &Callback<Verdict>, undo: &Callback<()>) {
    let latest = use_mut_ref(|| (judge.clone(), undo.clone()));
    *latest.borrow_mut() = (judge.clone(), undo.clone());
    use_effect_with((), move |()| {
        let listening = keys::on_key(move |key| {
            let (judge, undo) = latest.borrow().clone();
            match key {
                "ArrowRight" | "ArrowDown" | "PageDown" | "c" => judge.emit(Verdict::Clean),
                "ArrowLeft" | "ArrowUp" | "PageUp" | "n" => judge.emit(Verdict::NotYet),
                "Backspace" | "u" => undo.emit(()),
                _ => return false,
            }
            true
        });
        move || drop(listening)
    });
}

/// The latest happening, where it is a repetition that was not yet clean, with its cause.
fn last_miss(desk: &DeskNow, id: SnippetId) -> Option<(EntryId, Option<Cause>)> {
    let state = desk.state();
    let record = state.snippet(id)?;
    match record.history().last()?.what {
        What::Played { verdict: Verdict::NotYet, cause, .. } => {
            Some((record.entry(record.history().len() - 1)?, cause))
        }
        _ => None,
    }
}
