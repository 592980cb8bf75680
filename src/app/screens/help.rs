//! Help: the program's words with a picture of each, and how the work goes.

use crate::{
    app::components::staff::picture,
    method::{Hands, Snippet, Span, Step, Term},
    music::{BeatUnit, Bpm, Page, Tempo, example},
    words::{self, help},
};
use yew::prelude::*;

pub fn help() -> Html {
    let example = Example::drawn();
    html! {
        <main class="page help">
            <h1 tabindex="-1">{ help::HEADING }</h1>
            { for help::WAY.map(|sentence| html! { <p>{ sentence }</p> }) }
            { for Term::ALL.map(|term| explained(term, example.as_ref())) }
            { for help::MORE.map(|(name, text)| section(name, html! { <p>{ text }</p> })) }
            <p class="caution">{ words::PAIN }</p>
        </main>
    }
}

fn explained(term: Term, example: Option<&Example>) -> Html {
    let told = words::terms::picture(term);
    let picture = example.zip(told).map(|(example, told)| example.of(term, told));
    section(words::terms::name(term), html! { <>{ for picture }<p>{ words::terms::at_length(term) }</p></> })
}

fn section(name: &'static str, content: Html) -> Html {
    html! { <section aria-label={name}><h2>{ name }</h2>{ content }</section> }
}

/// The invented bars that the pictures show.
struct Example {
    snippet: Snippet,
    page: Page,
}

impl Example {
    fn drawn() -> Option<Example> {
        let passage = example()?;
        let page = Page::of(&passage, None);
        let goal = passage.onsets().len() - 1;
        let tempo = Tempo { beat: BeatUnit::QUARTER, bpm: Bpm::nearest(72.0) };
        Some(Example { snippet: Snippet::new(String::new(), passage, goal, tempo).ok()?, page })
    }

    /// The goal alone, one hand of the whole, or the goal with two onsets in front.
    fn of(&self, term: Term, told: &'static str) -> Html {
        let goal = self.snippet.goal();
        let (first, hands) = match term {
            Term::Goal => (goal, Hands::Both),
            Term::RestingHand => (0, Hands::Right),
            Term::Onset | Term::ColdTry => (goal - 2, Hands::Both),
        };
        let span = Span::new(first, goal).unwrap_or(Span::only(goal));
        picture(&self.snippet, &self.page, Step { span, hands, bpm: self.snippet.tempo().bpm }, told)
    }
}
