//! Taking in a file that another device has exported.

use crate::{
    app::{
        arrivals::use_files,
        beside::Heard,
        desk::{DeskNow, use_desk},
        device::{
            files::{Chosen, NotRead},
            spawn_local,
        },
        job::{Job, use_job},
        route::Route,
        screens::data::under_way,
    },
    journal::{
        Entries,
        file::{Brought, ImportError},
        limits,
    },
    words::{self, say},
    workshop::{Outcome, Task},
};
use std::rc::Rc;
use yew::prelude::*;

/// How far an import has got.
#[derive(Clone)]
enum Stage {
    Waiting,
    /// So many hundredths are done.
    Reading(u8),
    /// Everything has been read; it is being written to the copies.
    Keeping,
    /// What came in, and whether it survives the end of the browser.
    Done(Brought, bool),
    Refused(String),
}

#[component]
pub fn Import() -> Html {
    let desk = use_desk();
    let (stage, job, call_off) = use_job(|| Stage::Waiting, say::import_called_off());
    let take = {
        let stage = stage.setter();
        Callback::from(move |file: Chosen| match file.within(limits::FILE_BYTES) {
            Ok(file) => begin(&job, &desk, file, stage.clone()),
            Err(NotRead::TooLarge) => stage.set(refused(ImportError::TooLarge.to_string())),
            Err(NotRead::Unreadable) => stage.set(refused(ImportError::Unreadable.to_string())),
        })
    };
    let onchange = use_files(Route::Data, take);
    html! {
        <section aria-labelledby="import">
            <h2 id="import">{ say::import() }</h2>
            <p>{ say::how_to_import() }</p>
            <label class="file"><span>{ say::import_from_a_file() }</span><input type="file" accept=".json,application/json" {onchange} /></label>
            {
                match &*stage {
                    Stage::Waiting => html! {},
                    Stage::Reading(hundredths) => under_way(say::reading(), *hundredths, call_off),
                    Stage::Keeping => html! { <p role="status">{ say::keeping_what_came() }</p> },
                    Stage::Done(brought, is_safe) => html! { <p role="status">{ words::keeping::imported(brought, *is_safe) }</p> },
                    Stage::Refused(why) => html! { <p class="wrong" role="alert">{ why }</p> },
                }
            }
        </section>
    }
}

fn refused(why: String) -> Stage {
    Stage::Refused(words::sentences([why, say::nothing_was_changed().into()]))
}

/// Begins to take a file in among the entries there are now.
fn begin(job: &Job, desk: &DeskNow, file: Chosen, stage: UseStateSetter<Stage>) {
    let (desk, before) = (desk.clone(), Rc::new(desk.entries()));
    let task = Task::Import { here: Entries::clone(&before), today: desk.now().day(), bytes: file.bytes() };
    stage.set(Stage::Reading(0));
    job.begin(&task, Some(file), move |heard| match heard {
        Heard::Hundredths(hundredths) => stage.set(Stage::Reading(hundredths)),
        Heard::Refused(why) => stage.set(refused(why)),
        Heard::Ended(outcome) => {
            stage.set(Stage::Keeping);
            spawn_local(keep(desk.clone(), outcome, Rc::clone(&before), stage.clone()));
        }
        Heard::Made(_) => {}
    });
}

/// Keeps what came in, and reports how well it is kept.
async fn keep(desk: DeskNow, outcome: Outcome, before: Rc<Entries>, stage: UseStateSetter<Stage>) {
    let Outcome::TakenIn { brought, journal } = outcome else { return };
    let is_safe = match journal {
        Some(journal) => desk.take_in(journal, &before, &brought.merged).await,
        None => true,
    };
    stage.set(Stage::Done(brought, is_safe));
}
