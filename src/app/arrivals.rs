//! Files that come to the page by themselves, dropped on it or opened with it: each is led to the screen that takes
//! files of its kind.

use crate::{
    app::{
        device::files::{self, Chosen},
        route::Route,
    },
    journal::file,
};
use std::{cell::Cell, rc::Rc};
use yew::prelude::*;

/// The file that came last, until its screen takes it.
#[derive(Clone)]
pub struct Arrival {
    screen: Route,
    file: Rc<Cell<Option<Chosen>>>,
}

impl PartialEq for Arrival {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.file, &other.file)
    }
}

/// Listens for files, and goes with each to its screen.
#[hook]
pub fn use_arrivals() -> Arrival {
    let arrival = use_state(|| Arrival { screen: Route::Today, file: Rc::default() });
    let set = arrival.setter();
    use_effect_with((), move |()| {
        files::on_arrival(move |file| {
            let screen = if file::has_its_name(&file.name()) { Route::Data } else { Route::Pieces };
            set.set(Arrival { screen, file: Rc::new(Cell::new(Some(file))) });
            screen.go();
        });
    });
    (*arrival).clone()
}

/// Gives `take` each file for this screen: one that has come to the page by itself, once, and those that the player
/// chooses in a field, to which the returned callback belongs.
#[hook]
pub fn use_files(screen: Route, take: Callback<Chosen>) -> Callback<Event> {
    let chosen = {
        let take = take.clone();
        Callback::from(move |event: Event| files::chosen(&event).into_iter().for_each(|file| take.emit(file)))
    };
    let arrival = use_context::<Arrival>().filter(|arrival| arrival.screen == screen);
    use_effect_with(arrival, move |arrival| {
        let file = arrival.as_ref().and_then(|arrival| arrival.file.take());
        file.into_iter().for_each(|file| take.emit(file));
    });
    chosen
}
