//! The program had broken down. Nothing is opened here that could break down again: what is saved is handed out as it
//! lies there.

use crate::{
    app::{
        device::{
            clock,
            files::{self, Made},
            indexed::{self, Indexed},
            local, location, patience, spawn_local,
        },
        stores::PATIENCE_MS,
    },
    journal::{rescue, shelf::Texts},
    words::say,
};
use yew::prelude::*;

#[component]
pub fn Stopped() -> Html {
    let safe_copy = use_state(|| None::<Texts>);
    let failed = use_state_eq(|| false);
    {
        let set = safe_copy.setter();
        use_effect_with((), move |()| {
            spawn_local(async move { set.set(Some(in_the_database().await)) });
        });
    }
    let export = {
        let (safe_copy, failed) = (safe_copy.clone(), failed.setter());
        Callback::from(move |_: MouseEvent| {
            let quick_copy = local::read_all("").unwrap_or_default().into_iter().collect();
            let copies = [quick_copy].into_iter().chain((*safe_copy).clone()).collect();
            let now = clock::now();
            let name = format!("tailfirst-saved-{}.json", now.day());
            let handed = Made::of(&rescue::written(copies, now)).and_then(|file| files::hand_out(&name, &file));
            failed.set(handed.is_err());
        })
    };
    let again = |_: MouseEvent| location::start_again();
    html! {
        <main class="page">
            <h1 tabindex="-1">{ say::has_stopped() }</h1>
            <p role="alert">{ say::what_is_kept_stays() }</p>
            <button class="primary" onclick={again}>{ say::start_again() }</button>
            <p>{ say::if_it_stops_again() }</p>
            <button onclick={export} disabled={safe_copy.is_none()}>{ say::export_what_is_saved() }</button>
            { for failed.then(|| html! { <p class="wrong" role="alert">{ say::no_file_made() }</p> }) }
        </main>
    }
}

/// What the safe copy holds, as far as the database answers.
async fn in_the_database() -> Texts {
    let read = async { Indexed::open(indexed::JOURNAL, || ()).await.ok()?.read_all().await.ok() };
    let found = patience::within(PATIENCE_MS, read, |_| ()).await;
    found.flatten().unwrap_or_default().into_iter().collect()
}
