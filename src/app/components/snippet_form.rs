//! A snippet as the player shapes it: its name, goal, tempo, direction and first hand.

use crate::{
    app::{
        components::{
            field::{NameField, choice_field, tempo_field},
            staff::Staff,
        },
        words,
    },
    method::{Direction, Grain, Hands, Snippet, Span, Step, draft::Landmark},
    music::{Hand, PrintedPage},
    words::say,
};
use std::rc::Rc;
use yew::prelude::*;

/// The span of a new snippet in all that was cut for it.
pub struct Extent {
    pub span: Span,
    /// What a tap on the staff sets.
    pub taps: Landmark,
    pub set_taps: Callback<Landmark>,
    /// Told what was set to which onset.
    pub set: Callback<(Landmark, usize)>,
}

/// The form of a snippet; `changed` is told with every change. A new snippet has an `extent` to be chosen.
pub fn snippet_form(
    snippet: &Rc<Snippet>,
    page: &Rc<PrintedPage>,
    changed: &Callback<Snippet>,
    extent: Option<&Extent>,
) -> Html {
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
    let set = |marks: Landmark| match extent {
        Some(extent) => extent.set.reform(move |onset: usize| (marks, onset)),
        None => change(|snippet, goal| snippet.clone().arriving_at(goal).unwrap_or(snippet)),
    };
    let span = extent.map_or(snippet.whole(), |extent| extent.span);
    let tapped = set(extent.map_or(Landmark::Goal, |extent| extent.taps));
    let whole = Step { span, hands: snippet.hands_in(span).unwrap_or(Hands::Line), bpm: snippet.tempo().bpm };
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
            <NameField label={say::name()} value={snippet.name().to_string()} missing={say::give_a_name()} changed={rename} />
            <p>{ say::tap_the_goal() }</p>
            { for extent.map(taps_set) }
            <Staff snippet={Rc::clone(snippet)} page={Rc::clone(page)} step={whole} {tapped} />
            { for extent.map(|extent| choice_field(say::begins_with(), &places(snippet), extent.span.first(), &set(Landmark::Begin))) }
            { choice_field(say::goal(), &places(snippet), snippet.goal(), &set(Landmark::Goal)) }
            { for extent.map(|extent| choice_field(say::ends_with(), &places(snippet), extent.span.last(), &set(Landmark::End))) }
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

/// What a tap on the staff sets.
fn taps_set(extent: &Extent) -> Html {
    let button = |(marks, words): (Landmark, &'static str)| {
        let onclick = extent.set_taps.reform(move |_: MouseEvent| marks);
        html! { <button {onclick} aria-pressed={(extent.taps == marks).to_string()}>{ words }</button> }
    };
    let choices = [(Landmark::Begin, say::the_begin()), (Landmark::Goal, say::goal()), (Landmark::End, say::the_end())];
    html! {
        <div class="taps-set" role="group" aria-label={say::a_tap_sets()}>
            <span>{ say::a_tap_sets() }</span>
            { for choices.into_iter().map(button) }
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
