//! Your data: how well it is kept, taking it to another device and bringing it from there.

use crate::{
    app::{
        desk::{DeskNow, use_desk},
        device::{
            check::{self, Check},
            files::{self, NotPicked},
            persistence::{self, Keeping},
            spawn_local,
        },
    },
    journal::{Merged, Removed, file, limits},
    words::{self, say},
};
use yew::prelude::*;

pub fn your_data(desk: &DeskNow) -> Html {
    html! {
        <main class="page data">
            <h1 tabindex="-1">{ say::your_data() }</h1>
            <p>{ say::stays_on_device() }</p>
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
        let label = say::bring_back_named(&removed.name);
        let of = removed.of.as_ref().map(|(_, title)| title.clone());
        html! {
            <li class="row" key={removed.entries[0].to_string()}>
                <span class="name">{ &removed.name }<small>{ words::removed(of.as_deref(), removed.at) }</small></span>
                <button onclick={bring_back} aria-label={label}>{ say::bring_back() }</button>
            </li>
        }
    };
    let rows: Vec<Html> = state.removed().map(row).collect();
    if rows.is_empty() {
        return html! {};
    }
    html! {
        <section aria-labelledby="removed">
            <h2 id="removed">{ say::removed() }</h2>
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
            <h2 id="export">{ say::export() }</h2>
            <p>{ say::one_file_with_all(count.into()) }</p>
            <button class="primary" onclick={export}>{ say::export_to_a_file() }</button>
            {
                match &*done {
                    None => html! {},
                    Some(Ok(name)) => html! { <p role="status">{ say::was_handed_over(name) }</p> },
                    Some(Err(())) => html! {
                        <p class="wrong" role="alert">{ say::no_file_made() }</p>
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
    /// What came in, and whether it survives the end of the browser.
    Done(Merged, bool),
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
                    Ok(Some(imported)) => {
                        let (merged, is_safe) = desk.import(imported).await;
                        Stage::Done(merged, is_safe)
                    }
                    Ok(None) => Stage::Waiting,
                    Err(why) => Stage::Refused(words::sentences([why, say::nothing_was_changed().into()])),
                });
            });
        })
    };
    html! {
        <section aria-labelledby="import">
            <h2 id="import">{ say::import() }</h2>
            <p>{ say::how_to_import() }</p>
            <label class="file"><span>{ say::import_from_a_file() }</span><input type="file" accept=".json,application/json" {onchange} /></label>
            {
                match &*stage {
                    Stage::Waiting => html! {},
                    Stage::Reading => html! { <p role="status">{ say::reading() }</p> },
                    Stage::Done(merged, is_safe) => html! { <p role="status">{ words::keeping::imported(merged, *is_safe) }</p> },
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
            return Err(say::file_not_given_out().into());
        }
    };
    let text = String::from_utf8(picked.bytes).map_err(|_| file::ImportError::NotAJournal.to_string())?;
    file::read(&text).map(Some).map_err(|why| why.to_string())
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
    let copies = words::keeping::kept(desk.kept());
    let promise = match *keeping {
        Keeping::Promised => say::promised_to_keep(),
        Keeping::NotPromised => say::not_promised_to_keep(),
        Keeping::Unknown => say::unknown_how_long(),
    };
    html! {
        <section aria-labelledby="keeping">
            <h2 id="keeping">{ say::keeping() }</h2>
            <p>{ copies }</p>
            <p>{ promise }</p>
            { for (*keeping == Keeping::NotPromised).then(|| html! { <button onclick={ask}>{ say::ask_to_keep() }</button> }) }
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
            <h2 id="aside">{ say::set_aside() }</h2>
            <p>{ say::why_set_aside() }</p>
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
            <h2 id="check">{ say::this_device() }</h2>
            <button onclick={run}>{ say::check_this_device() }</button>
            {
                for results.as_ref().map(|results| html! {
                    <ul class="checks" role="status">
                        { for results.iter().map(|check| html! {
                            <li data-check={check.name}>
                                <strong>{ if check.good { say::check_yes() } else { say::check_no() } }{ " " }</strong>{ &check.found }
                            </li>
                        }) }
                    </ul>
                })
            }
        </section>
    }
}
