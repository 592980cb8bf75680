//! A snippet as the player shapes it: its name, goal, tempo, direction and first hand.

use super::super::words;
use super::{
    field::{choice_field, tempo_field, text_field},
    staff::Staff,
};
use crate::{
    method::{Direction, Grain, Hands, Snippet, Step},
    music::{Hand, Page},
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

/// The form of a snippet; `changed` is told with every change.
pub fn snippet_form(snippet: &Rc<Snippet>, page: &Rc<Page>, changed: &Callback<Snippet>) -> Html {
    let change = |change: fn(Snippet, usize) -> Snippet| {
        let (changed, snippet) = (changed.clone(), Rc::clone(snippet));
        Callback::from(move |choice: usize| changed.emit(change((*snippet).clone(), choice)))
    };
    let rename = {
        let (changed, snippet) = (changed.clone(), Rc::clone(snippet));
        Callback::from(move |name: String| changed.emit((*snippet).clone().named(name)))
    };
    let retime = {
        let (changed, snippet) = (changed.clone(), Rc::clone(snippet));
        Callback::from(move |tempo| changed.emit((*snippet).clone().at_tempo(tempo)))
    };
    let aim = change(|snippet, goal| snippet.clone().arriving_at(goal).unwrap_or(snippet));
    let whole = Step {
        span: snippet.whole(),
        hands: snippet.hands_in(snippet.whole()).unwrap_or(Hands::Line),
        bpm: snippet.tempo().bpm,
    };
    let hands = players(snippet);
    let direction = DIRECTIONS.iter().position(|way| *way == snippet.direction()).unwrap_or(0);
    let grow = change(|snippet, place| snippet.growing(DIRECTIONS[place.min(1)]));
    let grain = GRAINS.iter().position(|grain| *grain == snippet.grain()).unwrap_or(0);
    let grow_by = change(|snippet, place| snippet.growing_by(GRAINS[place.min(2)]));
    let hard = hands.iter().position(|hand| *hand == snippet.hard_hand()).unwrap_or(0);
    let lead = change(|snippet, place| match players(&snippet).get(place).copied() {
        Some(hand) => snippet.led_by(hand),
        None => snippet,
    });
    html! {
        <div class="snippet-form">
            { text_field(say::name(), "text", snippet.name().to_string(), &rename, None) }
            <p>{ say::tap_the_goal() }</p>
            <Staff snippet={Rc::clone(snippet)} page={Rc::clone(page)} step={whole} tapped={aim.clone()} />
            { choice_field(say::goal(), &places(snippet), snippet.goal(), &aim) }
            { tempo_field(snippet.tempo(), &retime) }
            { choice_field(say::grows(), &DIRECTIONS.map(|way| words::direction(way).to_string()), direction, &grow) }
            { choice_field(say::at_a_time(), &GRAINS.map(|grain| words::grain(grain).to_string()), grain, &grow_by) }
            {
                for (hands.len() > 1).then(|| {
                    let words: Vec<String> = hands.iter().map(|hand| words::hand(*hand).to_string()).collect();
                    choice_field(say::difficult_hand(), &words, hard, &lead)
                })
            }
        </div>
    }
}

const GRAINS: [Grain; 3] = [Grain::Onset, Grain::Beat, Grain::Bar];
const DIRECTIONS: [Direction; 2] = [Direction::TowardGoal, Direction::SettingOut];

/// The hands that have something to play.
fn players(snippet: &Snippet) -> Vec<Hand> {
    let plays = |hand: &Hand| snippet.passage().onsets().iter().any(|onset| onset.plays(*hand));
    [Hand::Left, Hand::Right, Hand::Line].into_iter().filter(plays).collect()
}

/// Where each onset is, in words.
fn places(snippet: &Snippet) -> Vec<String> {
    let passage = snippet.passage();
    let place = |onset| say::onset_at(onset as i64 + 1, &words::place(passage, onset));
    (0..passage.onsets().len()).map(place).collect()
}
