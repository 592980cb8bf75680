//! The pulse across the top, for the corner of the eye: two marks set out from the screen's edges
//! and meet in the middle on the beat, taller on the bar's first.
//!
//! Motion that can be foreseen, never a flash: the marks keep their colour. Where the device asks for less motion they
//! step from beat to beat.

use crate::{
    app::device::frame::{self, EveryFrame},
    pulse::Phase,
};
use std::rc::Rc;
use yew::prelude::*;

#[derive(Properties)]
pub struct PulseBarProps {
    /// Asked before every repaint; `None` stands still.
    pub phase: Rc<dyn Fn() -> Option<Phase>>,
    /// Told with every repaint which onset was to sound last.
    pub sounded: Callback<Option<usize>>,
}

impl PartialEq for PulseBarProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.phase, &other.phase) && self.sounded == other.sounded
    }
}

/// Height of a mark that comes to a beat inside the bar, against one that comes to the first.
const LOW: f64 = 0.45;
const MIDDLE: f64 = 0.7;

#[component]
pub fn PulseBar(props: &PulseBarProps) -> Html {
    let (left, right, count) = (use_node_ref(), use_node_ref(), use_node_ref());
    {
        let (left, right, count) = (left.clone(), right.clone(), count.clone());
        let (phase, sounded) = (Rc::clone(&props.phase), props.sounded.clone());
        use_effect_with(Rc::as_ptr(&props.phase).cast::<()>(), move |_| {
            let still = frame::prefers_stillness();
            let frames = EveryFrame::new(move || {
                let Some(now) = phase() else { return };
                draw(&left, &right, &count, &now, still);
                sounded.emit(now.onset);
            });
            move || drop(frames)
        });
    }
    html! {
        <div class="pulse" aria-hidden="true">
            <span class="mark" ref={left}></span>
            <span class="meeting" ref={count}></span>
            <span class="mark" ref={right}></span>
        </div>
    }
}

fn draw(left: &NodeRef, right: &NodeRef, count: &NodeRef, phase: &Phase, still: bool) {
    let (come, meant) = phase.marks(still);
    let tall = match (meant.opens_bar(), meant.opens_group) {
        (true, _) => 1.0,
        (false, true) => MIDDLE,
        (false, false) => LOW,
    };
    frame::place(left, 0.5 * come, tall);
    frame::place(right, 1.0 - 0.5 * come, tall);
    let number = if phase.last.count_in { phase.last.number.to_string() } else { String::new() };
    frame::write(count, &number);
}
