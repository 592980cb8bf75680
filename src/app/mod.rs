//! The page: turns taps into entries and advice into pixels, and decides nothing.
//!
//! The screens are under `screens/`, what they share under `components/`, the browser behind
//! `device/`. What is said of the practising is in [`crate::words`]; labels stand where they are shown.

mod arrivals;
mod beside;
mod components;
mod decimal;
mod desk;
mod device;
mod following;
mod hooks;
mod job;
mod notices;
mod route;
mod scores;
mod screens;
mod sound;
mod stores;

use crate::{journal::Theme, words, words::say};
use arrivals::{Arrival, use_arrivals};
use desk::{DeskNow, use_desk, use_opened_desk};
use device::{
    language, location, spawn_local,
    tabs::{self, Turn},
    touch,
};
use following::Following;
use notices::{Notices, Taken, use_taken};
use route::{Route, use_route};
use screens::{
    count::CountIn, data::your_data, help::help, piece::piece, pieces::pieces, practise::Practise,
    preferences::PreferencesScreen, progress::progress, score::score, snippet::SnippetScreen, stopped::Stopped,
    tap::TapIn, today::Today,
};
use sound::Sound;
use yew::prelude::*;

/// Draws the page, as soon as the program is loaded.
pub fn start() {
    touch::guard();
    spawn_local(async {
        language::speak_as_the_device().await;
        if location::has_stopped() {
            yew::Renderer::<Stopped>::new().render();
        } else {
            yew::Renderer::<App>::new().render();
        }
    });
}

/// One page at a time has the journal; the others wait.
#[component]
fn App() -> Html {
    let turn = use_state_eq(|| None);
    let stands = {
        let turn = turn.setter();
        Callback::from(move |stands| turn.set(Some(stands)))
    };
    {
        let stands = stands.clone();
        use_effect_with((), move |()| tabs::ask(false, stands));
    }
    let insist = Callback::from(move |_: MouseEvent| tabs::ask(true, stands.clone()));
    match *turn {
        Some(Turn::Ours) => html! { <Opened /> },
        Some(Turn::Theirs) => html! { <Following go_on_here={insist} /> },
        None => html! {},
    }
}

#[component]
fn Opened() -> Html {
    let desk = use_opened_desk();
    let sound = use_memo((), |()| Sound::default());
    let taken = use_state_eq(|| None);
    let arrival = use_arrivals();
    match desk {
        None => html! { <main class="page"><p role="status">{ say::opening_your_journal() }</p></main> },
        Some(desk) => html! {
            <ContextProvider<DeskNow> context={desk}>
                <ContextProvider<Sound> context={(*sound).clone()}>
                    <ContextProvider<Taken> context={Taken(taken)}>
                        <ContextProvider<Arrival> context={arrival}>
                            <Screen />
                        </ContextProvider<Arrival>>
                    </ContextProvider<Taken>>
                </ContextProvider<Sound>>
            </ContextProvider<DeskNow>>
        },
    }
}

#[component]
fn Screen() -> Html {
    let (desk, taken, route) = (use_desk(), use_taken(), use_route());
    let theme = desk.state().preferences.theme;
    use_effect_with(theme, |theme| location::set_theme(theme_name(*theme)));
    use_effect_with(route, |route| {
        location::set_title(&say::window_title(title(*route)));
        location::focus_heading();
    });
    let screen = match route {
        Route::Today => html! { <Today /> },
        Route::Pieces => pieces(&desk, &taken),
        Route::Piece(id) => piece(&desk, &taken, id),
        Route::Score(id) => score(&desk, id),
        Route::Tap(id) => html! { <TapIn {id} /> },
        Route::Count(id) => html! { <CountIn {id} /> },
        Route::Snippet(id) => html! { <SnippetScreen {id} /> },
        Route::Practise(id) => html! { <Practise {id} /> },
        Route::Progress => progress(&desk),
        Route::Data => your_data(&desk),
        Route::Preferences => html! { <PreferencesScreen /> },
        Route::Help => help(),
    };
    html! {
        <>
            // Each child needs a key, or a screen would take over what the one before it had open.
            <Notices key="notices" {route} />
            <key={route.to_string()}>{ screen }</>
            { for (!matches!(route, Route::Practise(_))).then(|| places(route)) }
        </>
    }
}

/// The theme's name in the style sheet.
fn theme_name(theme: Theme) -> &'static str {
    match theme {
        Theme::Device => "device",
        Theme::Paper => "paper",
        Theme::Stage => "stage",
    }
}

/// The places of the page, at its foot.
fn places(route: Route) -> Html {
    let place = |place: Route| {
        let here = title(place) == title(route);
        html! {
            <a href={format!("#{place}")} aria-current={here.then_some("page")}>{ title(place) }</a>
        }
    };
    html! {
        <nav key="places" class="places" aria-label={say::places()}>
            { for [Route::Today, Route::Pieces, Route::Progress, Route::Data, Route::Preferences].into_iter().map(place) }
        </nav>
    }
}

/// The place that a screen belongs to.
fn title(route: Route) -> &'static str {
    match route {
        Route::Today => say::today(),
        Route::Pieces | Route::Piece(_) | Route::Score(_) | Route::Tap(_) | Route::Count(_) | Route::Snippet(_) => {
            say::pieces()
        }
        Route::Practise(_) => say::practise(),
        Route::Progress => say::progress_heading(),
        Route::Data => say::your_data(),
        Route::Preferences => say::settings(),
        Route::Help => say::help_heading(),
    }
}
