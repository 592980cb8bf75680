//! A snippet by a plain count: so many onsets, the last is the goal.

use crate::{
    app::{
        components::{
            field::{NumberField, choice_field, text_field},
            new_snippet::NewSnippet,
        },
        desk::use_desk,
        route::Route,
        words,
    },
    journal::PieceId,
    method::Hands,
    music::{
        Hand, KnownTempi, Meter,
        counted::{MOST_COUNTED, counted},
    },
    words::say,
};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct CountProps {
    pub id: PieceId,
}

/// Who can play a counted snippet, most usual first.
const PLAYERS: [(Hands, &[Hand]); 4] = [
    (Hands::Both, &[Hand::Right, Hand::Left]),
    (Hands::Right, &[Hand::Right]),
    (Hands::Left, &[Hand::Left]),
    (Hands::Line, &[Hand::Line]),
];

#[component]
pub fn CountIn(props: &CountProps) -> Html {
    let desk = use_desk();
    let onsets = use_state(|| 7_u32);
    let player = use_state(|| 0_usize);
    let meter = use_meter();
    let state = desk.state();
    let piece = state.piece(props.id).and_then(|record| record.piece.tempo);
    let tempo = KnownTempi { piece, ..KnownTempi::default() }.offered(meter.meter);
    let (_, hands) = PLAYERS[*player];
    let passage = counted(*onsets as usize, hands, meter.meter);
    let set_onsets = {
        let onsets = onsets.setter();
        Callback::from(move |number| onsets.set(number))
    };
    let set_player = {
        let player = player.setter();
        Callback::from(move |place: usize| player.set(place.min(PLAYERS.len() - 1)))
    };
    html! {
        <main class="page count">
            <h1 tabindex="-1">{ say::count_the_onsets() }</h1>
            <p>{ say::what_an_onset_is() }</p>
            <div class="fields">
                <NumberField label={say::onset_count()} value={*onsets} range={1..=MOST_COUNTED as u32} changed={set_onsets} />
                { choice_field(say::played_by(), &PLAYERS.map(|(hands, _)| words::hands(hands).to_string()), *player, &set_player) }
                { meter.field }
            </div>
            {
                match passage {
                    Ok(passage) => {
                        let name = say::onsets(passage.onsets().len().into());
                        html! { <NewSnippet piece={props.id} {passage} {name} {tempo} /> }
                    }
                    Err(why) => html! { <p class="wrong" role="alert">{ why.to_string() }</p> },
                }
            }
            <p class="ways"><button onclick={Route::Piece(props.id).on_tap()}>{ say::back_to_the_piece() }</button></p>
        </main>
    }
}

/// A meter that the player types.
pub struct MeterChoice {
    pub meter: Meter,
    pub field: Html,
}

/// A field for the meter, common time until it is changed.
#[hook]
pub fn use_meter() -> MeterChoice {
    let meter = use_state(|| Meter::COMMON);
    let wrong = use_state_eq(|| None::<String>);
    let changed = {
        let (meter, wrong) = (meter.setter(), wrong.setter());
        Callback::from(move |text: String| match text.parse::<Meter>() {
            Ok(read) => {
                wrong.set(None);
                meter.set(read);
            }
            Err(why) => wrong.set(Some(why.to_string())),
        })
    };
    let field = text_field(say::meter(), "text", meter.to_string(), &changed, wrong.as_deref());
    MeterChoice { meter: *meter, field }
}
