//! The last step of every way in: a passage becomes a snippet of the piece.

use crate::{
    app::{
        components::{
            score_view::ScorePart,
            snippet_form::{Extent, snippet_form},
        },
        desk::use_desk,
        device::fields,
        route::Route,
        scores::Known,
    },
    journal::{EntryKind, PieceId},
    method::{Draft, Snippet, draft::Landmark},
    music::{Passage, PrintedPage, Tempo},
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
    let draft = use_state(|| None::<Draft>);
    let taps = use_state_eq(Landmark::default);
    let wrong = use_state_eq(|| false);
    let page = {
        let score = desk.score(props.piece).and_then(Known::read).map(|score| ScorePart { score, part: 0 });
        use_memo((props.passage.clone(), score), |(passage, score)| {
            Rc::new(PrintedPage::of(passage, score.as_ref().map(|part| &*part.score)))
        })
    };
    {
        let draft = draft.setter();
        let name = props.name.clone();
        use_effect_with((props.passage.clone(), props.tempo), move |(passage, tempo)| {
            let last = passage.onsets().len() - 1;
            draft.set(Snippet::new(name, passage.clone(), last, *tempo).ok().map(Draft::of));
        });
    }
    let Some(shaped) = (*draft).clone() else { return html! {} };
    let changed = {
        let (draft, shaped) = (draft.setter(), shaped.clone());
        Callback::from(move |snippet| draft.set(Some(shaped.reshaped(snippet))))
    };
    let set = {
        let (draft, shaped) = (draft.setter(), shaped.clone());
        Callback::from(move |(marks, onset)| draft.set(Some(shaped.with(marks, onset))))
    };
    let add = {
        let (piece, shaped, wrong) = (props.piece, shaped.clone(), wrong.setter());
        Callback::from(move |_: MouseEvent| {
            let is_wrong = fields::to_first_wrong();
            wrong.set(is_wrong);
            if !is_wrong {
                desk.record(EntryKind::SnippetAdded { piece, snippet: Rc::new(shaped.finished()) });
                Route::Piece(piece).go();
            }
        })
    };
    let set_taps = {
        let taps = taps.setter();
        Callback::from(move |marks| taps.set(marks))
    };
    let extent = Extent { span: shaped.span(), taps: *taps, set_taps, set };
    html! {
        <section class="new-snippet" aria-labelledby="new-snippet">
            <h2 id="new-snippet" tabindex="-1">{ say::the_snippet() }</h2>
            { snippet_form(shaped.whole(), &page, &changed, Some(&extent)) }
            <div class="last-step">
                { for wrong.then(|| html! { <p class="wrong" role="alert">{ say::mend_first() }</p> }) }
                <button class="primary large" onclick={add}>{ say::add_the_snippet() }</button>
            </div>
        </section>
    }
}
