//! A gentle word where nothing has been exported for long.

use crate::{
    app::{
        desk::use_desk,
        device::{persistence, spawn_local},
        route::Route,
    },
    journal::keeping::Outlook,
    words::{keeping, say},
};
use yew::prelude::*;

#[component]
pub fn ExportReminder() -> Html {
    let desk = use_desk();
    let outlook = use_state_eq(|| Outlook::Promised);
    {
        let outlook = outlook.setter();
        use_effect_with((), move |()| spawn_local(async move { outlook.set(persistence::kept().await) }));
    }
    let first = desk.journal().writers().map(|(_, writer)| writer.first).min();
    let days = outlook.days_without_export(desk.exported(), first, desk.now());
    html! {
        <>
            {
                for days.map(|days| html! {
                    <p class="offer">
                        <span>{ keeping::reminder(*outlook, days) }</span>
                        <button onclick={Route::Data.on_tap()}>{ say::export_now() }</button>
                    </p>
                })
            }
        </>
    }
}
