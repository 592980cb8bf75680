//! Your data: how well it is kept, taking it to another device and bringing it from there.

mod before;
mod erase;
mod export;
mod here;
mod import;

use crate::{
    app::{
        desk::{DeskNow, use_desk},
        device::{
            check::{self, Check},
            persistence, spawn_local,
        },
    },
    journal::{Removed, keeping::Outlook},
    words::{self, say},
};
use before::Before;
use erase::Erase;
use export::Export;
use here::what_is_here;
use import::Import;
use yew::prelude::*;

pub fn your_data(desk: &DeskNow) -> Html {
    html! {
        <main class="page data">
            <h1 tabindex="-1">{ say::your_data() }</h1>
            <p>{ say::stays_on_device() }</p>
            <Export />
            <Import />
            <Before />
            { removed(desk) }
            { what_is_here(desk) }
            <KeptHere />
            { written_later(desk) }
            { set_aside(desk) }
            <DeviceCheck />
            <Erase />
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
fn KeptHere() -> Html {
    let desk = use_desk();
    let keeping = use_state_eq(|| Outlook::Unknown);
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
    let may_ask = matches!(*keeping, Outlook::Unpromised | Outlook::ClearedUnlessVisited);
    html! {
        <section aria-labelledby="keeping">
            <h2 id="keeping">{ say::keeping() }</h2>
            <p>{ copies }</p>
            <p>{ words::keeping::outlook(*keeping) }</p>
            { for may_ask.then(|| html! { <button onclick={ask}>{ say::ask_to_keep() }</button> }) }
        </section>
    }
}

/// What only a newer version can show.
fn written_later(desk: &DeskNow) -> Html {
    let entries = desk.state().written_later();
    if entries == 0 {
        return html! {};
    }
    html! {
        <section aria-labelledby="later">
            <h2 id="later">{ say::later_heading() }</h2>
            <p>{ say::written_later(entries.into()) }</p>
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

/// A sentence on what is being done, how far it is, and a button to cancel it.
fn under_way(what: &'static str, hundredths: u8, call_off: Callback<MouseEvent>) -> Html {
    html! {
        <>
            <p role="status">
                { what }
                <progress max="100" value={hundredths.to_string()} aria-label={say::how_much_is_done()} />
            </p>
            <button onclick={call_off}>{ say::cancel() }</button>
        </>
    }
}
