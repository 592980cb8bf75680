//! Erasing everything, once the number of entries has been typed.

use crate::{
    app::{
        components::field::text_field,
        desk::use_desk,
        device::{location, spawn_local},
    },
    words::say,
};
use yew::prelude::*;

#[component]
pub fn Erase() -> Html {
    let desk = use_desk();
    let (typed, failed) = (use_state_eq(String::new), use_state_eq(|| false));
    let count = desk.journal().count();
    let is_confirmed = typed.trim() == count.to_string();
    let is_exported = desk.exported().is_some_and(|at| at.day() == desk.now().day());
    let typing = {
        let typed = typed.setter();
        Callback::from(move |text: String| typed.set(text))
    };
    let erase = {
        let failed = failed.setter();
        Callback::from(move |_: MouseEvent| {
            let (desk, failed) = (desk.clone(), failed.clone());
            spawn_local(async move {
                match desk.erase().await {
                    true => location::start_again(),
                    false => failed.set(true),
                }
            });
        })
    };
    html! {
        <section aria-labelledby="erase">
            <h2 id="erase">{ say::erase() }</h2>
            <p>{ say::what_erasing_does() }</p>
            { for (!is_exported).then(|| html! { <p>{ say::export_first() }</p> }) }
            // A field is as wide as it may grow, and would be as high in a column.
            <div>{ text_field(&say::type_to_erase(count as i64), "text", (*typed).clone(), &typing, None) }</div>
            <button onclick={erase} disabled={!is_confirmed}>{ say::erase_now() }</button>
            { for failed.then(|| html! { <p class="wrong" role="alert">{ say::not_all_erased() }</p> }) }
        </section>
    }
}
