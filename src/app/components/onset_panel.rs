//! What the player has written at one onset: fingers and a reminder, shown and changed.

use crate::{
    app::{
        components::field::text_field,
        desk::{DeskNow, use_desk},
        words,
    },
    journal::{EntryKind, SnippetId, SnippetRecord},
    method::{Advice, Snippet, Span, Term},
    music::{
        Hand, Marks, Onset,
        marks::{LONGEST_FINGERS, LONGEST_REMINDER},
    },
    sort,
    words::say,
};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct OnsetPanelProps {
    pub id: SnippetId,
    /// Index in the snippet.
    pub onset: usize,
    /// Told which onset to go to, or that the panel is to be closed.
    pub go: Callback<Option<usize>>,
}

#[component]
pub fn OnsetPanel(props: &OnsetPanelProps) -> Html {
    let desk = use_desk();
    let state = desk.state();
    let Some((record, onset)) =
        state.snippet(props.id).and_then(|record| Some((record, record.snippet.passage().onsets().get(props.onset)?)))
    else {
        return html! {};
    };
    let marks = record.marks.get(&props.onset).cloned().unwrap_or_default();
    let change = {
        let (desk, snippet, marks) = (desk.clone(), props.id, marks.clone());
        let place = u16::try_from(props.onset).unwrap_or(u16::MAX);
        move |change: &dyn Fn(&mut Marks)| {
            let mut marks = marks.clone();
            change(&mut marks);
            desk.record(EntryKind::OnsetMarked { snippet, onset: place, marks });
        }
    };
    let remind = {
        let change = change.clone();
        Callback::from(move |text: String| change(&|marks| marks.reminder = tidy(&text, LONGEST_REMINDER)))
    };
    let fingers = |hand: Hand| {
        let change = change.clone();
        let finger = Callback::from(move |text: String| {
            change(&|marks| _ = marks.fingers.insert(hand, tidy(&text, LONGEST_FINGERS)));
        });
        let written = marks.fingers.get(&hand).cloned().unwrap_or_else(|| printed(onset, hand));
        text_field(&say::fingers(words::hand(hand)), "text", written, &finger, None)
    };
    let last = record.snippet.whole().last();
    let to = |onset: Option<usize>| props.go.reform(move |_: MouseEvent| onset);
    let hands = [Hand::Right, Hand::Left, Hand::Line].into_iter().filter(|hand| onset.plays(*hand));
    html! {
        <section class="panel onset" aria-label={say::this_onset()}>
            <h2>{ words::place(record.snippet.passage(), props.onset) }</h2>
            { for hands.map(fingers) }
            { text_field(say::to_mind(), "text", marks.reminder.clone(), &remind, None) }
            <p class="ways">
                <button onclick={to(props.onset.checked_sub(1))} disabled={props.onset == 0}>{ say::onset_before() }</button>
                <button onclick={to(Some(props.onset + 1))} disabled={props.onset == last}>{ say::onset_after() }</button>
                <button onclick={to(None)}>{ say::close() }</button>
            </p>
        </section>
    }
}

/// On one line and no longer than is kept.
fn tidy(text: &str, longest: usize) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(longest).collect()
}

/// What is printed for a hand, the lowest note's finger first.
fn printed(onset: &Onset, hand: Hand) -> String {
    let mut notes: Vec<_> = onset.notes.iter().filter(|note| note.hand == hand).collect();
    sort::by_key(&mut notes, |note| note.pitch.map(|pitch| pitch.midi()));
    notes.iter().filter_map(|note| note.fingering.as_deref()).collect::<Vec<_>>().join(" ")
}

/// The word that is to be explained beside the advice.
pub fn term(desk: &DeskNow, snippet: &Snippet, advice: &Advice) -> Option<Term> {
    let state = desk.state();
    let histories = state.snippets().map(|(_, record)| (record.snippet.as_ref(), record.history()));
    Term::to_explain(advice, snippet, histories)
}

/// What the player wants to be reminded of at the onsets of a span.
pub fn reminders(record: &SnippetRecord, span: Span) -> Vec<String> {
    let inside = record.marks.iter().filter(|(onset, _)| span.contains(**onset));
    inside.map(|(_, marks)| marks.reminder.clone()).filter(|reminder| !reminder.is_empty()).collect()
}

/// The coach's line, under it the word that is met for the first time, and the player's own reminders.
pub fn coachs_line(line: String, term: Option<Term>, reminders: &[String]) -> Html {
    html! {
        <div class="coach">
            <p role="status">{ line }</p>
            { for term.map(|term| html! { <p class="term">{ words::terms::in_a_line(term) }</p> }) }
            { for reminders.iter().map(|reminder| html! { <p class="reminder">{ reminder }</p> }) }
        </div>
    }
}
