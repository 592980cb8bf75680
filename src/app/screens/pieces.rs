//! Pieces: what is being prepared, in the player's order, and the ways a piece comes in.

use super::super::{
    components::{
        field::{Order, moved},
        score_field::ScoreField,
    },
    desk::use_desk,
    notices::Taken,
    route::Route,
    words,
};
use crate::journal::{Event, Piece, PieceId, PieceRecord};
use yew::prelude::*;

#[component]
pub fn Pieces() -> Html {
    let desk = use_desk();
    let state = desk.state();
    let order: Vec<PieceId> = state.pieces().iter().map(|record| record.id).collect();
    let added_by_hand = {
        let desk = desk.clone();
        Callback::from(move |_: MouseEvent| {
            let piece = Piece { title: "Untitled piece".into(), composer: String::new(), tempo: None, date: None };
            Route::Piece(PieceId(desk.record(Event::PieceAdded(piece)))).go();
        })
    };
    html! {
        <main class="page pieces">
            <h1 tabindex="-1">{ "Pieces" }</h1>
            {
                if order.is_empty() {
                    html! { <p>{ "No piece yet. Add the one you are preparing." }</p> }
                } else {
                    html! {
                        <ul class="rows">
                            { for state.pieces().iter().enumerate().map(|(place, record)| html! {
                                <PieceRow record={record.clone()} {place} order={order.clone()} key={record.id.0.to_string()} />
                            }) }
                        </ul>
                    }
                }
            }
            <section class="add" aria-labelledby="add-piece">
                <h2 id="add-piece">{ "Add a piece" }</h2>
                <ScoreField />
                <p>{ "No score at hand? Give it a title, then tap the rhythm in or count its onsets." }</p>
                <button onclick={added_by_hand}>{ "Add a piece by its title" }</button>
            </section>
        </main>
    }
}

#[derive(PartialEq, Properties)]
struct PieceRowProps {
    record: PieceRecord,
    place: usize,
    order: Vec<PieceId>,
}

#[component]
fn PieceRow(props: &PieceRowProps) -> Html {
    let desk = use_desk();
    let taken = use_context::<Taken>().expect("every screen can take away and bring back");
    let (id, piece) = (props.record.id, props.record.piece.clone());
    let reorder = {
        let (desk, order, place) = (desk.clone(), props.order.clone(), props.place);
        Callback::from(move |by| {
            desk.record(Event::PiecesOrdered(moved(&order, place, by)));
        })
    };
    let remove = {
        let title = piece.title.clone();
        Callback::from(move |_: MouseEvent| {
            let by = desk.record(Event::PieceRemoved { piece: id });
            taken.away(format!("{title} was removed."), by);
        })
    };
    let snippets = props.record.snippets.len();
    let about = [Some(piece.composer).filter(|composer| !composer.is_empty()), Some(words::count(snippets, "snippet"))];
    html! {
        <li class="row">
            <a class="name" href={format!("#{}", Route::Piece(id))}>
                { &piece.title }
                <small>{ about.into_iter().flatten().collect::<Vec<_>>().join(" · ") }</small>
            </a>
            <Order name={piece.title.clone()} place={props.place} of={props.order.len()} {reorder} />
            <button onclick={remove} aria-label={format!("Remove {}", piece.title)}>{ "Remove" }</button>
        </li>
    }
}
