//! A part of a drawing that can be tapped: for fingers, keyboards and screen readers alike.

use crate::app::decimal::px;
use yew::prelude::*;

/// A field over `left`, `top`, `right`, `bottom` of the drawing, in its px; `pressed` where it is one that is
/// chosen or not.
pub fn tap_field(
    class: &'static str,
    label: String,
    pressed: Option<bool>,
    [left, top, right, bottom]: [f32; 4],
    tap: &Callback<()>,
) -> Html {
    let onclick = tap.reform(|_: MouseEvent| ());
    let tap = tap.clone();
    let onkeydown = Callback::from(move |event: KeyboardEvent| {
        if matches!(event.key().as_str(), "Enter" | " ") {
            event.prevent_default();
            tap.emit(());
        }
    });
    html! {
        <rect
            {class}
            role="button"
            tabindex="0"
            aria-label={label}
            aria-pressed={pressed.map(|pressed| pressed.to_string())}
            x={px(left)}
            y={px(top)}
            width={px((right - left).max(0.0))}
            height={px(bottom - top)}
            {onclick}
            {onkeydown}
        />
    }
}
