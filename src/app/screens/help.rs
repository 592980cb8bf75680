//! Help: the program's words with a picture of each, and how the work goes.

use crate::{
    app::components::staff::picture,
    method::{Hands, Snippet, Span, Step, Term},
    music::{BeatUnit, Bpm, PrintedPage, Tempo, example},
    words::{self, say},
};
use yew::prelude::*;

pub fn help() -> Html {
    let example = Example::drawn();
    let way = [say::help_way_one(), say::help_way_two(), say::help_way_three()];
    html! {
        <main class="page help">
            <h1 tabindex="-1">{ say::help_heading() }</h1>
            { for way.map(|sentence| html! { <p>{ sentence }</p> }) }
            { for Term::ALL.map(|term| explained(term, example.as_ref())) }
            { for more().map(|(name, text)| section(name, html! { <p>{ text }</p> })) }
            <p class="caution">{ say::pain() }</p>
        </main>
    }
}

fn explained(term: Term, example: Option<&Example>) -> Html {
    let told = words::terms::picture(term);
    let picture = example.zip(told).map(|(example, told)| example.of(term, told));
    let (name, text) = words::terms::at_length(term);
    section(name, html! { <>{ for picture }<p>{ text }</p></> })
}

/// Other words, each with what it means.
fn more() -> [(&'static str, &'static str); 7] {
    [
        (say::help_verdicts(), say::help_verdicts_text()),
        (say::help_broke(), say::help_broke_text()),
        (say::help_secure(), say::help_secure_text()),
        (say::help_too_hard(), say::help_too_hard_text()),
        (say::help_rest(), say::help_rest_text()),
        (say::help_pulse(), say::help_pulse_text()),
        (say::help_joining(), say::help_joining_text()),
    ]
}

fn section(name: &'static str, content: Html) -> Html {
    html! { <section aria-label={name}><h2>{ name }</h2>{ content }</section> }
}

/// The invented bars that the pictures show.
struct Example {
    snippet: Snippet,
    page: PrintedPage,
}

impl Example {
    fn drawn() -> Option<Example> {
        let passage = example()?;
        let page = PrintedPage::of(&passage, None);
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
        picture(&self.snippet, &self.page, Step { span, hands, bpm: self.snippet.tempo().bpm }, told, &[])
    }
}
