//! Changing a snippet: every change is kept at once.

use crate::{
    app::{
        components::{absent::absent, snippet_form::snippet_form},
        desk::use_desk,
        device::fields,
        hooks::use_printed_page,
        route::Route,
    },
    journal::{EntryKind, SnippetEdit, SnippetId},
    method::Snippet,
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct SnippetProps {
    pub id: SnippetId,
}

#[component]
pub fn SnippetScreen(props: &SnippetProps) -> Html {
    let desk = use_desk();
    let id = props.id;
    let page = use_printed_page(&desk, id);
    let state = desk.state();
    let Some((record, page)) = state.snippet(id).zip(page) else {
        return absent(Route::Pieces, say::all_pieces());
    };
    let changed = {
        let (desk, snippet) = (desk.clone(), Rc::clone(&record.snippet));
        Callback::from(move |to: Snippet| {
            if let Some(to) = SnippetEdit::between(&snippet, &to) {
                desk.record(EntryKind::SnippetEdited { snippet: id, to });
            }
        })
    };
    let afresh = {
        let desk = desk.clone();
        Callback::from(move |_: MouseEvent| {
            desk.record(EntryKind::StartedAfresh { snippet: id });
            Route::Practise(id).go();
        })
    };
    let practise = Callback::from(move |_: MouseEvent| {
        if !fields::to_first_wrong() {
            Route::Practise(id).go();
        }
    });
    html! {
        <main class="page">
            <h1 tabindex="-1">{ record.snippet.name() }</h1>
            { snippet_form(&record.snippet, &page, &changed, None) }
            <p class="ways">
                <button class="primary" onclick={practise}>{ say::practise() }</button>
                <button onclick={Route::Piece(record.piece).on_tap()}>{ say::back_to_the_piece() }</button>
            </p>
            <p class="ways afresh">
                <button onclick={afresh}>{ say::start_afresh() }</button>
                <span>{ say::afresh_keeps_history() }</span>
            </p>
        </main>
    }
}
