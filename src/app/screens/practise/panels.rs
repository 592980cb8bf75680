//! What opens over the coach's line: the reasons behind the advice, and the player's own choice of
//! another step.

use super::super::super::{components::chart::chart, desk::DeskNow, words};
use crate::{
    clock::Moment,
    journal::{Event, SnippetId},
    method::{Advice, Coach, Snippet, Step, overrule},
};
use yew::prelude::*;

/// The estimate with its band, the rule that spoke, and what would change its mind.
pub fn why(advice: &Advice, coach: &Coach, now: Moment, close: &Callback<()>) -> Html {
    let sureness = advice.sureness;
    let asked = sureness.asked;
    html! {
        <section class="panel why" aria-label="Why this step">
            <p>{ words::rule(advice.reason) }</p>
            <div class="estimate">
                { chart(&coach.curve(), asked.level) }
                <p>
                    { format!(
                        "A repetition is now believed to be clean {} of the time, most likely between {} and {}.",
                        words::percent(sureness.now.mean),
                        words::percent(sureness.now.low),
                        words::percent(sureness.now.high),
                    ) }
                </p>
            </div>
            <p>
                { format!(
                    "Secure means: more than {} clean, with {} certainty. It stands at {}.",
                    words::percent(asked.level),
                    words::percent(asked.certainty),
                    words::percent(sureness.chance_secure),
                ) }
            </p>
            <p>{ words::change_of_mind(|verdict| coach.until_a_move(verdict, now)) }</p>
            <button onclick={close.reform(|_| ())}>{ "Close" }</button>
        </section>
    }
}

/// Overruling the coach, one tap each.
pub fn other_step(desk: &DeskNow, id: SnippetId, snippet: &Snippet, step: Step, close: &Callback<()>) -> Html {
    let choices = [
        ("Longer", overrule::longer(snippet, step)),
        ("Shorter", overrule::shorter(snippet, step)),
        ("Other hand", overrule::other_hand(snippet, step)),
        ("Slower", overrule::slower(step)),
        ("Faster", overrule::faster(step)),
    ];
    let choice = |(word, chosen): (&'static str, Option<Step>)| {
        let (desk, snippet) = (desk.clone(), id);
        let choose = Callback::from(move |_: MouseEvent| {
            if let Some(step) = chosen {
                desk.record(Event::Overruled { snippet, step });
            }
        });
        html! { <button onclick={choose} disabled={chosen.is_none()}>{ word }</button> }
    };
    html! {
        <section class="panel other-step" aria-label="Another step">
            { for choices.into_iter().map(choice) }
            <button onclick={close.reform(|_| ())}>{ "Close" }</button>
        </section>
    }
}
