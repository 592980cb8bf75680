//! What is to be played now, on its staves, with a marker that moves with the pulse and systems that take turns
//! with it.

use crate::{
    app::{
        components::{drawing::shapes, tap_field::tap_field, verdict_mark::mark},
        decimal::px,
        device::{clock::timed, frame},
        hooks::use_size,
        words,
    },
    method::{Snippet, Step, Verdict, growth},
    music::{PrintedPage, Quarters},
    notation::engraving::{Focus, Layout, OnsetPlace, Room, Sheet, StepSheet},
    words::say,
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

/// The marker that moves along what is played.
#[derive(Default)]
pub struct StaffMarker {
    element: NodeRef,
    drawn: Option<(Rc<StepSheet>, Vec<NodeRef>)>,
    /// The system that is played.
    played: Option<usize>,
}

impl StaffMarker {
    /// Moves the marker to an onset, or hides it, and turns the systems: the first ones where nothing sounds yet.
    pub fn show(&mut self, onset: Option<usize>) {
        let Some((sheet, systems)) = &self.drawn else { return };
        let place = onset.and_then(|onset| sheet.place(onset));
        let played = place.map_or(0, |(system, _)| system);
        if self.played.replace(played) != Some(played) {
            let in_view = sheet.in_view(played);
            for (index, system) in systems.iter().enumerate() {
                frame::show(system, in_view.contains(&index));
            }
        }
        frame::place_in_drawing(&self.element, place.map(|(_, place)| (f64::from(place.x), f64::from(place.top))));
    }
}

#[derive(Properties)]
pub struct StaffProps {
    pub snippet: Rc<Snippet>,
    pub page: Rc<PrintedPage>,
    pub step: Step,
    #[prop_or_default]
    pub marker: Option<Rc<RefCell<StaffMarker>>>,
    /// The onset at which the last repetition broke.
    #[prop_or_default]
    pub broke_at: Option<usize>,
    /// Told which onset was tapped.
    pub tapped: Callback<usize>,
}

impl PartialEq for StaffProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.snippet, &other.snippet)
            && Rc::ptr_eq(&self.page, &other.page)
            && (self.step, self.broke_at) == (other.step, other.broke_at)
            && self.tapped == other.tapped
    }
}

#[component]
pub fn Staff(props: &StaffProps) -> Html {
    let element = use_node_ref();
    let size = use_size(&element);
    let layout = use_memo((props.page.clone(), size.map(whole)), |(page, size)| {
        size.map(|(width, height)| {
            let room = Room::on_screen((f32::from(width), f32::from(height)), frame::screen());
            Rc::new(timed("staff-room", || Layout::new(&page.part, room)))
        })
    });
    let least = (*layout).as_ref().map(|layout| layout.least_height);
    {
        // The staff says how high it must be: the rest of the screen gives way.
        let element = element.clone();
        use_effect_with(least, move |least| {
            least.iter().for_each(|least| frame::hold_open(&element, f64::from(*least)));
        });
    }
    let of = (props.snippet.clone(), props.page.clone(), props.step, size.map(whole));
    let sheet = use_memo(of, |(snippet, page, step, _)| {
        (*layout).as_ref().map(|layout| Rc::new(timed("staff", || draw(layout, snippet, page, *step))))
    });
    let (marker_element, systems) = (use_node_ref(), use_mut_ref(Vec::<NodeRef>::new));
    let count = (*sheet).as_ref().map_or(0, |sheet| sheet.systems.len());
    systems.borrow_mut().resize_with(count, NodeRef::default);
    let systems = systems.borrow().clone();
    if let Some(marker) = &props.marker {
        let drawn = (*sheet).clone().map(|sheet| (sheet, systems.clone()));
        *marker.borrow_mut() = StaffMarker { element: marker_element.clone(), drawn, played: None };
    }
    html! {
        <div class="staff" ref={element}>
            { for (*sheet).as_ref().map(|sheet| svg(props, sheet, marker_element, &systems)) }
        </div>
    }
}

/// A layout is made for whole px, and at least for the smallest drawable size.
fn whole((width, height): (f32, f32)) -> (u16, u16) {
    (width.max(120.0) as u16, height.max(60.0) as u16)
}

/// A picture of a step of `snippet`, which is described by `told`, with the sign of a break at some of its onsets, the first
/// of them in view; taps do nothing.
pub fn picture(snippet: &Snippet, page: &PrintedPage, step: Step, told: &str, broken: &[usize]) -> Html {
    let sheet = draw(&Layout::new(&page.part, PICTURE), snippet, page, step);
    let shown = broken.first().and_then(|onset| sheet.place(*onset)).map_or(0, |(system, _)| system);
    let in_view = &sheet.systems[sheet.in_view(shown)];
    let system = |system: &Sheet| {
        let marks = broken.iter().filter_map(|onset| broke(system, *onset, sheet.space));
        html! { <>{ shapes(&system.drawing) }{ for marks }</> }
    };
    html! {
        <div class="staff picture">
            <svg viewBox={format!("0 0 {} {}", px(sheet.width), px(sheet.height))} role="img" aria-label={told.to_string()}>
                { for in_view.iter().map(system) }
            </svg>
        </div>
    }
}

/// The room of a picture; the page scales it.
const PICTURE: Room = Room { width: 560.0, height: 260.0, least: 8.0, text: Room::TEXT_ON_A_TABLET };

fn draw(layout: &Layout, snippet: &Snippet, page: &PrintedPage, step: Step) -> StepSheet {
    let onsets: Vec<Quarters> = snippet.passage().onsets().iter().map(|onset| onset.at).collect();
    let focus = Focus {
        onsets: &onsets,
        span: (step.span.first(), step.span.last()),
        goal: snippet.goal(),
        aim: growth::aim(snippet, step.span),
        plays: &|staff| page.hand(staff).is_none_or(|hand| step.hands.include(hand)),
    };
    layout.draw(&page.part, &focus)
}

fn svg(props: &StaffProps, sheet: &StepSheet, marker: NodeRef, systems: &[NodeRef]) -> Html {
    let (width, height) = (px(sheet.width), px(sheet.height));
    let described =
        say::onsets_of(props.step.span.first() as i64 + 1, props.step.span.last() as i64 + 1, props.snippet.name());
    let places = || sheet.systems.iter().flat_map(|system| &system.places);
    let highest = places().map(|place| place.bottom - place.top).fold(0.0, f32::max);
    let in_view = sheet.in_view(0);
    let system = |(index, (system, element)): (usize, (&Sheet, &NodeRef))| {
        let visibility = if in_view.contains(&index) { "visible" } else { "hidden" };
        html! {
            <g ref={element} {visibility}>
                { shapes(&system.drawing) }
                { for broken(props, system, sheet.space) }
                { for (0..system.places.len()).map(|index| onset(props, system, index)) }
            </g>
        }
    };
    html! {
        <svg {width} {height} data-space={px(sheet.space)} role="group" aria-label={described}>
            <g ref={marker} visibility="hidden" class="marker">
                <line x1="0" x2="0" y1="0" y2={px(highest)} stroke-width="6" />
            </g>
            { for sheet.systems.iter().zip(systems).enumerate().map(system) }
        </svg>
    }
}

/// Half the width of the sign of a break, in staff spaces.
const BREAK: f32 = 0.7;

/// Over an onset where it broke stands the sign of *not yet*, a hollow diamond.
fn broke(sheet: &Sheet, onset: usize, space: f32) -> Option<Html> {
    let (place, half) = (sheet.place(onset)?, BREAK * space);
    Some(mark(Verdict::NotYet, (f64::from(place.x), f64::from(place.top + half + 1.0)), f64::from(half)))
}

/// The same, said to whoever cannot see it.
fn broken(props: &StaffProps, sheet: &Sheet, space: f32) -> Option<Html> {
    let onset = props.broke_at?;
    let told = say::broke_at(&words::place(props.snippet.passage(), onset));
    broke(sheet, onset, space).map(|mark| html! { <g class="broke" role="img" aria-label={told}>{ mark }</g> })
}

/// Where a tap means an onset: from half way to the one before until half way to the next.
fn onset(props: &StaffProps, sheet: &Sheet, index: usize) -> Html {
    let place = sheet.places[index];
    let half_way = |other: Option<&OnsetPlace>, edge: f32| other.map_or(edge, |other| 0.5 * (other.x + place.x));
    let ends = sheet.bars.first().zip(sheet.bars.last()).map_or([place.x; 2], |(first, last)| [first.left, last.right]);
    let left = half_way(index.checked_sub(1).and_then(|before| sheet.places.get(before)), ends[0]);
    let right = half_way(sheet.places.get(index + 1), ends[1]);
    let number = place.onset;
    let label = say::onset_at(number as i64 + 1, &words::place(props.snippet.passage(), number));
    let sides = [left, place.top, right, place.bottom];
    tap_field("onset", label, None, sides, &props.tapped.reform(move |()| number))
}
