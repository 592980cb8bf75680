//! A window that does not write: it shows what the one that does has written last, as it is written.

use crate::{
    app::{
        device::{clock, local},
        words,
    },
    journal::{Journal, SnippetRecord, shelf},
    method::Tally,
    words::say,
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct FollowingProps {
    /// Makes this the window that writes.
    pub go_on_here: Callback<MouseEvent>,
}

#[component]
pub fn Following(props: &FollowingProps) -> Html {
    let journal = use_memo((), |()| RefCell::new(read()));
    let redraw = use_force_update();
    {
        let journal = Rc::clone(&journal);
        use_effect_with((), move |()| {
            let hearing = local::hear(move |key, text| {
                match shelf::tells_of_many(key) {
                    true => *journal.borrow_mut() = read(),
                    false => _ = shelf::hear(&mut journal.borrow_mut(), key, text),
                }
                redraw.force_update();
            });
            move || drop(hearing)
        });
    }
    let state = journal.borrow().shared_state();
    let latest = state.latest().map(|record| html! { <p role="status">{ stands(record) }</p> });
    html! {
        <main class="page">
            <h1 tabindex="-1">{ say::open_in_another_window() }</h1>
            <p>{ say::why_one_window() }</p>
            <button class="primary" onclick={&props.go_on_here}>{ say::go_on_here() }</button>
            { for latest }
        </main>
    }
}

fn read() -> Journal {
    let texts = local::read_all("").unwrap_or_default().into_iter().collect();
    shelf::open(&[texts], clock::now().day()).journal
}

/// What is practised in the other window, and how it stands.
fn stands(record: &SnippetRecord) -> String {
    let tally = Tally::of(&record.snippet, record.history());
    let last = record.last_verdict().map(|verdict| words::verdict(verdict).to_string());
    words::labels([record.snippet.name().to_string()].into_iter().chain(last).chain([words::share_clean(&tally)]))
}
