//! A drawing's shapes as SVG.

use crate::{
    app::decimal::{decimal, pair, px},
    notation::{Drawing, Glyph, Ink, Shape, drawing::Form},
};
use yew::{prelude::*, virtual_dom::VNode};

/// The shapes, to be put into an `svg` element of the drawing's size.
pub fn shapes(drawing: &Drawing) -> Html {
    html! { <>{ for drawing.shapes.iter().map(shape) }</> }
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
            <ellipse
                class={classes!(class, hollow.then_some("hollow"))}
                cx={px(centre.0)}
                cy={px(centre.1)}
                rx={px(radii.0)}
                ry={px(radii.1)}
            />
        },
        Form::Polygon { points } => {
            let points: Vec<String> = points.iter().map(|at| pair(*at)).collect();
            html! { <polygon {class} points={points.join(" ")} /> }
        }
        Form::Glyph { at, glyph, space } => {
            let transform = format!("translate({}) scale({})", pair(*at), decimal(f64::from(space / Glyph::UNITS), 4));
            html! { <path {class} {transform} d={glyph.outline()} /> }
        }
        Form::Curve { ends: [from, to], outer, inner } => {
            let [there, back] = [(outer[0], outer[1], *to), (inner[1], inner[0], *from)]
                .map(|(a, b, end)| format!("C{} {} {}", pair(a), pair(b), pair(end)));
            html! { <path {class} d={format!("M{}{there}{back}Z", pair(*from))} /> }
        }
        Form::Text { at, size, italic, text } => html! {
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
        },
    }
}
