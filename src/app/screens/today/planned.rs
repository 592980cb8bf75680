//! The plan of the minutes that the player has, as rows by the clock.

use crate::{
    agenda::plan::{DayPlan, Entry},
    app::{desk::DeskNow, route::Route, screens::today::piece_title, words},
    journal::SnippetId,
    words::say,
};
use yew::prelude::*;

/// What comes after the card of what is to be played now.
pub fn rows(desk: &DeskNow, plan: &DayPlan, on_the_card: Option<SnippetId>) -> Html {
    let is_shown = |(index, entry): &(usize, &Entry)| {
        *index > 0 || !matches!(entry, Entry::Block(id, _) if Some(*id) == on_the_card)
    };
    let rest = plan.entries.iter().enumerate().filter(is_shown).map(|(_, entry)| row(desk, entry));
    html! {
        <section class="planned" aria-label={say::the_plan()}>
            <p>{ say::planned_until(&words::wall(plan.until)) }</p>
            <ol class="rows">{ for rest }</ol>
        </section>
    }
}

fn row(desk: &DeskNow, entry: &Entry) -> Html {
    match entry {
        Entry::Block(id, begins) => {
            let state = desk.state();
            let Some(record) = state.snippet(*id) else { return html! {} };
            html! {
                <li>
                    <a class="row" href={Route::Practise(*id).href()}>
                        <span class="side">{ words::wall(*begins) }</span>
                        <span class="name">{ record.snippet.name() }<small>{ piece_title(&state, record) }</small></span>
                    </a>
                </li>
            }
        }
        Entry::Pause(begins, _) => html! {
            <li class="row pause">
                <span class="side">{ words::wall(*begins) }</span>
                <span>{ say::away_from_the_keys() }</span>
            </li>
        },
    }
}

/// The card where nothing is to be played now.
pub fn wait(plan: &DayPlan) -> Html {
    let told = plan.next_begins().map(|begins| say::away_until(&words::wall(begins)));
    html! { <section class="next"><p>{ told.unwrap_or_else(|| say::nothing_more_needs_these_minutes().into()) }</p></section> }
}
