//! What opens over the coach's line: the reasons behind the advice, and the player's own choice of
//! another step.

use super::super::super::{components::chart::Chart, desk::use_desk, words};
use crate::{
    journal::{Event, SnippetId},
    method::{Advice, Coach, Snippet, Step, overrule},
};
use std::rc::Rc;
use yew::prelude::*;

#[derive(Properties)]
pub struct WhyProps {
    pub advice: Advice,
    pub coach: Rc<Coach>,
    pub close: Callback<()>,
}

impl PartialEq for WhyProps {
    fn eq(&self, other: &Self) -> bool {
        self.advice == other.advice && Rc::ptr_eq(&self.coach, &other.coach)
    }
}

/// The estimate with its band, the rule that spoke, and what would change its mind.
#[component]
pub fn Why(props: &WhyProps) -> Html {
    let sureness = props.advice.sureness;
    let asked = sureness.asked;
    html! {
        <section class="panel why" aria-label="Why this step">
            <p>{ words::rule(props.advice.reason) }</p>
            <div class="estimate">
                <Chart points={props.coach.curve().to_vec()} level={asked.level} />
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
            <button onclick={props.close.reform(|_| ())}>{ "Close" }</button>
        </section>
    }
}

#[derive(PartialEq, Properties)]
pub struct OtherStepProps {
    pub id: SnippetId,
    pub snippet: Rc<Snippet>,
    pub step: Step,
    pub close: Callback<()>,
}

/// Overruling the coach, one tap each.
#[component]
pub fn OtherStep(props: &OtherStepProps) -> Html {
    let desk = use_desk();
    let (snippet, step) = (&props.snippet, props.step);
    let choices = [
        ("Longer", overrule::longer(snippet, step)),
        ("Shorter", overrule::shorter(snippet, step)),
        ("Other hand", overrule::other_hand(snippet, step)),
        ("Slower", overrule::slower(step)),
        ("Faster", overrule::faster(step)),
    ];
    let choice = |(word, chosen): (&'static str, Option<Step>)| {
        let (desk, snippet) = (desk.clone(), props.id);
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
            <button onclick={props.close.reform(|_| ())}>{ "Close" }</button>
        </section>
    }
}
