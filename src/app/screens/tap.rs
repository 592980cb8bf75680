//! Tapping the rhythm in: the pulse runs, each hand has a pad, and what was tapped is quantised.

use crate::{
    app::{
        components::{field::tempo_field, new_snippet::NewSnippet, pulse_bar::PulseBar},
        desk::use_desk,
        device::{audio::TICK_MS, fields, timers},
        route::Route,
        screens::count::use_meter,
        sound::{PlainPulse, use_sound},
    },
    journal::PieceId,
    music::{
        Hand, KnownTempi, Meter, Tempo,
        tapped::{Nudge, Tap, Tapped, quantise},
    },
    pulse::Phase,
    words::{Count, say},
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct TapProps {
    pub id: PieceId,
}

#[component]
pub fn TapIn(props: &TapProps) -> Html {
    let desk = use_desk();
    let meter = use_meter();
    let given = desk.state().piece(props.id).and_then(|record| record.piece.tempo);
    let known = KnownTempi { piece: given, ..KnownTempi::default() };
    let tempo = use_state(|| known.offered(meter.meter));
    let Tapping { metronome, tapped, start, tap, stop, nudge } = use_tapping(meter.meter, *tempo);
    let set_tempo = {
        let tempo = tempo.setter();
        Callback::from(move |to| tempo.set(to))
    };
    let again = if tapped.is_some() { say::tap_again() } else { say::start_the_pulse() };
    html! {
        <main class="page tap">
            <h1 tabindex="-1">{ say::tap_the_rhythm() }</h1>
            {
                match metronome {
                    None => html! {
                        <>
                            <p>{ say::how_to_tap() }</p>
                            <div class="fields">{ meter.field }{ tempo_field(*tempo, &set_tempo) }</div>
                            <button class="primary large" onclick={start}>{ again }</button>
                        </>
                    },
                    Some(metronome) => html! { <Pads {metronome} {tap} {stop} /> },
                }
            }
            {
                match tapped {
                    None => html! {},
                    Some(Err(why)) => html! { <p class="wrong" role="alert">{ why }</p> },
                    Some(Ok(rhythm)) => html! {
                        <>
                            { grid(&rhythm, &nudge) }
                            <NewSnippet
                                piece={props.id}
                                passage={rhythm.passage().clone()}
                                name={say::tapped_onsets(rhythm.passage().onsets().len().into())}
                                tempo={meter.meter.felt(*tempo)}
                            />
                        </>
                    },
                }
            }
            <p class="ways"><button onclick={Route::Piece(props.id).on_tap()}>{ say::back_to_the_piece() }</button></p>
        </main>
    }
}

/// A rhythm being tapped in, and what the player can do with it.
struct Tapping {
    /// There while the pulse runs.
    metronome: Option<Rc<RefCell<PlainPulse>>>,
    /// What was tapped last, or why it is no rhythm.
    tapped: Option<Result<Tapped, String>>,
    start: Callback<MouseEvent>,
    tap: Callback<&'static [Hand]>,
    stop: Callback<MouseEvent>,
    nudge: Callback<(usize, Nudge)>,
}

#[hook]
fn use_tapping(meter: Meter, tempo: Tempo) -> Tapping {
    let sound = use_sound();
    let metronome = use_state(|| None::<Rc<RefCell<PlainPulse>>>);
    let taps = use_mut_ref(Vec::<Tap>::new);
    let tapped = use_state(|| None::<Result<Tapped, String>>);
    use_ticking((*metronome).clone());
    let start = {
        let (metronome, tapped, taps) = (metronome.setter(), tapped.setter(), taps.clone());
        let sound = sound.clone();
        Callback::from(move |_: MouseEvent| {
            if fields::to_first_wrong() {
                return;
            }
            taps.borrow_mut().clear();
            tapped.set(None);
            metronome.set(Some(Rc::new(RefCell::new(PlainPulse::new(sound.opened(), meter, tempo)))));
        })
    };
    let stop = {
        let (metronome, tapped, taps) = (metronome.setter(), tapped.setter(), taps.clone());
        Callback::from(move |_: MouseEvent| {
            metronome.set(None);
            tapped.set(Some(quantise(&taps.borrow(), meter, tempo).map_err(|why| why.to_string())));
        })
    };
    let tap = {
        let (metronome, sound) = ((*metronome).clone(), sound.clone());
        Callback::from(move |hands: &'static [Hand]| {
            let seconds = metronome.as_ref().map(|metronome| metronome.borrow().seconds(sound.latency()));
            let tap = |hand: &Hand| seconds.map(|seconds| Tap { seconds, hand: *hand });
            taps.borrow_mut().extend(hands.iter().filter_map(tap));
        })
    };
    let nudge = {
        let tapped = tapped.clone();
        Callback::from(move |(onset, nudge)| {
            let nudged = tapped.as_ref().and_then(|tapped| tapped.as_ref().ok()?.nudged(onset, nudge));
            if let Some(nudged) = nudged {
                tapped.set(Some(Ok(nudged)));
            }
        })
    };
    Tapping { metronome: (*metronome).clone(), tapped: (*tapped).clone(), start, tap, stop, nudge }
}

/// Keeps the metronome going while there is one.
#[hook]
fn use_ticking(metronome: Option<Rc<RefCell<PlainPulse>>>) {
    let started = metronome.as_ref().map(|metronome| Rc::as_ptr(metronome).cast::<()>());
    use_effect_with(started, move |_| {
        let ticking = metronome.map(|metronome| timers::every(TICK_MS, move || metronome.borrow_mut().tick()));
        move || drop(ticking)
    });
}

#[derive(Properties)]
struct PadsProps {
    metronome: Rc<RefCell<PlainPulse>>,
    tap: Callback<&'static [Hand]>,
    stop: Callback<MouseEvent>,
}

impl PartialEq for PadsProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.metronome, &other.metronome)
    }
}

#[component]
fn Pads(props: &PadsProps) -> Html {
    let sound = use_sound();
    let phase = {
        let metronome = props.metronome.clone();
        use_memo(Rc::as_ptr(&props.metronome).cast::<()>(), move |_| {
            let phase: Rc<dyn Fn() -> Option<Phase>> = Rc::new(move || Some(metronome.borrow().phase(sound.latency())));
            phase
        })
    };
    let count = use_state(|| 0);
    let pad = |word: &'static str, hands: &'static [Hand]| {
        let (tap, seen) = (props.tap.clone(), count.clone());
        let onpointerdown = Callback::from(move |event: PointerEvent| {
            event.prevent_default();
            tap.emit(hands);
            seen.set(*seen + 1);
        });
        html! { <button class="target not-yet" {onpointerdown}>{ word }</button> }
    };
    html! {
        <>
            <PulseBar phase={(*phase).clone()} sounded={Callback::noop()} />
            <p role="status">{ say::taps(Count(*count)) }</p>
            <div class="targets pads">
                { pad(say::pad_left(), &[Hand::Left]) }
                { pad(say::pad_both(), &[Hand::Left, Hand::Right]) }
                { pad(say::pad_right(), &[Hand::Right]) }
            </div>
            <button class="primary large" onclick={props.stop.clone()}>{ say::done() }</button>
        </>
    }
}

/// How the taps met the grid, and each onset's two nudges.
fn grid(rhythm: &Tapped, nudge: &Callback<(usize, Nudge)>) -> Html {
    let errors = rhythm.errors_ms();
    let row = |(onset, error): (usize, &f64)| {
        let (earlier, later) = (
            nudge.reform(move |_: MouseEvent| (onset, Nudge::Earlier)),
            nudge.reform(move |_: MouseEvent| (onset, Nudge::Later)),
        );
        html! {
            <li class="row">
                <span class="name">{ say::onset_number(onset as i64 + 1) }<small>{ say::ms_off(&format!("{:+}", error.round() as i64)) }</small></span>
                <button onclick={earlier} aria-label={say::onset_earlier(onset as i64 + 1)}>{ say::earlier() }</button>
                <button onclick={later} aria-label={say::onset_later(onset as i64 + 1)}>{ say::later() }</button>
            </li>
        }
    };
    let throughout = format!("{:+}", rhythm.late_ms().round() as i64);
    html! {
        <details class="grid">
            <summary>{ say::to_the_grid(rhythm.error_ms().round() as i64, &throughout) }</summary>
            <ul class="rows">{ for errors.iter().enumerate().map(row) }</ul>
        </details>
    }
}
