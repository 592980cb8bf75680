//! One piece: what it is, when it is due, and its snippets.

use crate::{
    app::{
        components::{
            absent::absent,
            field::{moved, order_buttons, tempo_field, text_field},
        },
        desk::{DeskNow, use_desk},
        notices::Taken,
        route::Route,
    },
    clock::Day,
    journal::{EntryKind, Piece, PieceEdit, PieceId, PieceRecord, SnippetId, SnippetRecord, study},
    method::Snippet,
    music::pace::usual_tempo,
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

pub fn piece(desk: &DeskNow, taken: &Taken, id: PieceId) -> Html {
    let state = desk.state();
    let Some(record) = state.piece(id) else { return absent(Route::Pieces, say::all_pieces()) };
    html! {
        <main class="page piece">
            <h1 tabindex="-1">{ &record.piece.title }</h1>
            <section aria-labelledby="snippets">
                <h2 id="snippets">{ say::the_snippets() }</h2>
                {
                    if record.snippets.is_empty() {
                        html! { <p>{ say::no_snippet_yet() }</p> }
                    } else {
                        html! {
                            <ul class="rows">
                                { for record.snippets.iter().enumerate().map(|(place, id)| snippet_row(desk, taken, *id, place, &record.snippets)) }
                            </ul>
                        }
                    }
                }
                { for unions(desk, record).into_iter().map(|union| offer_union(desk, id, union)) }
                <p class="ways">
                    {
                        for (record.score.is_some() || study::is_study(id)).then(|| html! {
                            <button class="primary" onclick={Route::Score(id).on_tap()}>{ say::choose_bars_from_score() }</button>
                        })
                    }
                    <button onclick={Route::Tap(id).on_tap()}>{ say::tap_the_rhythm() }</button>
                    <button onclick={Route::Count(id).on_tap()}>{ say::count_the_onsets() }</button>
                </p>
            </section>
            <PieceForm {id} piece={record.piece.clone()} />
        </main>
    }
}

/// **Join snippets**: the unions of neighbours that have both held over a night, as long as they are not
/// there yet, from the end of the piece toward its start.
fn unions(desk: &DeskNow, piece: &PieceRecord) -> Vec<Snippet> {
    let state = desk.state();
    let all: Vec<&SnippetRecord> = piece.snippets.iter().filter_map(|id| state.snippet(*id)).collect();
    let has_held = |id: &SnippetId| desk.coach(*id).is_some_and(|coach| coach.has_held());
    let held = piece.snippets.iter().copied().filter(has_held);
    let held: Vec<&Snippet> = held.filter_map(|id| Some(&*state.snippet(id)?.snippet)).collect();
    let pairs = held.iter().flat_map(|one| held.iter().filter_map(|next| one.joined(next)));
    let new = |union: &Snippet| all.iter().all(|record| record.snippet.passage() != union.passage());
    let mut unions: Vec<Snippet> = pairs.filter(new).collect();
    unions.reverse();
    unions
}

fn offer_union(desk: &DeskNow, piece: PieceId, union: Snippet) -> Html {
    let (desk, name) = (desk.clone(), union.name().to_string());
    let union = Rc::new(union);
    let join = Callback::from(move |_: MouseEvent| {
        desk.record(EntryKind::SnippetAdded { piece, snippet: Rc::clone(&union) });
    });
    html! {
        <p class="offer">
            { say::neighbours_have_held() }
            <button class="primary" onclick={join}>{ say::join(&name) }</button>
        </p>
    }
}

fn snippet_row(desk: &DeskNow, taken: &Taken, id: SnippetId, place: usize, order: &[SnippetId]) -> Html {
    let state = desk.state();
    let Some(record) = state.snippet(id) else { return html! {} };
    let (piece, name) = (record.piece, record.snippet.name().to_string());
    let reorder = {
        let (desk, order) = (desk.clone(), order.to_vec());
        Callback::from(move |by| {
            desk.record(EntryKind::SnippetsOrdered { piece, snippets: moved(&order, place, by) });
        })
    };
    let duplicate = {
        let (desk, snippet) = (desk.clone(), Rc::clone(&record.snippet));
        Callback::from(move |_: MouseEvent| {
            let name = say::copy_of(snippet.name());
            let snippet: Rc<Snippet> = Rc::new((*snippet).clone().named(name));
            desk.record(EntryKind::SnippetAdded { piece, snippet });
        })
    };
    let remove = {
        let (desk, taken, name) = (desk.clone(), taken.clone(), name.clone());
        Callback::from(move |_: MouseEvent| {
            let by = desk.record(EntryKind::SnippetRemoved { snippet: id });
            taken.away(say::was_removed(&name), by);
        })
    };
    let onsets = record.snippet.passage().onsets().len();
    html! {
        <li class="row" key={id.0.to_string()}>
            <a class="name" href={Route::Practise(id).href()}>
                { &name }<small>{ say::onsets(onsets.into()) }</small>
            </a>
            <a class="button" href={Route::Snippet(id).href()} aria-label={say::change_named(&name)}>{ say::change() }</a>
            <button onclick={duplicate} aria-label={say::duplicate_named(&name)}>{ say::duplicate() }</button>
            { order_buttons(&name, place, order.len(), &reorder) }
            <button onclick={remove} aria-label={say::remove_named(&name)}>{ say::remove() }</button>
        </li>
    }
}

#[derive(PartialEq, Properties)]
struct PieceFormProps {
    id: PieceId,
    piece: Piece,
}

#[component]
fn PieceForm(props: &PieceFormProps) -> Html {
    let desk = use_desk();
    let wrong_title = use_state_eq(|| None::<String>);
    let wrong_date = use_state_eq(|| None::<String>);
    let change = {
        let (id, piece) = (props.id, props.piece.clone());
        move |change: &dyn Fn(&mut Piece)| {
            let mut to = piece.clone();
            change(&mut to);
            if let Some(to) = PieceEdit::between(&piece, &to) {
                desk.record(EntryKind::PieceEdited { piece: id, to });
            }
        }
    };
    let title = {
        let (change, wrong) = (change.clone(), wrong_title.clone());
        Callback::from(move |title: String| {
            let title = title.trim().to_string();
            if title.is_empty() {
                wrong.set(Some(say::give_a_title().to_string()));
            } else {
                wrong.set(None);
                change(&|piece| piece.title.clone_from(&title));
            }
        })
    };
    let composer = {
        let change = change.clone();
        Callback::from(move |composer: String| change(&|piece| piece.composer = composer.trim().to_string()))
    };
    let tempo = {
        let change = change.clone();
        Callback::from(move |tempo| change(&|piece| piece.tempo = Some(tempo)))
    };
    let date = {
        let wrong = wrong_date.clone();
        Callback::from(move |text: String| match (text.is_empty(), text.parse::<Day>()) {
            (true, _) => change(&|piece| piece.date = None),
            (false, Ok(day)) => {
                wrong.set(None);
                change(&|piece| piece.date = Some(day));
            }
            (false, Err(why)) => wrong.set(Some(why.to_string())),
        })
    };
    let piece = &props.piece;
    let due = piece.date.map(|day| day.to_string()).unwrap_or_default();
    html! {
        <section class="piece-form" aria-labelledby="the-piece">
            <h2 id="the-piece">{ say::the_piece() }</h2>
            { text_field(say::title(), "text", piece.title.clone(), &title, wrong_title.as_deref()) }
            { text_field(say::composer(), "text", piece.composer.clone(), &composer, None) }
            { text_field(say::performance_date(), "date", due, &date, wrong_date.as_deref()) }
            { tempo_field(piece.tempo.unwrap_or_else(usual_tempo), &tempo) }
        </section>
    }
}
