//! Going back to what was there before the last import.

use crate::{
    app::{
        desk::use_desk,
        device::{safety, spawn_local},
    },
    clock::Moment,
    words::{keeping, say},
};
use yew::prelude::*;

/// What was done about it.
#[derive(Clone, Copy, PartialEq)]
enum Stage {
    Waiting,
    WentBack,
    Unreadable,
}

#[component]
pub fn Before() -> Html {
    let desk = use_desk();
    let (kept, stage) = (use_state_eq(|| None::<Moment>), use_state_eq(|| Stage::Waiting));
    {
        let kept = kept.setter();
        use_effect_with(desk.clone(), move |_| spawn_local(async move { kept.set(safety::kept().await) }));
    }
    let Some(kept) = *kept else { return html! {} };
    let go_back = {
        let stage = stage.setter();
        Callback::from(move |_: MouseEvent| {
            let (desk, stage) = (desk.clone(), stage.clone());
            spawn_local(async move {
                stage.set(if desk.go_back().await { Stage::WentBack } else { Stage::Unreadable });
            });
        })
    };
    html! {
        <section aria-labelledby="before">
            <h2 id="before">{ say::before_the_import() }</h2>
            <p>{ keeping::can_go_back(kept) }</p>
            <button onclick={go_back}>{ say::go_back() }</button>
            {
                match *stage {
                    Stage::Waiting => html! {},
                    Stage::WentBack => html! { <p role="status">{ say::went_back() }</p> },
                    Stage::Unreadable => html! { <p class="wrong" role="alert">{ say::could_not_go_back() }</p> },
                }
            }
        </section>
    }
}
