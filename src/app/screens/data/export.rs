//! Handing everything out as one file.

use crate::{
    app::{
        beside::Heard,
        desk::{DeskNow, use_desk},
        device::{
            files::{self, Made, Shared},
            spawn_local,
        },
        job::use_job,
        screens::data::under_way,
    },
    journal::file,
    words::{keeping::last_export, say},
    workshop::Task,
};
use std::rc::Rc;
use yew::prelude::*;

/// How far an export has got.
#[derive(Clone)]
enum Stage {
    Waiting,
    /// So many hundredths are written.
    Writing(u8),
    /// A file of this name is there to be handed over.
    Made(String, Rc<Made>),
    /// Who has the file now.
    Done(String),
    Refused(String),
}

#[component]
pub fn Export() -> Html {
    let desk = use_desk();
    let (stage, job, call_off) = use_job(|| Stage::Waiting, say::export_called_off());
    let (count, exported) = (desk.journal().count(), desk.exported());
    let export = {
        let (desk, stage) = (desk.clone(), stage.setter());
        Callback::from(move |_: MouseEvent| {
            let name = file::name(desk.now().day());
            let task = Task::export(desk.entries(), desk.device(), desk.now());
            stage.set(Stage::Writing(0));
            let (stage, noting) = (stage.clone(), desk.clone());
            job.begin(&task, None, move |heard| match heard {
                Heard::Hundredths(hundredths) => stage.set(Stage::Writing(hundredths)),
                Heard::Made(file) if files::to_share(&name, &file).is_some() => {
                    stage.set(Stage::Made(name.clone(), Rc::new(file)));
                }
                Heard::Made(file) => stage.set(handed_out(&noting, &name, &file)),
                Heard::Refused(why) => stage.set(Stage::Refused(why)),
                // The file came before.
                Heard::Ended(_) => {}
            });
        })
    };
    html! {
        <section aria-labelledby="export">
            <h2 id="export">{ say::export() }</h2>
            <p>{ say::one_file_with_all(count.into()) }</p>
            <p>{ last_export(exported) }</p>
            {
                match &*stage {
                    Stage::Writing(hundredths) => under_way(say::writing_the_file(), *hundredths, call_off),
                    Stage::Made(name, file) => ways_out(&desk, name, file, &stage.setter()),
                    _ => html! { <button class="primary" onclick={export}>{ say::export_to_a_file() }</button> },
                }
            }
            {
                match &*stage {
                    Stage::Waiting | Stage::Writing(_) | Stage::Made(..) => html! {},
                    Stage::Done(said) => html! { <p role="status">{ said }</p> },
                    Stage::Refused(why) => html! { <p class="wrong" role="alert">{ why }</p> },
                }
            }
        </section>
    }
}

/// To another program over the system's share sheet, or into the browser's downloads.
fn ways_out(desk: &DeskNow, name: &str, file: &Rc<Made>, stage: &UseStateSetter<Stage>) -> Html {
    let share = {
        let (desk, name, file, stage) = (desk.clone(), name.to_owned(), Rc::clone(file), stage.clone());
        Callback::from(move |_: MouseEvent| {
            let Some(sheet) = files::to_share(&name, &file).map(|data| files::share(&data)) else { return };
            let (desk, name, stage) = (desk.clone(), name.clone(), stage.clone());
            spawn_local(async move {
                if sheet.await == Shared::Taken {
                    desk.note_export();
                    stage.set(Stage::Done(say::was_shared(&name)));
                }
            });
        })
    };
    let save = {
        let (desk, name, file, stage) = (desk.clone(), name.to_owned(), Rc::clone(file), stage.clone());
        Callback::from(move |_: MouseEvent| stage.set(handed_out(&desk, &name, &file)))
    };
    html! {
        <>
            <p role="status">{ say::file_is_ready() }</p>
            <p class="ways">
                <button class="primary" onclick={share}>{ say::share_it() }</button>
                <button onclick={save}>{ say::save_it() }</button>
            </p>
        </>
    }
}

fn handed_out(desk: &DeskNow, name: &str, file: &Made) -> Stage {
    match files::hand_out(name, file) {
        Ok(()) => {
            desk.note_export();
            Stage::Done(say::was_handed_over(name))
        }
        Err(_) => Stage::Refused(say::no_file_made().into()),
    }
}
