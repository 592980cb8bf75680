//! A whole score on its staves, bar by bar; two taps choose bars. Only what is in view is laid out.

use crate::{
    app::{
        components::{drawing::shapes, tap_field::tap_field},
        decimal::{pair, px},
        device::{clock::timed, frame, timers},
        hooks::use_size,
    },
    music::{Part, Score},
    notation::engraving::{BarPlace, Scroll, ScrollSystem},
    words::say,
};
use std::{ops::RangeInclusive, rc::Rc};
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
    /// The bar to be brought into view, by its index.
    pub look_at: Option<usize>,
    /// Told which bar was tapped, by its index.
    pub tap: Callback<usize>,
}

#[component]
pub fn ScoreView(props: &ScoreViewProps) -> Html {
    let window = use_node_ref();
    let size = use_size(&window);
    let scrolled = use_state_eq(|| 0.0_f32);
    let width = size.map(|(width, _)| width.max(200.0));
    let scroll = use_scroll(&props.of, width);
    // Once for each bar, as soon as its system is laid out.
    let target = props.look_at.and_then(|bar| {
        let system = scroll.as_ref()?.0.systems.iter().find(|system| system.bars.contains(&bar))?;
        Some((bar, system.top as i32))
    });
    use_effect_with(target, {
        let window = window.clone();
        move |target| {
            target.iter().for_each(|(_, top)| frame::scroll_to(&window, *top));
        }
    });
    let onscroll = {
        let (window, scrolled) = (window.clone(), scrolled.setter());
        Callback::from(move |_: Event| {
            scrolled.set(frame::scrolled(&window));
        })
    };
    html! {
        <div class="score-view" ref={window} {onscroll} tabindex="0" role="group" aria-label={say::score_bar_by_bar()}>
            { for scroll.as_ref().zip(size).map(|(scroll, size)| systems(props, scroll, *scrolled, size)) }
        </div>
    }
}

/// The part laid out at a width: more of it from frame to frame, until it is whole.
#[hook]
fn use_scroll(of: &ScorePart, width: Option<f32>) -> Option<ScrollOf> {
    let known = use_state(|| None::<(ScorePart, f32, ScrollOf)>);
    let so_far = known.as_ref().filter(|(part, at, _)| part == of && Some(*at) == width);
    let so_far = so_far.map(|(.., scroll)| scroll.clone());
    let set = known.setter();
    use_effect_with((of.clone(), width, so_far.clone()), move |(of, width, so_far)| {
        let next = width.filter(|_| of.get().is_some()).and_then(|width| {
            let scroll = so_far.as_ref().map_or_else(|| Scroll::begin(width, SPACE), |scroll| (*scroll.0).clone());
            let of = of.clone();
            let is_whole = of.get().is_some_and(|part| scroll.is_whole(part));
            (!is_whole).then(|| timers::after(0, move || set.set(Some((of.clone(), width, more(&of, scroll))))))
        });
        move || drop(next)
    });
    so_far
}

fn more(of: &ScorePart, mut scroll: Scroll) -> ScrollOf {
    of.get().into_iter().for_each(|part| timed("score", || scroll.go_on(part)));
    ScrollOf(Rc::new(scroll))
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
            <g key={index} transform={format!("translate({})", pair((0.0, system.top)))}>
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

#[derive(Properties)]
struct SystemViewProps {
    of: ScorePart,
    scroll: ScrollOf,
    index: usize,
    /// The chosen bars, where some are in this system.
    chosen: Option<RangeInclusive<usize>>,
    tap: Callback<usize>,
}

impl PartialEq for SystemViewProps {
    /// A scroll that goes on changes none of the systems that it had.
    fn eq(&self, other: &Self) -> bool {
        let system = |props: &Self| props.scroll.0.systems.get(props.index).cloned();
        (&self.of, self.index, &self.chosen, &self.tap) == (&other.of, other.index, &other.chosen, &other.tap)
            && system(self) == system(other)
    }
}

#[component]
fn SystemView(props: &SystemViewProps) -> Html {
    let system = props.scroll.0.systems.get(props.index).cloned();
    let sheet = use_memo((props.of.clone(), system), |(of, _)| {
        of.get().map(|part| props.scroll.0.draw(part, props.index, None))
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
    tap_field("bar", say::bar_named(number), Some(chosen), sides, &props.tap.reform(move |()| index))
}
