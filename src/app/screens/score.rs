//! Choosing bars from the piece's score: two taps choose the bars, one the goal.

use crate::{
    app::{
        components::{
            field::{choice_field, text_field},
            new_snippet::NewSnippet,
            score_field::being_read,
            score_view::{ScorePart, ScoreView},
        },
        desk::{DeskNow, use_desk},
        device::{fields, timers},
        route::Route,
        scores::Known,
        words,
    },
    journal::PieceId,
    music::{Hand, KnownTempi, Part, Score},
    words::say,
};
use std::{ops::RangeInclusive, rc::Rc};
use yew::prelude::*;

pub fn score(desk: &DeskNow, id: PieceId) -> Html {
    let body = match desk.score(id) {
        None => {
            html! { <p>{ say::no_score_kept() }</p> }
        }
        Some(Known::Refused(why)) => html! { <p class="wrong" role="alert">{ why }</p> },
        Some(Known::Reading(hundredths)) => being_read(hundredths),
        Some(Known::Read(score)) => html! { <Cut {id} {score} /> },
    };
    html! {
        <main class="page score">
            <h1 tabindex="-1">{ say::choose_bars() }</h1>
            { body }
            <p class="ways"><button onclick={Route::Piece(id).on_tap()}>{ say::back_to_the_piece() }</button></p>
        </main>
    }
}

#[derive(Properties)]
struct CutProps {
    id: PieceId,
    score: Rc<Score>,
}

impl PartialEq for CutProps {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id && Rc::ptr_eq(&self.score, &other.score)
    }
}

/// What has been chosen of the bars, by index.
#[derive(Clone, Copy, PartialEq)]
enum Chosen {
    Nothing,
    First(usize),
    Both(usize, usize),
}

impl Chosen {
    /// After a tap on a bar: the first tap begins, the second ends, a third begins again.
    fn tapped(self, bar: usize) -> Chosen {
        match self {
            Chosen::First(first) => Chosen::Both(first.min(bar), first.max(bar)),
            Chosen::Nothing | Chosen::Both(..) => Chosen::First(bar),
        }
    }

    /// After another first bar: a last bar that is chosen stays.
    fn beginning_with(self, first: usize) -> Chosen {
        match self {
            Chosen::Both(_, last) => Chosen::Both(first, last.max(first)),
            Chosen::Nothing | Chosen::First(_) => Chosen::First(first),
        }
    }

    fn bars(self) -> Option<RangeInclusive<usize>> {
        match self {
            Chosen::Nothing => None,
            Chosen::First(bar) => Some(bar..=bar),
            Chosen::Both(first, last) => Some(first..=last),
        }
    }
}

#[component]
fn Cut(props: &CutProps) -> Html {
    let desk = use_desk();
    let parts = &props.score.parts;
    let part = use_state(|| props.score.usual_part());
    let look_at = use_state_eq(|| None::<usize>);
    let hands = use_state(|| None::<Vec<Hand>>);
    let chosen = use_state(|| Chosen::Nothing);
    let of = ScorePart { score: Rc::clone(&props.score), part: *part };
    let Some(shown) = parts.get(*part) else { return html! {} };
    let assigned = (*hands).clone().unwrap_or_else(|| shown.usual_hands());
    let choose_part = {
        let (part, hands, chosen) = (part.setter(), hands.setter(), chosen.setter());
        Callback::from(move |place| {
            part.set(place);
            hands.set(None);
            chosen.set(Chosen::Nothing);
        })
    };
    let assign = {
        let assigned = assigned.clone();
        Callback::from(move |(staff, hand): (usize, Hand)| {
            let mut assigned = assigned.clone();
            assigned[staff] = hand;
            hands.set(Some(assigned));
        })
    };
    let tap = use_callback(chosen.clone(), |bar, chosen| chosen.set(chosen.tapped(bar)));
    let choose = use_callback((), {
        let (chosen, look_at) = (chosen.setter(), look_at.setter());
        move |(to, bar), ()| {
            look_at.set(Some(bar));
            chosen.set(to);
        }
    });
    // With the last bar chosen, what is to be done next is the snippet.
    use_effect_with(matches!(*chosen, Chosen::Both(..)), |both| {
        if *both {
            timers::soon(|| fields::turn_to("#new-snippet"));
        }
    });
    html! {
        <>
            {
                for (parts.len() > 1).then(|| choice_field(say::part(), &parts.iter().map(part_name).collect::<Vec<_>>(), *part, &choose_part))
            }
            { for (assigned.len() > 1).then(|| assign_staves(&assigned, &assign)) }
            <p role="status">{ hint(*chosen, shown) }</p>
            <ScoreView of={of.clone()} chosen={chosen.bars()} look_at={*look_at} {tap} />
            <BarFields of={of} chosen={*chosen} {choose} />
            { for chosen.bars().map(|bars| cut(&desk, props.id, shown, bars, &assigned)) }
        </>
    }
}

#[derive(PartialEq, Properties)]
struct BarFieldsProps {
    of: ScorePart,
    chosen: Chosen,
    /// Told the choice and the bar that was typed.
    choose: Callback<(Chosen, usize)>,
}

/// The same choice by the numbers of the bars, for keyboards and for bars far away.
#[component]
fn BarFields(props: &BarFieldsProps) -> Html {
    let wrong = use_state_eq(|| None::<&'static str>);
    let Some(part) = props.of.get() else { return html! {} };
    let number = |bar: Option<usize>| bar.map(|bar| part.bars[bar].number.clone()).unwrap_or_default();
    let chosen = props.chosen;
    let bars = chosen.bars();
    let (first, last) = (bars.as_ref().map(|bars| *bars.start()), bars.as_ref().map(|bars| *bars.end()));
    let field = |label: &'static str, value: Option<usize>, choice: Rc<dyn Fn(usize) -> Chosen>| {
        let (of, told, choose) = (props.of.clone(), wrong.setter(), props.choose.clone());
        let changed = Callback::from(move |text: String| {
            let found = of.get().and_then(|part| part.bars.iter().position(|bar| bar.number == text.trim()));
            told.set(found.is_none().then_some(label));
            found.into_iter().for_each(|bar| choose.emit((choice(bar), bar)));
        });
        let why =
            (*wrong == Some(label)).then(|| say::give_a_bar(&number(Some(0)), &number(part.bars.len().checked_sub(1))));
        text_field(label, "text", number(value), &changed, why.as_deref())
    };
    html! {
        <div class="bar-fields">
            { field(say::first_bar(), first, Rc::new(move |bar| chosen.beginning_with(bar))) }
            { field(say::last_bar(), last, Rc::new(move |bar| Chosen::Both(first.unwrap_or(bar).min(bar), bar))) }
        </div>
    }
}

fn hint(chosen: Chosen, part: &Part) -> String {
    let number = |bar: usize| part.bars.get(bar).map_or("", |bar| bar.number.as_str());
    match chosen {
        Chosen::Nothing => say::tap_the_first_bar().into(),
        Chosen::First(bar) => say::tap_the_last_bar(number(bar)),
        Chosen::Both(first, last) if first == last => say::bar_is_chosen(number(first)),
        Chosen::Both(first, last) => say::bars_are_chosen(number(first), number(last)),
    }
}

fn part_name(part: &Part) -> String {
    let name = if part.name.is_empty() { &part.id } else { &part.name };
    say::part_and_staves(name, u32::from(part.staves).into())
}

fn cut(desk: &DeskNow, piece: PieceId, part: &Part, bars: RangeInclusive<usize>, hands: &[Hand]) -> Html {
    let (first, last) = (&part.bars[*bars.start()], &part.bars[*bars.end()]);
    let name = if bars.start() == bars.end() {
        say::bar_named(&first.number)
    } else {
        say::bars_named(&first.number, &last.number)
    };
    let known = KnownTempi {
        piece: desk.state().piece(piece).and_then(|record| record.piece.tempo),
        printed_first: part.bars.iter().find_map(|bar| bar.tempo),
        printed_here: first.tempo,
    };
    let tempo = known.offered(first.meter);
    match part.cut(bars, hands) {
        Ok(passage) => html! { <NewSnippet {piece} {passage} {name} {tempo} /> },
        Err(why) => html! { <p class="wrong" role="alert">{ why.to_string() }</p> },
    }
}

/// Which hand plays which staff.
fn assign_staves(hands: &[Hand], assign: &Callback<(usize, Hand)>) -> Html {
    const HANDS: [Hand; 2] = [Hand::Right, Hand::Left];
    let words = HANDS.map(|hand| words::hand(hand).to_string());
    let staff = |(staff, hand): (usize, &Hand)| {
        let choose = assign.reform(move |place: usize| (staff, HANDS[place.min(1)]));
        choice_field(&say::staff_is_for(staff as i64 + 1), &words, usize::from(*hand == Hand::Left), &choose)
    };
    html! { <div class="assign">{ for hands.iter().enumerate().map(staff) }</div> }
}
