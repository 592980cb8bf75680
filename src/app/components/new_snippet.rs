//! The last step of every way in: a passage becomes a snippet of the piece.

use super::super::{desk::use_desk, route::Route, scores::Known};
use super::{score_view::ScorePart, snippet_form::snippet_form};
use crate::{
    journal::{Event, PieceId},
    method::Snippet,
    music::{Page, Passage, Tempo},
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct NewSnippetProps {
    pub piece: PieceId,
    pub passage: Passage,
    pub name: String,
    pub tempo: Tempo,
}

#[component]
pub fn NewSnippet(props: &NewSnippetProps) -> Html {
    let desk = use_desk();
    let draft = use_state(|| None::<Rc<Snippet>>);
    let page = {
        let score = desk.score(props.piece).and_then(Known::read).map(|score| ScorePart { score, part: 0 });
        use_memo((props.passage.clone(), score), |(passage, score)| {
            Rc::new(Page::of(passage, score.as_ref().map(|part| &*part.score)))
        })
    };
    {
        let draft = draft.setter();
        let name = props.name.clone();
        use_effect_with((props.passage.clone(), props.tempo), move |(passage, tempo)| {
            let last = passage.onsets().len() - 1;
            draft.set(Snippet::new(name, passage.clone(), last, *tempo).ok().map(Rc::new));
        });
    }
    let Some(snippet) = (*draft).clone() else { return html! {} };
    let changed = {
        let draft = draft.setter();
        Callback::from(move |snippet| draft.set(Some(Rc::new(snippet))))
    };
    let add = {
        let (piece, snippet) = (props.piece, Rc::clone(&snippet));
        Callback::from(move |_: MouseEvent| {
            desk.record(Event::SnippetAdded { piece, snippet: Rc::clone(&snippet) });
            Route::Piece(piece).go();
        })
    };
    html! {
        <section class="new-snippet" aria-labelledby="new-snippet">
            <h2 id="new-snippet">{ say::the_snippet() }</h2>
            { snippet_form(&snippet, &page, &changed) }
            <button class="primary large" onclick={add}>{ say::add_the_snippet() }</button>
        </section>
    }
}
