//! Settings: each takes effect and is kept at once.

use super::super::{
    components::field::{NumberField, choice_field},
    desk::{DeskNow, use_desk},
    route::Route,
    words,
};
use crate::{
    journal::{Event, Setting, Theme},
    method::Strictness,
    pulse::Click,
};
use yew::prelude::*;

const STRICTNESS: [Strictness; 3] = [Strictness::Lenient, Strictness::Usual, Strictness::Strict];
const CLICKS: [Click; 3] = [Click::Always, Click::CountIn, Click::Never];
const THEMES: [Theme; 3] = [Theme::Device, Theme::Paper, Theme::Stage];

/// A component, so that what is being typed here outlives whatever else changes on the page.
#[component]
pub fn SettingsScreen() -> Html {
    let desk = use_desk();
    let preferences = desk.state().preferences;
    let method = preferences.method;
    let number = |setting: fn(u32) -> Setting| {
        let desk = desk.clone();
        Callback::from(move |number| {
            desk.record(Event::Set(setting(number)));
        })
    };
    html! {
        <main class="page settings">
            <h1 tabindex="-1">{ "Settings" }</h1>
            <button onclick={Route::Help.on_tap()}>{ words::say::help_heading() }</button>
            <section aria-labelledby="practising">
                <h2 id="practising">{ "Practising" }</h2>
                { choice("When a step is secure", STRICTNESS, method.strictness, words::strictness, Setting::Strictness, &desk) }
                <NumberField label="Minutes in a block" value={method.block_minutes} least={1} most={30} changed={number(Setting::BlockMinutes)} />
                <NumberField label="Minutes of rest after a block" value={method.rest_minutes} least={1} most={120} changed={number(Setting::RestMinutes)} />
                <NumberField label="Blocks a day for one snippet" value={method.blocks_a_day} least={1} most={10} changed={number(Setting::BlocksADay)} />
            </section>
            <section aria-labelledby="click">
                <h2 id="click">{ "The click" }</h2>
                { choice("Heard", CLICKS, preferences.click, words::click, Setting::Click, &desk) }
                <p class="caution">{ words::say::loudness() }</p>
            </section>
            <section aria-labelledby="look">
                <h2 id="look">{ "The look" }</h2>
                { choice("Theme", THEMES, preferences.theme, words::theme, Setting::Theme, &desk) }
            </section>
            <section aria-labelledby="keys">
                <h2 id="keys">{ "Keys and pedals" }</h2>
                <p>{ "Clean: right or down arrow, Page Down, C. Not yet: left or up arrow, Page Up, N. Undo: Backspace, U. \
                      A page-turn pedal that sends one of these pairs works at once." }</p>
            </section>
            <section aria-labelledby="care">
                <h2 id="care">{ "Care" }</h2>
                <p class="caution">{ words::say::pain() }</p>
                <p>{ "Rest is part of the work. After twenty-five minutes at the instrument, take five away from it." }</p>
            </section>
        </main>
    }
}

/// A choice among `all` that is kept as a setting.
fn choice<T: Copy + PartialEq + 'static, const N: usize>(
    label: &'static str,
    all: [T; N],
    chosen: T,
    words: fn(T) -> &'static str,
    setting: fn(T) -> Setting,
    desk: &DeskNow,
) -> Html {
    let choose = {
        let desk = desk.clone();
        Callback::from(move |place: usize| {
            if let Some(value) = all.get(place) {
                desk.record(Event::Set(setting(*value)));
            }
        })
    };
    let chosen = all.iter().position(|value| *value == chosen).unwrap_or(0);
    choice_field(label, &all.map(|value| words(value).to_string()), chosen, &choose)
}
