//! What is shown on every screen: a snippet has rested, something was taken away and can be brought back, a write was
//! refused, a new version waits.

use crate::{
    agenda::rest,
    app::{
        desk::{DeskNow, use_desk},
        device::{offline, timers},
        hooks::use_now,
        route::Route,
        sound::use_sound,
        stores::Found,
    },
    journal::{EntryId, EntryKind, SnippetId},
    words::{keeping, say},
};
use yew::prelude::*;

/// What was taken away or called off last, for the page as a whole, and the entry that did it where one did.
#[derive(Clone, PartialEq)]
pub struct Taken(pub UseStateHandle<Option<(String, Option<EntryId>)>>);

impl Taken {
    /// Offers to bring back what the entry took away.
    pub fn away(&self, what: String, by: EntryId) {
        self.0.set(Some((what, Some(by))));
    }

    /// Says that something was called off.
    pub fn called_off(&self, what: &str) {
        self.0.set(Some((what.into(), None)));
    }
}

/// What was taken away last.
#[hook]
pub fn use_taken() -> Taken {
    use_context::<Taken>().expect("every screen can take away and bring back")
}

/// How long something taken away is offered back and something called off is said, in ms; what was taken away is in the
/// journal after that too.
const OFFERED_MS: u32 = 20_000;

#[derive(PartialEq, Properties)]
pub struct NoticesProps {
    pub route: Route,
}

#[component]
pub fn Notices(props: &NoticesProps) -> Html {
    let desk = use_desk();
    let new_version = use_new_version();
    let shown = practised(props.route);
    let playing = shown.is_some_and(|id| rest::is_playing(&desk.state(), id, desk.now()));
    let warning = keeping::warning(desk.kept());
    html! {
        <div class="notices">
            {
                for warning.map(|warning| html! {
                    <p class="notice" role="alert"><span>{ warning }</span>{ export_now(props.route) }</p>
                })
            }
            { for found(&desk, props.route) }
            <BroughtBack />
            { for (!playing).then(|| html! { <Rested route={props.route} /> }) }
            {
                for (new_version && !playing).then(|| html! {
                    <p class="notice" role="status">
                        <span>{ say::new_version() }</span>
                        <button onclick={|_: MouseEvent| offline::take_over()}>{ say::use_it_now() }</button>
                    </p>
                })
            }
        </div>
    }
}

/// What opening found to be unreadable or gone.
fn found(desk: &DeskNow, route: Route) -> Option<Html> {
    let Found { set_aside, missing } = desk.found();
    let found = keeping::found(set_aside, missing)?;
    let read = {
        let desk = desk.clone();
        Callback::from(move |_: MouseEvent| desk.found_was_read())
    };
    Some(html! {
        <p class="notice" role="alert">
            <span>{ found }</span>
            { export_now(route) }
            <button onclick={read}>{ say::close() }</button>
        </p>
    })
}

/// The way to the export, from wherever it is not at hand.
fn export_now(route: Route) -> Html {
    match route {
        Route::Data => html! {},
        _ => html! { <button onclick={Route::Data.on_tap()}>{ say::export_now() }</button> },
    }
}

/// Says what was taken away or called off last, and offers back what was taken away.
#[component]
fn BroughtBack() -> Html {
    let desk = use_desk();
    let taken = use_taken();
    {
        let slot = taken.0.clone();
        use_effect_with((*taken.0).clone(), move |offered| {
            let fading = offered.is_some().then(|| timers::after(OFFERED_MS, move || slot.set(None)));
            move || drop(fading)
        });
    }
    let Some((what, entry)) = (*taken.0).clone() else { return html! {} };
    let bring_back = |entry| {
        let (desk, taken) = (desk.clone(), taken.clone());
        Callback::from(move |_: MouseEvent| {
            desk.record(EntryKind::Retracted { entry });
            taken.0.set(None);
        })
    };
    html! {
        <p class="notice" role="status">
            <span>{ what }</span>
            { for entry.map(|entry| html! { <button onclick={bring_back(entry)}>{ say::undo() }</button> }) }
        </p>
    }
}

#[derive(PartialEq, Properties)]
struct RestedProps {
    route: Route,
}

/// Calls back to what has rested: with the bell as the rest ends, and on the screen until it is
/// answered, also after the page was closed in between.
#[component]
fn Rested(props: &RestedProps) -> Html {
    let (desk, now, sound) = (use_desk(), use_now(), use_sound());
    let answered = use_state(Vec::<SnippetId>::new);
    let state = desk.state();
    let rested = rest::rested(&state, now);
    let known = use_mut_ref(|| None::<Vec<SnippetId>>);
    use_effect_with(rested.clone(), move |rested| {
        let before = known.borrow_mut().replace(rested.clone());
        if rest::rings(before.as_deref(), rested) {
            sound.ring();
        }
    });
    let shown = rest::calls_back(&rested, &answered, practised(props.route));
    let Some((id, record)) = shown.and_then(|id| Some((id, state.snippet(id)?))) else { return html! {} };
    let not_now = Callback::from(move |_: MouseEvent| {
        let mut more = (*answered).clone();
        more.push(id);
        answered.set(more);
    });
    html! {
        <p class="notice" role="status">
            <span>{ say::has_rested(record.snippet.name()) }</span>
            <button class="primary" onclick={Route::Practise(id).on_tap()}>{ say::practise() }</button>
            <button onclick={not_now}>{ say::not_now() }</button>
        </p>
    }
}

/// The snippet whose practice screen is shown.
fn practised(route: Route) -> Option<SnippetId> {
    match route {
        Route::Practise(id) => Some(id),
        _ => None,
    }
}

/// Whether a new version of the program waits to take over.
#[hook]
fn use_new_version() -> bool {
    let waiting = use_state_eq(|| false);
    let set = waiting.setter();
    use_effect_with((), move |()| {
        offline::register(Callback::from(move |()| set.set(true)));
    });
    *waiting
}
