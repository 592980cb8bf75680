//! What is kept on this device, how much room it takes, and which devices wrote it.

use crate::{
    app::{desk::DeskNow, device::local},
    words::{keeping, say},
};
use yew::prelude::*;

pub fn what_is_here(desk: &DeskNow) -> Html {
    let journal = desk.journal();
    let texts = local::read_all("").unwrap_or_default();
    let characters: usize = texts.iter().map(|(key, text)| key.chars().count() + text.chars().count()).sum();
    let mut writers: Vec<_> = journal.writers().collect();
    // This device comes first.
    if let Some(own) = writers.iter().position(|(device, _)| *device == desk.device()) {
        writers[..=own].rotate_right(1);
    }
    let row = |(device, writer)| {
        let id = format!("{device}");
        let name = if device == desk.device() { say::this_device_is(&id) } else { say::device_is(&id) };
        html! { <li class="row"><span class="name">{ name }<small>{ keeping::wrote(&writer) }</small></span></li> }
    };
    let gone = keeping::missing(journal.missing());
    html! {
        <section aria-labelledby="here">
            <h2 id="here">{ say::what_is_here() }</h2>
            <p>{ say::room_taken(characters.div_ceil(500) as i64) }</p>
            { for gone.map(|gone| html! { <p>{ gone }</p> }) }
            <ul class="rows">{ for writers.into_iter().map(row) }</ul>
        </section>
    }
}
