//! Form fields: a label, the control, and a sentence where the value is invalid.

use crate::{
    app::{components::tap_tempo::TapTempo, device::fields, words},
    journal::limits,
    music::{BeatUnit, Bpm, NoteValue, Tempo},
    words::say,
};
use std::ops::RangeInclusive;
use yew::prelude::*;

/// A line of text; `kind` is the input's type, `changed` is told when the player leaves the field or
/// presses Enter, `wrong` says what is wrong with the value and what to do.
pub fn text_field(
    label: &str,
    kind: &'static str,
    value: String,
    changed: &Callback<String>,
    wrong: Option<&str>,
) -> Html {
    let onchange = changed.reform(|event: Event| fields::typed(&event));
    html! {
        <label class="field">
            <span>{ label }</span>
            <input type={kind} {value} {onchange} maxlength={limits::TEXT_CHARS.to_string()} aria-invalid={wrong.is_some().to_string()} />
            { for wrong.map(|wrong| html! { <em role="alert">{ wrong }</em> }) }
        </label>
    }
}

#[derive(PartialEq, Properties)]
pub struct NameFieldProps {
    pub label: AttrValue,
    pub value: AttrValue,
    /// Said where nothing is left of the name.
    pub missing: AttrValue,
    pub changed: Callback<String>,
}

/// A name, which cannot be empty.
#[component]
pub fn NameField(props: &NameFieldProps) -> Html {
    let is_missing = use_state_eq(|| false);
    let changed = {
        let (changed, is_missing) = (props.changed.clone(), is_missing.setter());
        Callback::from(move |text: String| {
            let name = text.trim().to_string();
            is_missing.set(name.is_empty());
            if !name.is_empty() {
                changed.emit(name);
            }
        })
    };
    let wrong = is_missing.then_some(&*props.missing);
    text_field(&props.label, "text", props.value.to_string(), &changed, wrong)
}

#[derive(PartialEq, Properties)]
pub struct NumberFieldProps {
    pub label: AttrValue,
    pub value: u32,
    pub range: RangeInclusive<u32>,
    pub changed: Callback<u32>,
}

/// A whole number within `range`; anything else is answered with a sentence and changes
/// nothing.
#[component]
pub fn NumberField(props: &NumberFieldProps) -> Html {
    let wrong = use_state_eq(|| None);
    let changed = {
        let (changed, wrong, range) = (props.changed.clone(), wrong.clone(), props.range.clone());
        Callback::from(move |text: String| match text.trim().parse::<u32>() {
            Ok(number) if range.contains(&number) => {
                wrong.set(None);
                changed.emit(number);
            }
            _ => wrong.set(Some(say::give_a_number((*range.start()).into(), (*range.end()).into()))),
        })
    };
    text_field(&props.label, "number", props.value.to_string(), &changed, wrong.as_deref())
}

/// A choice among several, by its index in the list.
pub fn choice_field(label: &str, choices: &[String], chosen: usize, choose: &Callback<usize>) -> Html {
    let onchange = choose.reform(|event: Event| fields::chosen(&event));
    let choice = |(place, words): (usize, &String)| {
        html! { <option selected={place == chosen}>{ words }</option> }
    };
    html! {
        <label class="field">
            <span>{ label }</span>
            <select {onchange}>{ for choices.iter().enumerate().map(choice) }</select>
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

/// A tempo: the beat and how many of it a minute holds, typed or tapped.
pub fn tempo_field(tempo: Tempo, changed: &Callback<Tempo>) -> Html {
    let chosen = BEATS.iter().position(|beat| *beat == tempo.beat).unwrap_or(0);
    let choose = changed.reform(move |place: usize| Tempo { beat: *BEATS.get(place).unwrap_or(&BEATS[0]), ..tempo });
    let pace = changed.reform(move |bpm: u32| tempo.at(Bpm::nearest(f64::from(bpm))));
    let tapped = changed.reform(move |bpm: Bpm| tempo.at(bpm));
    let range = u32::from(Bpm::MIN.get())..=u32::from(Bpm::MAX.get());
    html! {
        <fieldset class="tempo">
            <legend>{ say::tempo() }</legend>
            { choice_field(say::beat(), &BEATS.map(words::beat), chosen, &choose) }
            <NumberField label={say::beats_a_minute()} value={u32::from(tempo.bpm.get())} {range} changed={pace} />
            <TapTempo {tapped} />
        </fieldset>
    }
}

/// Two buttons that move the row called `name`, at `place` of `of`, one place up (-1) or down (1).
pub fn order_buttons(name: &str, place: usize, of: usize, reorder: &Callback<isize>) -> Html {
    let (up, down) = (reorder.reform(|_: MouseEvent| -1), reorder.reform(|_: MouseEvent| 1));
    html! {
        <span class="order">
            <button onclick={up} disabled={place == 0} aria-label={say::move_up(name)}>{ "↑" }</button>
            <button onclick={down} disabled={place + 1 >= of} aria-label={say::move_down(name)}>{ "↓" }</button>
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
