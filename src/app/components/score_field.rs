//! A score file is read, its contents are shown, and it is kept only when the player says so.

use crate::{
    app::{
        arrivals::use_files,
        beside::Heard,
        desk::{DeskNow, use_desk},
        device::{
            files::{Chosen, NotRead},
            spawn_local,
        },
        job::use_job,
        route::Route,
        words,
    },
    journal::{self, Piece, PieceId, ScoreFile},
    music::{
        Score,
        musicxml::{LARGEST_FILE, Mended, ReadError, Reading},
    },
    words::say,
    workshop::{Outcome, Refusal, Task},
};
use std::rc::Rc;
use yew::prelude::*;

/// How far the coming in has got.
#[derive(Clone)]
enum Stage {
    Waiting,
    /// So many hundredths are done.
    Reading(u8),
    Refused(String),
    Read {
        score: Rc<Score>,
        mended: Rc<[Mended]>,
        file: ScoreFile,
    },
}

#[component]
pub fn ScoreField() -> Html {
    let desk = use_desk();
    let (stage, job, away) = use_job(|| Stage::Waiting, say::reading_called_off());
    let take = {
        let stage = stage.setter();
        Callback::from(move |file: Chosen| {
            let (stage, job) = (stage.clone(), job.clone());
            stage.set(Stage::Reading(0));
            spawn_local(async move {
                match task_of(file).await {
                    Ok(task) => job.begin(&task, None, move |heard| stage.set(heard.into())),
                    Err(instead) => stage.set(instead),
                }
            });
        })
    };
    let onchange = use_files(Route::Pieces, take);
    html! {
        <div class="score-field">
            <label class="file">
                <span>{ say::from_a_score_file() }</span>
                <input type="file" accept=".musicxml,.xml,.mxl,application/vnd.recordare.musicxml" {onchange} />
            </label>
            {
                match &*stage {
                    Stage::Waiting => html! {},
                    Stage::Reading(hundredths) => html! {
                        <>
                            { being_read(*hundredths) }
                            <button onclick={away}>{ say::cancel() }</button>
                        </>
                    },
                    Stage::Refused(why) => html! { <p class="wrong" role="alert">{ why }</p> },
                    Stage::Read { score, mended, file } => found(&desk, score, mended, file, &away),
                }
            }
        </div>
    }
}

/// Says that a score is being read, and how far.
pub fn being_read(hundredths: u8) -> Html {
    html! {
        <p role="status">
            { say::reading_the_score() }
            <progress max="100" value={hundredths.to_string()} aria-label={say::how_much_is_read()} />
        </p>
    }
}

impl From<Heard> for Stage {
    fn from(heard: Heard) -> Stage {
        match heard {
            Heard::Hundredths(hundredths) => Stage::Reading(hundredths),
            Heard::Ended(Outcome::Read { reading: Reading { score, mended }, file: Some(file) }) => {
                Stage::Read { score: Rc::new(score), mended: mended.into(), file }
            }
            Heard::Ended(_) | Heard::Made(_) => Stage::Waiting,
            Heard::Refused(why) => Stage::Refused(words::sentences([why, say::nothing_was_changed().into()])),
        }
    }
}

/// The task of reading the file, or what to show instead.
async fn task_of(file: Chosen) -> Result<Task, Stage> {
    let refused = |why: String| Err(Stage::Refused(words::sentences([why, say::nothing_was_changed().into()])));
    match file.read(LARGEST_FILE).await {
        Ok(read) => Ok(Task::take_in(read.name, read.bytes)),
        Err(NotRead::TooLarge) => refused(words::refusal(Refusal::Unread(ReadError::FileTooLarge))),
        Err(NotRead::Unreadable) => refused(say::file_not_given_out().into()),
    }
}

/// What was found in the score, before it is kept.
fn found(desk: &DeskNow, score: &Rc<Score>, mended: &[Mended], file: &ScoreFile, away: &Callback<MouseEvent>) -> Html {
    let bars = score.parts.iter().map(|part| part.bars.len()).max().unwrap_or(0);
    let title = if score.title.is_empty() { file.stem().to_string() } else { score.title.clone() };
    let keep = {
        let piece = Piece {
            title: title.clone(),
            composer: score.composer.clone(),
            tempo: score.parts.iter().flat_map(|part| &part.bars).find_map(|bar| bar.tempo),
            date: None,
        };
        let (desk, file, score) = (desk.clone(), file.clone(), Rc::clone(score));
        Callback::from(move |_: MouseEvent| {
            let id = PieceId(desk.record(journal::EntryKind::PieceAdded(piece.clone())));
            desk.keep_score(id, file.clone(), Rc::clone(&score));
            Route::Score(id).go();
        })
    };
    html! {
        <section class="found" aria-label={say::what_was_read()}>
            <p>
                <strong>{ title }</strong>
                { " " }
                { words::labels([score.composer.clone(), say::bars(bars.into()), say::parts(score.parts.len().into())]) }
            </p>
            { said_of(mended) }
            <button class="primary" onclick={keep}>{ say::keep_and_choose_bars() }</button>
            <button onclick={away.clone()}>{ say::another_file() }</button>
        </section>
    }
}

/// What was mended or left out, in plain words.
fn said_of(mended: &[Mended]) -> Html {
    if mended.is_empty() {
        return html! {};
    }
    html! {
        <details>
            <summary>{ say::mended(mended.len().into()) }</summary>
            <ul>{ for mended.iter().map(|item| html! { <li>{ item.to_string() }</li> }) }</ul>
        </details>
    }
}
