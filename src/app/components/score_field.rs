//! A score file comes in: read whole, told what is in it, and kept only when the player says so.

use super::super::{
    desk::{DeskNow, use_desk},
    device::files::{self, NotPicked},
    route::Route,
    words,
};
use crate::{
    journal::{self, Piece, PieceId, ScoreFile},
    music::musicxml::{self, LARGEST_FILE, Reading},
};
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// How far the coming in has got.
#[derive(Clone)]
enum Stage {
    Waiting,
    Reading,
    Refused(String),
    Read { reading: Rc<Reading>, file: ScoreFile },
}

#[component]
pub fn ScoreField() -> Html {
    let desk = use_desk();
    let stage = use_state(|| Stage::Waiting);
    let onchange = {
        let stage = stage.setter();
        Callback::from(move |event: Event| {
            stage.set(Stage::Reading);
            let stage = stage.clone();
            spawn_local(async move { stage.set(read(event).await) });
        })
    };
    let away = {
        let stage = stage.setter();
        Callback::from(move |_: MouseEvent| stage.set(Stage::Waiting))
    };
    html! {
        <div class="score-field">
            <label class="file">
                <span>{ "From a score file (MusicXML: .musicxml, .xml or .mxl)" }</span>
                <input type="file" accept=".musicxml,.xml,.mxl,application/vnd.recordare.musicxml" {onchange} />
            </label>
            {
                match &*stage {
                    Stage::Waiting => html! {},
                    Stage::Reading => html! { <p role="status">{ "Reading the score …" }</p> },
                    Stage::Refused(why) => html! { <p class="wrong" role="alert">{ why }</p> },
                    Stage::Read { reading, file } => found(&desk, reading, file, &away),
                }
            }
        </div>
    }
}

async fn read(event: Event) -> Stage {
    let picked = match files::picked(event, LARGEST_FILE).await {
        Ok(picked) => picked,
        Err(NotPicked::Nothing) => return Stage::Waiting,
        Err(NotPicked::TooLarge) => return Stage::Refused(refusal(&musicxml::ReadError::FileTooLarge)),
        Err(NotPicked::Unreadable) => {
            return Stage::Refused(
                "The device does not give the file out. Copy it to this device, then choose it again.".into(),
            );
        }
    };
    let reading = match musicxml::read(&picked.bytes) {
        Ok(reading) => Rc::new(reading),
        Err(why) => return Stage::Refused(refusal(&why)),
    };
    match ScoreFile::pack(picked.name, &picked.bytes) {
        Ok(file) => Stage::Read { reading, file },
        Err(why) => Stage::Refused(refusal(&why)),
    }
}

/// A sentence about the file, from an error that says what is wrong and what to do.
fn refusal(why: &dyn std::fmt::Display) -> String {
    let why = why.to_string();
    let mut letters = why.chars();
    let first = letters.next().map(|letter| letter.to_ascii_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}. Nothing was changed.", letters.as_str())
}

/// What was found in the score, before it is kept.
fn found(desk: &DeskNow, reading: &Reading, file: &ScoreFile, away: &Callback<MouseEvent>) -> Html {
    let score = &reading.score;
    let bars = score.parts.iter().map(|part| part.bars.len()).max().unwrap_or(0);
    let title = if score.title.is_empty() { "Untitled piece".to_string() } else { score.title.clone() };
    let keep = {
        let piece = Piece {
            title: title.clone(),
            composer: score.composer.clone(),
            tempo: score.parts.iter().flat_map(|part| &part.bars).find_map(|bar| bar.tempo),
            date: None,
        };
        let (desk, file) = (desk.clone(), file.clone());
        Callback::from(move |_: MouseEvent| {
            let id = PieceId(desk.record(journal::Event::PieceAdded(piece.clone())));
            desk.record(journal::Event::ScoreKept { piece: id, file: file.clone() });
            Route::Score(id).go();
        })
    };
    html! {
        <section class="found" aria-label="What was read">
            <p>
                <strong>{ title }</strong>
                { format!(" {} {}, {}.", score.composer, words::count(bars, "bar"), words::count(score.parts.len(), "part")) }
            </p>
            { mended(reading) }
            <button class="primary" onclick={keep}>{ "Keep it and choose bars" }</button>
            <button onclick={away.clone()}>{ "Another file" }</button>
        </section>
    }
}

/// What was mended or left out, in plain words.
fn mended(reading: &Reading) -> Html {
    let mended = &reading.mended;
    if mended.is_empty() {
        return html! {};
    }
    html! {
        <details>
            <summary>{ format!("{} mended or left out", words::count(mended.len(), "thing")) }</summary>
            <ul>{ for mended.iter().map(|item| html! { <li>{ item.to_string() }</li> }) }</ul>
        </details>
    }
}
