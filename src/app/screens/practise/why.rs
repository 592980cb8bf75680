//! Why: the estimate over the whole block, the rule that spoke and what would change the coach's mind.
//! A screen of its own; the minutes of the block go on meanwhile, the pulse stands still.

use crate::{
    app::{
        components::{chart::Chart, staff::picture, tempo_mark::tempo_mark},
        words,
    },
    clock::Moment,
    journal::SnippetRecord,
    method::{Advice, Coach, Hands, Place, Step},
    music::PrintedPage,
    words::say,
};
use yew::prelude::*;

/// What is asked about.
pub struct Question<'a> {
    pub advice: &'a Advice,
    pub coach: &'a Coach,
    pub record: &'a SnippetRecord,
    pub page: &'a PrintedPage,
}

/// The screen; `ask` is told `false` to lead back.
pub fn why(shown: &Question, now: Moment, ask: &Callback<bool>) -> Html {
    let Question { advice, coach, record, .. } = shown;
    let snippet = &record.snippet;
    let (step, sureness) = (advice.step, &advice.sureness);
    html! {
        <main class="page why">
            <header class="task">
                <h1 tabindex="-1">{ say::why() }</h1>
                <p class="what">
                    <strong>{ say::onsets(step.span.count().into()) }</strong>
                    <span>{ words::hands(step.hands) }</span>
                    { tempo_mark(snippet.pulse(step.bpm)) }
                </p>
            </header>
            <p class="rule">{ words::rule(advice.reason) }</p>
            {
                match coach.believed() {
                    block if block.is_empty() => html! { <p>{ say::nothing_played_in_block() }</p> },
                    block => html! { <Chart {block} level={sureness.wanted.level()} /> },
                }
            }
            { for where_it_breaks(shown) }
            { for words::noted_later(record).map(|later| html! { <p>{ later }</p> }) }
            <p>{ words::estimate(sureness) }</p>
            <p>{ words::asked(sureness) }</p>
            <p>{ words::change_of_mind(advice.reason, |verdict| coach.until_a_move(verdict, now)) }</p>
            <button class="primary" onclick={ask.reform(|_| false)}>{ say::back() }</button>
        </main>
    }
}

/// The places that cost most, said and shown on the staff.
fn where_it_breaks(Question { coach, record, page, .. }: &Question) -> Option<Html> {
    let (places, snippet) = (coach.costliest(), &record.snippet);
    let onsets: Vec<usize> = places.iter().map(Place::heard_at).collect();
    let told = words::costliest(&places, snippet.passage());
    let hands = snippet.hands_in(snippet.whole()).unwrap_or(Hands::Both);
    let whole = Step { span: snippet.whole(), hands, bpm: snippet.tempo().bpm };
    (!places.is_empty()).then(|| {
        html! {
            <section class="breaks">
                <p>{ &told }</p>
                { picture(snippet, page, whole, &told, &onsets) }
            </section>
        }
    })
}
