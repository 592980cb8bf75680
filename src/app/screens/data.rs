//! Your data: how well it is kept, taking it to another device and bringing it from there.

use super::super::{
    desk::{DeskNow, use_desk},
    device::{
        check::{self, Check},
        files::{self, NotPicked},
        persistence::{self, Keeping},
    },
    stores::Kept,
    words,
};
use crate::journal::{Merged, Removed, file, limits};
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

pub fn your_data(desk: &DeskNow) -> Html {
    html! {
        <main class="page data">
            <h1 tabindex="-1">{ "Your data" }</h1>
            <p>{ "Everything stays on this device. Nothing is sent anywhere." }</p>
            <Export />
            <Import />
            { removed(desk) }
            <KeptHere />
            { set_aside(desk) }
            <DeviceCheck />
        </main>
    }
}

/// What was removed, each with a tap that brings it back.
fn removed(desk: &DeskNow) -> Html {
    let state = desk.state();
    let row = |removed: &Removed| {
        let bring_back = {
            let (desk, removed) = (desk.clone(), removed.clone());
            Callback::from(move |_: MouseEvent| desk.bring_back(&removed))
        };
        let label = format!("Bring {} back", removed.name);
        let of = removed.of.as_ref().map(|(_, title)| title.clone());
        html! {
            <li class="row" key={removed.entries[0].to_string()}>
                <span class="name">{ &removed.name }<small>{ words::removed(of.as_deref(), removed.at) }</small></span>
                <button onclick={bring_back} aria-label={label}>{ "Bring back" }</button>
            </li>
        }
    };
    let rows: Vec<Html> = state.removed().map(row).collect();
    if rows.is_empty() {
        return html! {};
    }
    html! {
        <section aria-labelledby="removed">
            <h2 id="removed">{ "Removed" }</h2>
            <ul class="rows">{ for rows }</ul>
        </section>
    }
}

#[component]
fn Export() -> Html {
    let desk = use_desk();
    let done = use_state(|| None::<Result<String, ()>>);
    let count = desk.journal().count();
    let export = {
        let done = done.setter();
        Callback::from(move |_: MouseEvent| {
            let name = format!("tailfirst-{}.json", desk.now().day());
            let handed = files::hand_out(&name, &desk.export());
            done.set(Some(handed.map(|()| name).map_err(|_| ())));
        })
    };
    html! {
        <section aria-labelledby="export">
            <h2 id="export">{ "Export" }</h2>
            <p>{ format!("One file with all of it: {}. Keep a copy elsewhere.", entries(count)) }</p>
            <button class="primary" onclick={export}>{ "Export to a file" }</button>
            {
                match &*done {
                    None => html! {},
                    Some(Ok(name)) => html! { <p role="status">{ format!("{name} was handed to the browser.") }</p> },
                    Some(Err(())) => html! {
                        <p class="wrong" role="alert">{ "The browser made no file. Try again from another browser window." }</p>
                    },
                }
            }
        </section>
    }
}

/// How far an import has got.
#[derive(Clone, PartialEq)]
enum Stage {
    Waiting,
    Reading,
    Done(Merged),
    Refused(String),
}

#[component]
fn Import() -> Html {
    let desk = use_desk();
    let stage = use_state(|| Stage::Waiting);
    let onchange = {
        let stage = stage.setter();
        Callback::from(move |event: Event| {
            let (desk, stage) = (desk.clone(), stage.clone());
            stage.set(Stage::Reading);
            spawn_local(async move {
                let read = read(event).await;
                stage.set(match read {
                    Ok(Some(imported)) => Stage::Done(desk.import(imported)),
                    Ok(None) => Stage::Waiting,
                    Err(why) => Stage::Refused(format!("{why} Nothing was changed.")),
                });
            });
        })
    };
    html! {
        <section aria-labelledby="import">
            <h2 id="import">{ "Import" }</h2>
            <p>{ "Choose a file that another device exported. What is here stays; what is new is added; importing it \
                  twice changes nothing." }</p>
            <label class="file"><span>{ "Import from a file" }</span><input type="file" accept=".json,application/json" {onchange} /></label>
            {
                match &*stage {
                    Stage::Waiting => html! {},
                    Stage::Reading => html! { <p role="status">{ "Reading …" }</p> },
                    Stage::Done(merged) => html! { <p role="status">{ merged_words(*merged) }</p> },
                    Stage::Refused(why) => html! { <p class="wrong" role="alert">{ why }</p> },
                }
            }
        </section>
    }
}

async fn read(event: Event) -> Result<Option<file::Imported>, String> {
    let picked = match files::picked(event, limits::FILE_BYTES).await {
        Ok(picked) => picked,
        Err(NotPicked::Nothing) => return Ok(None),
        Err(NotPicked::TooLarge) => return Err(file::ImportError::TooLarge.to_string()),
        Err(NotPicked::Unreadable) => {
            return Err("The device does not give the file out; copy it to this device first.".into());
        }
    };
    let text = String::from_utf8(picked.bytes).map_err(|_| file::ImportError::NotAJournal.to_string())?;
    file::read(&text).map(Some).map_err(|why| why.to_string())
}

fn entries(count: usize) -> String {
    if count == 1 { "one entry".into() } else { format!("{count} entries") }
}

fn merged_words(merged: Merged) -> String {
    let added = match merged.added {
        0 => "Nothing in the file was new.".to_string(),
        1 => "One entry was added.".to_string(),
        added => format!("{added} entries were added."),
    };
    match merged.twins {
        0 => added,
        1 => format!("{added} One has the number of another that is here; both are kept."),
        twins => format!("{added} {twins} have the numbers of others that are here; both are kept."),
    }
}

#[component]
fn KeptHere() -> Html {
    let desk = use_desk();
    let keeping = use_state_eq(|| Keeping::Unknown);
    {
        let keeping = keeping.setter();
        use_effect_with((), move |()| spawn_local(async move { keeping.set(persistence::kept().await) }));
    }
    let ask = {
        let keeping = keeping.setter();
        Callback::from(move |_: MouseEvent| {
            let keeping = keeping.clone();
            spawn_local(async move { keeping.set(persistence::ask().await) });
        })
    };
    let copies = match desk.kept() {
        Kept::Well => "Both copies on this device are up to date.",
        Kept::Once => "Only one of the two copies on this device takes what is written.",
        Kept::Nowhere => "This browser keeps nothing for this page.",
    };
    let promise = match *keeping {
        Keeping::Promised => "The browser has promised to keep it.",
        Keeping::NotPromised => {
            "The browser has not promised to keep it: it may clear what is long unused. Export now and then."
        }
        Keeping::Unknown => "The browser does not say how long it keeps it. Export now and then.",
    };
    html! {
        <section aria-labelledby="keeping">
            <h2 id="keeping">{ "Keeping" }</h2>
            <p>{ copies }</p>
            <p>{ promise }</p>
            { for (*keeping == Keeping::NotPromised).then(|| html! { <button onclick={ask}>{ "Ask the browser to keep it" }</button> }) }
        </section>
    }
}

/// What could not be read.
fn set_aside(desk: &DeskNow) -> Html {
    let journal = desk.journal();
    if journal.set_aside().next().is_none() {
        return html! {};
    }
    html! {
        <section aria-labelledby="aside">
            <h2 id="aside">{ "Set aside" }</h2>
            <p>{ "These could not be read. They are kept as they are and travel in the export." }</p>
            <ul>{ for journal.set_aside().map(|aside| html! { <li><code>{ &aside.place }</code></li> }) }</ul>
        </section>
    }
}

/// What this device can do, tried out.
#[component]
fn DeviceCheck() -> Html {
    let results = use_state(|| None::<Vec<Check>>);
    let run = {
        let results = results.setter();
        Callback::from(move |_: MouseEvent| {
            let results = results.clone();
            spawn_local(async move { results.set(Some(check::all().await)) });
        })
    };
    html! {
        <section aria-labelledby="check">
            <h2 id="check">{ "This device" }</h2>
            <button onclick={run}>{ "Check this device" }</button>
            {
                for results.as_ref().map(|results| html! {
                    <ul class="checks" role="status">
                        { for results.iter().map(|check| html! {
                            <li data-check={check.name}>
                                <strong>{ if check.good { "Yes: " } else { "No: " } }</strong>{ &check.found }
                            </li>
                        }) }
                    </ul>
                })
            }
        </section>
    }
}
