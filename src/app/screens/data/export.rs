//! Handing everything out as one file.

use crate::{
    app::{
        beside::{self, Heard},
        desk::use_desk,
        device::{
            files::{self, Made},
            workshop::Work,
        },
        screens::data::under_way,
    },
    words::say,
    workshop::Task,
};
use std::rc::Rc;
use yew::prelude::*;

/// How far an export has got.
#[derive(Clone, PartialEq)]
enum Stage {
    Waiting,
    /// So many hundredths are written.
    Writing(u8),
    /// The browser has a file of this name.
    Done(String),
    Refused(String),
}

#[component]
pub fn Export() -> Html {
    let desk = use_desk();
    let stage = use_state_eq(|| Stage::Waiting);
    let work = use_mut_ref(|| None::<Work>);
    let count = desk.journal().count();
    let export = {
        let (stage, work) = (stage.setter(), Rc::clone(&work));
        Callback::from(move |_: MouseEvent| {
            let name = format!("tailfirst-{}.json", desk.now().day());
            let task = Task::export(desk.entries(), desk.device(), desk.now());
            stage.set(Stage::Writing(0));
            let stage = stage.clone();
            *work.borrow_mut() = beside::begin(&task, None, move |heard| match heard {
                Heard::Hundredths(hundredths) => stage.set(Stage::Writing(hundredths)),
                Heard::Made(file) => stage.set(handed_out(name.clone(), &file)),
                Heard::Refused(why) => stage.set(Stage::Refused(why)),
                // The file came before.
                Heard::Ended(_) => {}
            });
        })
    };
    let call_off = {
        let stage = stage.setter();
        Callback::from(move |_: MouseEvent| {
            work.borrow_mut().take();
            stage.set(Stage::Waiting);
        })
    };
    html! {
        <section aria-labelledby="export">
            <h2 id="export">{ say::export() }</h2>
            <p>{ say::one_file_with_all(count.into()) }</p>
            {
                match &*stage {
                    Stage::Writing(hundredths) => under_way(say::writing_the_file(), *hundredths, call_off),
                    _ => html! { <button class="primary" onclick={export}>{ say::export_to_a_file() }</button> },
                }
            }
            {
                match &*stage {
                    Stage::Waiting | Stage::Writing(_) => html! {},
                    Stage::Done(name) => html! { <p role="status">{ say::was_handed_over(name) }</p> },
                    Stage::Refused(why) => html! { <p class="wrong" role="alert">{ why }</p> },
                }
            }
        </section>
    }
}

fn handed_out(name: String, file: &Made) -> Stage {
    match files::hand_out(&name, file) {
        Ok(()) => Stage::Done(name),
        Err(_) => Stage::Refused(say::no_file_made().into()),
    }
}
