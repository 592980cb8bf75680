//! A whole score on its staves, bar by bar; two taps choose bars. Only what is in view is laid out.

use super::{
    super::{decimal::px, device::clock::timed, hooks::use_size},
    drawing::shapes,
    tap_field::tap_field,
};
use crate::{
    music::{Part, Score},
    notation::engraving::{BarPlace, Scroll, ScrollSystem},
};
use std::{ops::RangeInclusive, rc::Rc};
use web_sys::HtmlElement;
use yew::prelude::*;

/// A staff space in px: legible, not large; what is practised is shown large elsewhere.
const SPACE: f32 = 8.0;

/// A part of a score, cheap to hand on.
#[derive(Clone)]
pub struct ScorePart {
    pub score: Rc<Score>,
    pub part: usize,
}

impl PartialEq for ScorePart {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.score, &other.score) && self.part == other.part
    }
}

impl ScorePart {
    pub fn get(&self) -> Option<&Part> {
        self.score.parts.get(self.part)
    }
}

#[derive(PartialEq, Properties)]
pub struct ScoreViewProps {
    pub of: ScorePart,
    pub chosen: Option<RangeInclusive<usize>>,
    /// Told which bar was tapped, by its index.
    pub tap: Callback<usize>,
}

#[component]
pub fn ScoreView(props: &ScoreViewProps) -> Html {
    let window = use_node_ref();
    let size = use_size(&window);
    let scrolled = use_state_eq(|| 0.0_f32);
    let width = size.map(|(width, _)| width.max(200.0));
    let scroll = use_memo((props.of.clone(), width), |(of, width)| {
        let (part, width) = of.get().zip(*width)?;
        Some(ScrollOf(Rc::new(timed("score", || Scroll::new(part, width, SPACE)))))
    });
    let onscroll = {
        let (window, scrolled) = (window.clone(), scrolled.setter());
        Callback::from(move |_: Event| {
            let top = window.cast::<HtmlElement>().map_or(0, |window| window.scroll_top());
            scrolled.set(top as f32);
        })
    };
    html! {
        <div class="score-view" ref={window} {onscroll} tabindex="0" role="group" aria-label="The score, bar by bar">
            { for (*scroll).as_ref().zip(size).map(|(scroll, size)| systems(props, scroll, *scrolled, size)) }
        </div>
    }
}

/// The systems in view and one window's height above and below it.
fn systems(props: &ScoreViewProps, scroll: &ScrollOf, scrolled: f32, (width, height): (f32, f32)) -> Html {
    let near = |top: f32, bottom: f32| bottom > scrolled - height && top < scrolled + 2.0 * height;
    let total = scroll.0.height();
    let shown = scroll.0.systems.iter().enumerate();
    let shown = shown.filter(|(_, system)| near(system.top, system.top + system.height));
    let system = |(index, system): (usize, &ScrollSystem)| {
        let (first, end) = (system.bars.start, system.bars.end);
        let chosen = props.chosen.clone().filter(|bars| *bars.start() < end && first <= *bars.end());
        html! {
            <g key={index} transform={format!("translate(0 {})", px(system.top))}>
                <SystemView of={props.of.clone()} scroll={scroll.clone()} {index} {chosen} tap={props.tap.clone()} />
            </g>
        }
    };
    html! { <svg width={px(width)} height={px(total)}>{ for shown.map(system) }</svg> }
}

/// The bars broken into systems, cheap to hand on.
#[derive(Clone)]
struct ScrollOf(Rc<Scroll>);

impl PartialEq for ScrollOf {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

#[derive(PartialEq, Properties)]
struct SystemViewProps {
    of: ScorePart,
    scroll: ScrollOf,
    index: usize,
    /// The chosen bars, where some are in this system.
    chosen: Option<RangeInclusive<usize>>,
    tap: Callback<usize>,
}

#[component]
fn SystemView(props: &SystemViewProps) -> Html {
    let sheet = use_memo((props.of.clone(), props.scroll.clone(), props.index), |(of, scroll, index)| {
        of.get().map(|part| scroll.0.draw(part, *index, None))
    });
    let Some((sheet, part)) = (*sheet).as_ref().zip(props.of.get()) else { return html! {} };
    html! {
        <>
            { for sheet.bars.iter().map(|place| bar(props, &part.bars[place.bar].number, place)) }
            <g class="printed">{ shapes(&sheet.drawing) }</g>
        </>
    }
}

/// A bar as a field to be tapped, under what is printed in it.
fn bar(props: &SystemViewProps, number: &str, place: &BarPlace) -> Html {
    let index = place.bar;
    let chosen = props.chosen.as_ref().is_some_and(|bars| bars.contains(&index));
    let sides = [place.left, place.top, place.right, place.bottom];
    tap_field("bar", format!("Bar {number}"), Some(chosen), sides, &props.tap.reform(move |()| index))
}
