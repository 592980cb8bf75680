//! What is to be played, drawn: the layout's primitives as SVG, with a marker that moves with the
//! pulse.
//!
//! Refuses to know music: it shows whatever the layout made.

use super::super::{device::frame, hooks::use_size};
use crate::{
    method::{Snippet, Step},
    music::Page,
    notation::{Ink, RhythmLine, Shape, drawing::Form, engraving::Glyph},
};
use std::{cell::RefCell, rc::Rc};
use web_sys::Element;
use yew::{prelude::*, virtual_dom::VNode};

/// The marker that moves along what is played.
#[derive(Default)]
pub struct StaffMarker {
    element: NodeRef,
    line: Option<Rc<RhythmLine>>,
}

impl StaffMarker {
    /// Moves the marker to an onset, or hides it.
    pub fn show(&self, onset: Option<usize>) {
        let place = self.line.as_ref().zip(onset).and_then(|(line, onset)| line.place(onset));
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
    #[prop_or_default]
    pub tapped: Option<Callback<usize>>,
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
    let sheet = use_node_ref();
    let size = use_size(&sheet);
    let line = use_memo((props.snippet.clone(), props.step, size.map(sheet_size)), |(snippet, step, size)| {
        size.map(|(width, height)| Rc::new(RhythmLine::new(snippet, *step, f32::from(width), f32::from(height))))
    });
    let marker_element = use_node_ref();
    if let Some(marker) = &props.marker {
        *marker.borrow_mut() = StaffMarker { element: marker_element.clone(), line: (*line).clone() };
    }
    let ontap = props.tapped.clone().zip((*line).clone()).map(|(tapped, line)| {
        Callback::from(move |event: MouseEvent| {
            let (x, y) = (event.offset_x() as f32, event.offset_y() as f32);
            if let Some(onset) = line.onset_at(x, y) {
                tapped.emit(onset);
            }
        })
    });
    let described =
        format!("Onsets {} to {} of {}", props.step.span.first() + 1, props.step.span.last() + 1, props.snippet.name());
    html! {
        <div class="staff" ref={sheet} onclick={ontap}>
            { for (*line).as_ref().map(|line| svg(line, &described, marker_element)) }
        </div>
    }
}

/// A layout is made for whole px, and for no less than can be drawn on.
fn sheet_size((width, height): (f32, f32)) -> (u16, u16) {
    (width.max(120.0) as u16, height.max(60.0) as u16)
}

fn svg(line: &RhythmLine, described: &str, marker: NodeRef) -> Html {
    let (width, height) = (line.drawing.width, line.drawing.height);
    // All systems are equally high.
    let system = line.places.first().map_or(0.0, |place| place.bottom - place.top);
    html! {
        <svg viewBox={format!("0 0 {width} {height}")} role="img" aria-label={described.to_string()}>
            <g ref={marker} visibility="hidden" class="marker">
                <line x1="0" x2="0" y1="0" y2={px(system)} stroke-width="6" />
            </g>
            { for line.drawing.shapes.iter().map(shape) }
        </svg>
    }
}

fn shape(shape: &Shape) -> VNode {
    let class = match shape.ink {
        Ink::Full => "ink-full",
        Ink::Faint => "ink-faint",
        Ink::Accent => "ink-accent",
        Ink::Resting => "ink-resting",
    };
    match &shape.form {
        Form::Line { from, to, width } => html! {
            <line {class} x1={px(from.0)} y1={px(from.1)} x2={px(to.0)} y2={px(to.1)} stroke-width={px(*width)} />
        },
        Form::Ellipse { centre, radii, hollow } => html! {
            <ellipse class={classes!(class, hollow.then_some("hollow"))} cx={px(centre.0)} cy={px(centre.1)} rx={px(radii.0)} ry={px(radii.1)} />
        },
        Form::Polygon { points } => {
            let points: Vec<String> = points.iter().map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
            html! { <polygon {class} points={points.join(" ")} /> }
        }
        Form::Glyph { at, glyph, space } => {
            let transform = format!("translate({} {}) scale({:.4})", px(at.0), px(at.1), space / Glyph::UNITS);
            html! { <path {class} {transform} d={glyph.outline()} /> }
        }
        Form::Curve { ends: [from, to], outer, inner } => {
            let at = |(x, y): (f32, f32)| format!("{x:.1} {y:.1}");
            let there = format!("M{} C{} {} {}", at(*from), at(outer[0]), at(outer[1]), at(*to));
            html! { <path {class} d={format!("{there} C{} {} {}Z", at(inner[1]), at(inner[0]), at(*from))} /> }
        }
        Form::Text { at, size, italic, text } => {
            html! {
                <text
                    class={classes!(class, italic.then_some("italic"))}
                    x={px(at.0)}
                    y={px(at.1)}
                    font-size={px(*size)}
                    text-anchor="middle"
                    dominant-baseline="central"
                >
                    { text }
                </text>
            }
        }
    }
}

fn px(value: f32) -> String {
    format!("{value:.1}")
}
