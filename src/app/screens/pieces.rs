//! Pieces: what is being prepared, in the player's order, and the ways a piece comes in.

use crate::{
    app::{
        components::{
            field::{moved, order_buttons},
            new_piece::NewPiece,
            score_field::ScoreField,
        },
        desk::DeskNow,
        notices::Taken,
        route::Route,
        words,
    },
    journal::{EntryKind, Piece, PieceId, PieceRecord, SnippetId},
    method::Snippet,
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

pub fn pieces(desk: &DeskNow, taken: &Taken) -> Html {
    let state = desk.state();
    let order: Vec<PieceId> = state.pieces().iter().map(|record| record.id).collect();
    html! {
        <main class="page pieces">
            <h1 tabindex="-1">{ say::pieces() }</h1>
            {
                if order.is_empty() {
                    html! { <p>{ say::no_piece_yet() }</p> }
                } else {
                    html! {
                        <ul class="rows">
                            { for state.pieces().iter().enumerate().map(|(place, record)| piece_row(desk, taken, record, place, &order)) }
                        </ul>
                    }
                }
            }
            <section class="add" aria-labelledby="add-piece">
                <h2 id="add-piece">{ say::add_a_piece() }</h2>
                <ScoreField />
                <p>{ say::no_score_at_hand() }</p>
                <NewPiece />
            </section>
        </main>
    }
}

fn piece_row(desk: &DeskNow, taken: &Taken, record: &PieceRecord, place: usize, order: &[PieceId]) -> Html {
    let (id, piece) = (record.id, record.piece.clone());
    let reorder = {
        let (desk, order) = (desk.clone(), order.to_vec());
        Callback::from(move |by| {
            desk.record(EntryKind::PiecesOrdered(moved(&order, place, by)));
        })
    };
    let remove = {
        let (desk, taken, title) = (desk.clone(), taken.clone(), piece.title.clone());
        Callback::from(move |_: MouseEvent| {
            let by = desk.record(EntryKind::PieceRemoved { piece: id });
            taken.away(say::was_removed(&title), by);
        })
    };
    let duplicate = {
        let (desk, record) = (desk.clone(), record.clone());
        Callback::from(move |_: MouseEvent| duplicate(&desk, &record))
    };
    let snippets = record.snippets.len();
    let about = [Some(piece.composer).filter(|composer| !composer.is_empty()), Some(say::snippets(snippets.into()))];
    html! {
        <li class="row" key={id.0.to_string()}>
            <a class="name" href={Route::Piece(id).href()}>
                { &piece.title }
                <small>{ words::labels(about.into_iter().flatten()) }</small>
            </a>
            { order_buttons(&piece.title, place, order.len(), &reorder) }
            <button onclick={duplicate} aria-label={say::duplicate_named(&piece.title)}>{ say::duplicate() }</button>
            <button onclick={remove} aria-label={say::remove_named(&piece.title)}>{ say::remove() }</button>
        </li>
    }
}

/// Adds a copy of the piece with its score and its snippets; what was practised stays with the first.
fn duplicate(desk: &DeskNow, record: &PieceRecord) {
    let title = say::copy_of(&record.piece.title);
    let piece = PieceId(desk.record(EntryKind::PieceAdded(Piece { title, ..record.piece.clone() })));
    if let Some(file) = record.score.clone() {
        desk.record(EntryKind::ScoreKept { piece, file });
    }
    let snippet = |id: &SnippetId| desk.state().snippet(*id).map(|record| Rc::clone(&record.snippet));
    let snippets: Vec<Rc<Snippet>> = record.snippets.iter().filter_map(snippet).collect();
    for snippet in snippets {
        desk.record(EntryKind::SnippetAdded { piece, snippet });
    }
}
