//! The estimate over the repetitions of a step, with its band and the level asked.

use crate::method::Point;
use yew::prelude::*;

/// Size of the drawing, in its own px.
const SIZE: (f64, f64) = (320.0, 120.0);

/// The chart of `points`; `level` is the chance that must be exceeded, 0..=1.
pub fn chart(points: &[Point], level: f64) -> Html {
    let (width, height) = SIZE;
    let x = |index: usize| width * (index as f64 + 0.5) / points.len().max(1) as f64;
    let y = |chance: f64| height * (1.0 - chance);
    let line = |chance: &dyn Fn(&Point) -> f64| -> Vec<String> {
        points.iter().enumerate().map(|(i, p)| format!("{:.1},{:.1}", x(i), y(chance(p)))).collect()
    };
    let mut band = line(&|point| point.high);
    band.extend(line(&|point| point.low).into_iter().rev());
    let mean = line(&|point| point.mean);
    let dot = points.last().map(|point| (x(points.len() - 1), y(point.mean)));
    let level = format!("{:.1}", y(level));
    html! {
        <svg class="chart" viewBox={format!("0 0 {width} {height}")} role="img" aria-label="The estimate over the repetitions of this step">
            <polygon class="band" points={band.join(" ")} />
            <line class="level" x1="0" x2={width.to_string()} y1={level.clone()} y2={level} />
            <polyline class="mean" points={mean.join(" ")} />
            {
                for dot.map(|(x, y)| html! { <circle class="dot" cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="5" /> })
            }
        </svg>
    }
}
