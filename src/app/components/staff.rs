//! What is to be played now, on its staves, with a marker that moves with the pulse.

use super::{
    super::{
        decimal::px,
        device::{clock::timed, frame},
        hooks::use_size,
        words,
    },
    drawing::shapes,
    tap_field::tap_field,
};
use crate::{
    method::{Snippet, Step, growth},
    music::{Page, Quarters},
    notation::engraving::{Focus, Place, Sheet, practice_sheet},
    words::say,
};
use std::{cell::RefCell, rc::Rc};
use web_sys::Element;
use yew::prelude::*;

/// The marker that moves along what is played.
#[derive(Default)]
pub struct StaffMarker {
    element: NodeRef,
    sheet: Option<Rc<Sheet>>,
}

impl StaffMarker {
    /// Moves the marker to an onset, or hides it.
    pub fn show(&self, onset: Option<usize>) {
        let place = self.sheet.as_ref().zip(onset).and_then(|(sheet, onset)| sheet.place(onset));
        if let Some(element) = self.element.cast::<Element>() {
            frame::place_in_drawing(&element, place.map(|place| (f64::from(place.x), f64::from(place.top))));
        }
    }
}

#[derive(Properties)]
pub struct StaffProps {
    pub snippet: Rc<Snippet>,
    pub page: Rc<Page>,
    pub step: Step,
    #[prop_or_default]
    pub marker: Option<Rc<RefCell<StaffMarker>>>,
    /// Told which onset was tapped.
    pub tapped: Callback<usize>,
}

impl PartialEq for StaffProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.snippet, &other.snippet)
            && Rc::ptr_eq(&self.page, &other.page)
            && self.step == other.step
            && self.tapped == other.tapped
    }
}

#[component]
pub fn Staff(props: &StaffProps) -> Html {
    let element = use_node_ref();
    let size = use_size(&element);
    let of = (props.snippet.clone(), props.page.clone(), props.step, size.map(sheet_size));
    let sheet = use_memo(of, |(snippet, page, step, size)| {
        size.map(|size| Rc::new(timed("staff", || lay_out(snippet, page, *step, size))))
    });
    let marker_element = use_node_ref();
    if let Some(marker) = &props.marker {
        *marker.borrow_mut() = StaffMarker { element: marker_element.clone(), sheet: (*sheet).clone() };
    }
    html! {
        <div class="staff" ref={element}>{ for (*sheet).as_ref().map(|sheet| svg(props, sheet, marker_element)) }</div>
    }
}

/// A layout is made for whole px, and for no less than can be drawn on.
fn sheet_size((width, height): (f32, f32)) -> (u16, u16) {
    (width.max(120.0) as u16, height.max(60.0) as u16)
}

/// A picture of a step of `snippet`, which is described by `told`; it answers to nothing.
pub fn picture(snippet: &Snippet, page: &Page, step: Step, told: &'static str) -> Html {
    let sheet = lay_out(snippet, page, step, PICTURE);
    let (width, height) = (px(sheet.drawing.width), px(sheet.drawing.height));
    html! {
        <div class="staff picture">
            <svg viewBox={format!("0 0 {width} {height}")} role="img" aria-label={told}>{ shapes(&sheet.drawing) }</svg>
        </div>
    }
}

/// Width and height of a picture, in px; the page scales it.
const PICTURE: (u16, u16) = (560, 260);

fn lay_out(snippet: &Snippet, page: &Page, step: Step, (width, height): (u16, u16)) -> Sheet {
    let onsets: Vec<Quarters> = snippet.passage().onsets().iter().map(|onset| onset.at).collect();
    let focus = Focus {
        onsets: &onsets,
        span: (step.span.first(), step.span.last()),
        goal: snippet.goal(),
        aim: growth::aim(snippet, step.span),
        plays: &|staff| page.hand(staff).is_none_or(|hand| step.hands.include(hand)),
    };
    practice_sheet(&page.part, &focus, f32::from(width), f32::from(height))
}

fn svg(props: &StaffProps, sheet: &Sheet, marker: NodeRef) -> Html {
    let (width, height) = (sheet.drawing.width, sheet.drawing.height);
    let described =
        say::onsets_of(props.step.span.first() as i64 + 1, props.step.span.last() as i64 + 1, props.snippet.name());
    let system = sheet.places.iter().map(|place| place.bottom - place.top).fold(0.0, f32::max);
    html! {
        <svg viewBox={format!("0 0 {} {}", px(width), px(height))} role="group" aria-label={described}>
            <g ref={marker} visibility="hidden" class="marker">
                <line x1="0" x2="0" y1="0" y2={px(system)} stroke-width="6" />
            </g>
            { shapes(&sheet.drawing) }
            { for (0..sheet.places.len()).map(|index| onset(props, sheet, index)) }
        </svg>
    }
}

/// Where a tap means an onset: from half way to the one before until half way to the next.
fn onset(props: &StaffProps, sheet: &Sheet, index: usize) -> Html {
    let place = sheet.places[index];
    let half_way = |other: Option<&Place>, edge: f32| {
        let beside = other.filter(|other| other.top == place.top);
        beside.map_or(edge, |other| 0.5 * (other.x + place.x))
    };
    let left = half_way(index.checked_sub(1).and_then(|before| sheet.places.get(before)), 0.0);
    let right = half_way(sheet.places.get(index + 1), sheet.drawing.width);
    let number = place.onset;
    let label = say::onset_at(number as i64 + 1, &words::place(props.snippet.passage(), number));
    let sides = [left, place.top, right, place.bottom];
    tap_field("onset", label, None, sides, &props.tapped.reform(move |()| number))
}
