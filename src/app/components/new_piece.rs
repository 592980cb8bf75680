//! A piece by its title, where there is no score at hand. Nothing is added before it has one.

use crate::{
    app::{components::field::text_field, desk::use_desk, route::Route},
    journal::{EntryKind, Piece, PieceId},
    words::say,
};
use yew::prelude::*;

#[component]
pub fn NewPiece() -> Html {
    let desk = use_desk();
    let title = use_state(String::new);
    let is_missing = use_state_eq(|| false);
    let named = {
        let (title, is_missing) = (title.setter(), is_missing.setter());
        Callback::from(move |text: String| {
            is_missing.set(false);
            title.set(text.trim().to_string());
        })
    };
    let add = {
        let (title, is_missing) = (title.clone(), is_missing.setter());
        Callback::from(move |_: MouseEvent| {
            if title.is_empty() {
                return is_missing.set(true);
            }
            let piece = Piece { title: (*title).clone(), composer: String::new(), tempo: None, date: None };
            Route::Piece(PieceId(desk.record(EntryKind::PieceAdded(piece)))).go();
        })
    };
    let wrong = is_missing.then_some(say::give_a_title());
    html! {
        <div class="new-piece">
            { text_field(say::title(), "text", (*title).clone(), &named, wrong) }
            <button onclick={add}>{ say::add_by_title() }</button>
        </div>
    }
}
