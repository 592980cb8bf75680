//! The sign of a verdict in a drawing.

use crate::{
    app::decimal::{pair, px},
    method::Verdict,
};
use yew::prelude::*;

/// A disc for clean, a hollow diamond for not yet; its middle and half its width in px.
pub fn mark(verdict: Verdict, (x, y): (f64, f64), radius: f64) -> Html {
    match verdict {
        Verdict::Clean => html! {
            <circle class="clean" cx={px(x)} cy={px(y)} r={px(radius)} />
        },
        Verdict::NotYet => {
            let corner = |dx: f64, dy: f64| pair((x + dx, y + dy));
            let corners = [corner(0.0, -radius), corner(radius, 0.0), corner(0.0, radius), corner(-radius, 0.0)];
            html! { <polygon class="not-yet" points={corners.join(" ")} /> }
        }
    }
}
