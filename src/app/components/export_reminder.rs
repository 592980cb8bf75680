//! A gentle word where nothing has been exported for long.

use crate::{
    app::{
        desk::use_desk,
        device::{
            persistence::{self, Persistence},
            spawn_local,
        },
        route::Route,
    },
    journal::keeping::days_without_export,
    words::say,
};
use yew::prelude::*;

#[component]
pub fn ExportReminder() -> Html {
    let desk = use_desk();
    let promised = use_state_eq(|| true);
    {
        let promised = promised.setter();
        use_effect_with((), move |()| {
            spawn_local(async move { promised.set(persistence::kept().await == Persistence::Promised) });
        });
    }
    let first = desk.journal().writers().map(|(_, writer)| writer.first).min();
    let days = days_without_export(desk.exported(), first, desk.now(), *promised);
    html! {
        <>
            {
                for days.map(|days| html! {
                    <p class="offer">
                        { say::nothing_exported_for(days.unsigned_abs().into()) }
                        <button onclick={Route::Data.on_tap()}>{ say::export_now() }</button>
                    </p>
                })
            }
        </>
    }
}
