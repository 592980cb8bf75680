//! Form fields: a label, the control, and a sentence where what was typed will not do.

use crate::music::{BeatUnit, Bpm, NoteValue, Tempo};
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct TextFieldProps {
    pub label: AttrValue,
    pub value: AttrValue,
    /// Told when the player leaves the field or presses Enter.
    pub changed: Callback<String>,
    #[prop_or("text".into())]
    pub kind: AttrValue,
    /// What is wrong with the value, and what to do.
    #[prop_or_default]
    pub wrong: Option<String>,
}

#[component]
pub fn TextField(props: &TextFieldProps) -> Html {
    let onchange = props.changed.reform(|event: Event| typed(&event));
    html! {
        <label class="field">
            <span>{ &props.label }</span>
            <input type={&props.kind} value={&props.value} {onchange} aria-invalid={props.wrong.is_some().to_string()} />
            { for props.wrong.as_ref().map(|wrong| html! { <em role="alert">{ wrong }</em> }) }
        </label>
    }
}

/// What stands in the input field that the event came from.
fn typed(event: &Event) -> String {
    let field = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
    field.map(|field| field.value()).unwrap_or_default()
}

#[derive(PartialEq, Properties)]
pub struct NumberFieldProps {
    pub label: AttrValue,
    pub value: u32,
    pub least: u32,
    pub most: u32,
    pub changed: Callback<u32>,
}

/// A whole number from `least` to `most`; anything else is answered with a sentence and changes
/// nothing.
#[component]
pub fn NumberField(props: &NumberFieldProps) -> Html {
    let wrong = use_state_eq(|| None);
    let changed = {
        let (changed, wrong, range) = (props.changed.clone(), wrong.clone(), props.least..=props.most);
        Callback::from(move |text: String| match text.trim().parse::<u32>() {
            Ok(number) if range.contains(&number) => {
                wrong.set(None);
                changed.emit(number);
            }
            _ => wrong.set(Some(format!("Give a whole number from {} to {}.", range.start(), range.end()))),
        })
    };
    html! { <TextField label={&props.label} value={props.value.to_string()} {changed} kind="number" wrong={(*wrong).clone()} /> }
}

#[derive(PartialEq, Properties)]
pub struct ChoiceProps {
    pub label: AttrValue,
    /// The words of the choices, in order.
    pub choices: Vec<String>,
    pub chosen: usize,
    pub choose: Callback<usize>,
}

/// One of several, by its place in the list.
#[component]
pub fn Choice(props: &ChoiceProps) -> Html {
    let onchange = props.choose.reform(|event: Event| {
        let field = event.target().and_then(|target| target.dyn_into::<HtmlSelectElement>().ok());
        field.map_or(0, |field| usize::try_from(field.selected_index()).unwrap_or(0))
    });
    let choice = |(place, words): (usize, &String)| {
        html! { <option selected={place == props.chosen}>{ words }</option> }
    };
    html! {
        <label class="field">
            <span>{ &props.label }</span>
            <select {onchange}>{ for props.choices.iter().enumerate().map(choice) }</select>
        </label>
    }
}

/// The beats that a tempo can count, most usual first.
const BEATS: [BeatUnit; 7] = [
    BeatUnit::QUARTER,
    BeatUnit::new(NoteValue::Quarter, 1),
    BeatUnit::new(NoteValue::Half, 0),
    BeatUnit::new(NoteValue::Half, 1),
    BeatUnit::new(NoteValue::Eighth, 0),
    BeatUnit::new(NoteValue::Eighth, 1),
    BeatUnit::new(NoteValue::Sixteenth, 0),
];

#[derive(PartialEq, Properties)]
pub struct TempoFieldProps {
    pub tempo: Tempo,
    pub changed: Callback<Tempo>,
}

/// A tempo: the beat and how many of it a minute holds, typed or tapped.
#[component]
pub fn TempoField(props: &TempoFieldProps) -> Html {
    let tempo = props.tempo;
    let chosen = BEATS.iter().position(|beat| *beat == tempo.beat).unwrap_or(0);
    let choose =
        props.changed.reform(move |place: usize| Tempo { beat: *BEATS.get(place).unwrap_or(&BEATS[0]), ..tempo });
    let pace = props.changed.reform(move |bpm: u32| tempo.at(Bpm::nearest(f64::from(bpm))));
    let tapped = props.changed.reform(move |bpm: Bpm| tempo.at(bpm));
    let (least, most) = (u32::from(Bpm::MIN.get()), u32::from(Bpm::MAX.get()));
    html! {
        <fieldset class="tempo">
            <legend>{ "Tempo" }</legend>
            <Choice label="Beat" choices={BEATS.map(super::super::words::beat).to_vec()} {chosen} {choose} />
            <NumberField label="Beats a minute" value={u32::from(tempo.bpm.get())} {least} {most} changed={pace} />
            <super::tap_tempo::TapTempo {tapped} />
        </fieldset>
    }
}

#[derive(PartialEq, Properties)]
pub struct OrderProps {
    pub name: AttrValue,
    pub place: usize,
    pub of: usize,
    /// Told to move one place up (-1) or down (1).
    pub reorder: Callback<isize>,
}

/// Two buttons that move a row up and down.
#[component]
pub fn Order(props: &OrderProps) -> Html {
    let (up, down) = (props.reorder.reform(|_: MouseEvent| -1), props.reorder.reform(|_: MouseEvent| 1));
    html! {
        <span class="order">
            <button onclick={up} disabled={props.place == 0} aria-label={format!("Move {} up", props.name)}>{ "↑" }</button>
            <button onclick={down} disabled={props.place + 1 >= props.of} aria-label={format!("Move {} down", props.name)}>
                { "↓" }
            </button>
        </span>
    }
}

/// The order after the item at `place` has moved by one.
pub fn moved<T: Copy>(order: &[T], place: usize, by: isize) -> Vec<T> {
    let mut order = order.to_vec();
    let to = place.saturating_add_signed(by).min(order.len().saturating_sub(1));
    let item = order.remove(place);
    order.insert(to, item);
    order
}
