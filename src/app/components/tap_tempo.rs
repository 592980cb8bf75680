//! Tapping the tempo: one target, tapped with the beat.

use crate::{app::device::clock::steady_seconds, music::Bpm, pulse::tapped_tempo, words::say};
use yew::prelude::*;

/// A pause longer than this begins a new row of taps, in seconds.
const PAUSE: f64 = 3.0;

#[derive(PartialEq, Properties)]
pub struct TapTempoProps {
    pub tapped: Callback<Bpm>,
}

#[component]
pub fn TapTempo(props: &TapTempoProps) -> Html {
    let taps = use_mut_ref(Vec::<f64>::new);
    let onpointerdown = {
        let tapped = props.tapped.clone();
        Callback::from(move |_: PointerEvent| {
            let now = steady_seconds();
            let mut taps = taps.borrow_mut();
            if taps.last().is_some_and(|last| now - last > PAUSE) {
                taps.clear();
            }
            taps.push(now);
            if let Some(bpm) = tapped_tempo(&taps) {
                tapped.emit(bpm);
            }
        })
    };
    html! { <button type="button" {onpointerdown}>{ say::tap_the_tempo() }</button> }
}
