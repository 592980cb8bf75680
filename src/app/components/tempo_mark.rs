//! A tempo as music prints it: the note that is counted, and how many of it a minute holds.

use crate::{
    app::{components::drawing::shapes, decimal::px, words},
    music::{BeatUnit, Tempo},
    notation::engraving::beat_sign,
};
use yew::prelude::*;

/// Px of the text beside which a sign is drawn; the style sheet makes it as large as the text around it.
const SIZE: f32 = 100.0;

/// The note, "=", the number.
pub fn tempo_mark(tempo: Tempo) -> Html {
    html! {
        <span class="tempo-mark" role="img" aria-label={words::tempo(tempo)}>
            { note(tempo.beat) }<span>{ format!("= {}", tempo.bpm) }</span>
        </span>
    }
}

/// The note that a tempo counts.
pub fn note(beat: BeatUnit) -> Html {
    let drawing = beat_sign(beat, SIZE);
    let view = format!("0 0 {} {}", px(drawing.width), px(drawing.height));
    html! { <svg class="note" viewBox={view} aria-hidden="true">{ shapes(&drawing) }</svg> }
}
