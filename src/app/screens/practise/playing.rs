//! The snippet being played: the pulse, what to play, the coach's line, the two targets.

use crate::{
    agenda::{practice::last_miss, undo},
    app::{
        components::{
            onset_panel::{OnsetPanel, coachs_line, reminders, term},
            pulse_bar::PulseBar,
            staff::{Staff, StaffMarker},
            tempo_mark::tempo_mark,
        },
        desk::{DeskNow, use_desk},
        device::{audio::TICK_MS, location, timers},
        hooks::use_escape,
        screens::practise::{
            judging::{names_cause, use_judge, use_keys, use_points, use_taken_knock},
            other_step::other_step,
            targets::{causes, targets},
        },
        sound::{Conductor, use_sound},
        words,
    },
    clock::Moment,
    journal::{EntryKind, SnippetId},
    method::{Advice, Coach, Snippet, Step},
    music::PrintedPage,
    pulse::Phase,
    words::say,
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

#[derive(Properties)]
pub struct PlayingProps {
    pub id: SnippetId,
    pub snippet: Rc<Snippet>,
    pub page: Rc<PrintedPage>,
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

#[component]
pub fn Playing(props: &PlayingProps) -> Html {
    let desk = use_desk();
    let step = props.advice.step;
    let conductor = use_conductor(&desk, props, step);
    let phase = use_phase(&conductor);
    let marker = use_mut_ref(StaffMarker::default);
    let sounded = {
        let marker = marker.clone();
        use_callback((), move |onset: Option<usize>, ()| marker.borrow_mut().show(onset))
    };
    let (taken, take) = use_taken_knock();
    let judge = use_judge(&desk, (props.id, step), &props.coach, &conductor, (&props.run, &take));
    let undo = use_callback((desk.clone(), props.id), |(): (), (desk, id)| {
        let last = desk.state().snippet(*id).and_then(undo::last);
        last.into_iter().for_each(|undo| desk.take_back(undo));
    });
    use_keys(&judge, &undo);
    let open = use_open();
    use_escape(open.go.reform(|()| None));
    use_effect_with(open.now, |_| location::keep_focus());
    let miss = desk.state().snippet(props.id).and_then(last_miss).filter(|_| open.now == Overlay::Nothing);
    let tapped = use_points(&desk, miss, &open.onset);
    html! {
        <main class="practise">
            <PulseBar {phase} {sounded} />
            { task(props) }
            <Staff
                snippet={props.snippet.clone()} page={props.page.clone()} {step} {marker} {tapped}
                broke_at={miss.and_then(|miss| miss.broke_at)}
            />
            { under_the_staff(&desk, props, &open) }
            <div class="after">
                { for miss.map(|miss| causes(miss.cause, &names_cause(&desk, miss.repetition))) }
            </div>
            { targets(&judge, taken) }
            { leaves(&desk, props, &undo, &open) }
        </main>
    }
}

/// What lies open over the coach's line.
#[derive(Clone, Copy, PartialEq)]
enum Overlay {
    Nothing,
    OtherStep,
    /// What is written at an onset.
    Onset(usize),
}

/// What lies open, and what opens and closes it.
struct Opening {
    now: Overlay,
    other_step: Callback<MouseEvent>,
    onset: Callback<usize>,
    /// From onset to onset, or closed.
    go: Callback<Option<usize>>,
}

#[hook]
fn use_open() -> Opening {
    let open = use_state_eq(|| Overlay::Nothing);
    let set = open.setter();
    let go = use_callback((), move |to: Option<usize>, ()| set.set(to.map_or(Overlay::Nothing, Overlay::Onset)));
    let onset = use_callback(go.clone(), |tapped, go| go.emit(Some(tapped)));
    let (now, set) = (*open, open.setter());
    let toggled = if now == Overlay::OtherStep { Overlay::Nothing } else { Overlay::OtherStep };
    Opening { now, other_step: Callback::from(move |_| set.set(toggled)), onset, go }
}

/// The hands, the tempo and the time left.
fn task(props: &PlayingProps) -> Html {
    let step = props.advice.step;
    html! {
        <header class="task">
            <h1 class="visually-hidden" tabindex="-1">{ props.snippet.name() }</h1>
            <p class="what">
                <strong>{ words::hands(step.hands) }</strong>
                { tempo_mark(props.snippet.pulse(step.bpm)) }
            </p>
            { minutes_left(props.now, props.ends) }
        </header>
    }
}

/// The coach's line, or what lies open over it.
fn under_the_staff(desk: &DeskNow, props: &PlayingProps, open: &Opening) -> Html {
    let PlayingProps { id, snippet, advice, .. } = props;
    match open.now {
        Overlay::Nothing => {
            let reminders = |record| reminders(record, advice.step.span);
            let reminders = desk.state().snippet(*id).map(reminders).unwrap_or_default();
            coachs_line(words::coach(advice), term(desk, snippet, advice), &reminders)
        }
        Overlay::Onset(onset) => html! { <OnsetPanel id={*id} {onset} go={open.go.clone()} /> },
        Overlay::OtherStep => other_step(desk, *id, snippet, advice.step, &open.go.reform(|()| None)),
    }
}

/// Everything that leaves the step.
fn leaves(desk: &DeskNow, props: &PlayingProps, undo: &Callback<()>, open: &Opening) -> Html {
    let snippet = props.id;
    let end = |kind: EntryKind| {
        let (desk, run) = (desk.clone(), props.run.clone());
        Callback::from(move |_: MouseEvent| {
            run.emit(false);
            desk.record(kind.clone());
        })
    };
    let last = desk.state().snippet(snippet).and_then(undo::last);
    let undo_word = last.map_or(say::undo(), |last| words::undo(last.kind, props.advice.reason));
    let choosing = (open.now == Overlay::OtherStep).to_string();
    html! {
        <nav class="small" aria-label={say::this_step()}>
            <button onclick={end(EntryKind::BlockEnded { snippet })}>{ say::stop() }</button>
            <button onclick={undo.reform(|_: MouseEvent| ())} disabled={last.is_none()}>{ undo_word }</button>
            <button onclick={props.ask.reform(|_| true)}>{ say::why() }</button>
            <button onclick={open.other_step.clone()} aria-expanded={choosing}>{ say::another_step() }</button>
            <button onclick={end(EntryKind::GoodEnough { snippet })} aria-label={say::good_enough_for_today()}>
                { say::good_enough() }
            </button>
        </nav>
    }
}

fn minutes_left(now: Moment, ends: Moment) -> Html {
    let left = ends.ms_since(now);
    if left <= 0 {
        return html! { <p class="left" role="timer"><strong>{ say::time() }</strong><span>{ say::judge_the_last() }</span></p> };
    }
    html! { <p class="left" role="timer"><strong>{ words::countdown(left) }</strong><span>{ say::left() }</span></p> }
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
            let ticking = timers::every(TICK_MS, move || conductor.borrow_mut().tick());
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

/// Where the pulse is, for what is drawn with every frame.
#[hook]
fn use_phase(conductor: &Rc<RefCell<Conductor>>) -> Rc<dyn Fn() -> Option<Phase>> {
    let (conductor, sound) = (conductor.clone(), use_sound());
    let phase = use_memo((), |()| {
        let phase: Rc<dyn Fn() -> Option<Phase>> = Rc::new(move || conductor.borrow().phase(sound.latency()));
        phase
    });
    (*phase).clone()
}
