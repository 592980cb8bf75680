//! Settings: each takes effect and is kept at once.

use crate::{
    app::{
        components::field::{NumberField, choice_field},
        desk::{DeskNow, use_desk},
        route::Route,
        words,
    },
    journal::{EntryKind, Preference, Theme},
    method::{Settings, Strictness},
    pulse::Click,
    words::say,
};
use yew::prelude::*;

const STRICTNESS: [Strictness; 3] = [Strictness::Lenient, Strictness::Usual, Strictness::Strict];
const CLICKS: [Click; 3] = [Click::Always, Click::CountIn, Click::Never];
const THEMES: [Theme; 3] = [Theme::Device, Theme::Paper, Theme::Stage];

/// A component, so that what is being typed here outlives whatever else changes on the page.
#[component]
pub fn PreferencesScreen() -> Html {
    let desk = use_desk();
    let preferences = desk.state().preferences;
    let method = preferences.method;
    let number = |setting: fn(u32) -> Preference| {
        let desk = desk.clone();
        Callback::from(move |number| {
            desk.record(EntryKind::Set(setting(number)));
        })
    };
    html! {
        <main class="page settings">
            <h1 tabindex="-1">{ say::settings() }</h1>
            <p><button onclick={Route::Help.on_tap()}>{ say::help_heading() }</button></p>
            <section aria-labelledby="practising">
                <h2 id="practising">{ say::practising() }</h2>
                { choice(say::when_secure(), STRICTNESS, method.strictness, words::strictness, Preference::Strictness, &desk) }
                <NumberField label={say::block_minutes()} value={method.block_minutes} range={Settings::BLOCK_MINUTES} changed={number(Preference::BlockMinutes)} />
                <NumberField label={say::rest_minutes()} value={method.rest_minutes} range={Settings::REST_MINUTES} changed={number(Preference::RestMinutes)} />
                <NumberField label={say::blocks_a_day()} value={method.blocks_a_day} range={Settings::BLOCKS_A_DAY} changed={number(Preference::BlocksADay)} />
            </section>
            <section aria-labelledby="click">
                <h2 id="click">{ say::the_click() }</h2>
                { choice(say::click_heard(), CLICKS, preferences.click, words::click, Preference::Click, &desk) }
                <p class="caution">{ say::loudness() }</p>
            </section>
            <section aria-labelledby="look">
                <h2 id="look">{ say::the_look() }</h2>
                { choice(say::theme(), THEMES, preferences.theme, words::theme, Preference::Theme, &desk) }
            </section>
            <section aria-labelledby="keys">
                <h2 id="keys">{ say::keys_and_pedals() }</h2>
                <p>{ say::which_keys() }</p>
            </section>
            <section aria-labelledby="care">
                <h2 id="care">{ say::care() }</h2>
                <p class="caution">{ say::pain() }</p>
                <p>{ say::rest_is_work() }</p>
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
    setting: fn(T) -> Preference,
    desk: &DeskNow,
) -> Html {
    let choose = {
        let desk = desk.clone();
        Callback::from(move |place: usize| {
            if let Some(value) = all.get(place) {
                desk.record(EntryKind::Set(setting(*value)));
            }
        })
    };
    let chosen = all.iter().position(|value| *value == chosen).unwrap_or(0);
    choice_field(label, &all.map(|value| words(value).to_string()), chosen, &choose)
}
