//! The estimate over the repetitions of a block, with its band and the level asked. *Clean* is a disc, *not
//! yet* a hollow diamond; an upright line stands where the step changed.

use crate::{
    app::{
        components::verdict_mark::mark,
        decimal::{pair, px},
        hooks::use_size,
        words,
    },
    method::{Believed, ChanceBand, Verdict},
    words::say,
};
use yew::prelude::*;

#[derive(PartialEq, Properties)]
pub struct ChartProps {
    pub block: Vec<Believed>,
    /// The chance that must be exceeded, 0..=1.
    pub level: f64,
}

#[component]
pub fn Chart(props: &ChartProps) -> Html {
    let sheet = use_node_ref();
    let size = use_size(&sheet);
    html! {
        <figure class="chart">
            <div class="sheet" ref={sheet}>{ for size.map(|size| drawn(props, Paper::of(size, props.block.len()))) }</div>
            <figcaption>
                { key(say::chart_clean(), mark(Verdict::Clean, (12.0, 12.0), 9.0)) }
                { key(say::chart_not_yet(), mark(Verdict::NotYet, (12.0, 12.0), 9.0)) }
                { key(say::chart_asked(), html! { <line class="level" x1="0" x2="24" y1="12" y2="12" /> }) }
                { key(say::another_step(), html! { <line class="change" x1="12" x2="12" y1="0" y2="24" /> }) }
            </figcaption>
        </figure>
    }
}

/// A sign and what it means.
fn key(word: &'static str, drawn: Html) -> Html {
    html! { <span><svg viewBox="0 0 24 24" aria-hidden="true">{ drawn }</svg>{ word }</span> }
}

/// Room for the words at the left edge and for half a mark at top and bottom, in px.
const EDGE: f64 = 84.0;
const MARGIN: f64 = 14.0;
/// Half the width of a mark, in px: its shape can be seen from the stand, and it is distinct from its neighbours as
/// long as there is room.
const SMALLEST_MARK: f64 = 4.5;
const LARGEST_MARK: f64 = 9.0;

/// Where a repetition and a chance stand on the sheet, in px.
struct Paper {
    width: f64,
    height: f64,
    /// Width of one repetition.
    pitch: f64,
}

impl Paper {
    fn of((width, height): (f32, f32), repetitions: usize) -> Self {
        let (width, height) = (f64::from(width).max(2.0 * EDGE), f64::from(height).max(4.0 * MARGIN));
        Paper { width, height, pitch: (width - EDGE) / repetitions.max(1) as f64 }
    }

    fn x(&self, repetition: usize) -> f64 {
        EDGE + self.pitch * (repetition as f64 + 0.5)
    }

    fn y(&self, chance: f64) -> f64 {
        MARGIN + (self.height - 2.0 * MARGIN) * (1.0 - chance)
    }
}

fn drawn(props: &ChartProps, paper: Paper) -> Html {
    let block = &props.block;
    let described = words::course(block);
    let level = px(paper.y(props.level));
    let scale = [1.0, 0.5, 0.0].map(|chance| {
        html! {
            <text x="0" y={px(paper.y(chance))} dominant-baseline="central">{ words::percent(chance) }</text>
        }
    });
    let changes = (1..block.len()).filter(|nth| block[*nth].step != block[nth - 1].step);
    let change = |nth: usize| {
        let x = px(paper.x(nth) - 0.5 * paper.pitch);
        html! { <line class="change" x1={x.clone()} x2={x} y1="0" y2={px(paper.height)} /> }
    };
    let radius = (0.4 * paper.pitch).clamp(SMALLEST_MARK, LARGEST_MARK);
    // In a crowded chart the rarer misses are drawn on top.
    let marks = |wanted: Verdict| {
        let those = block.iter().enumerate().filter(move |(_, one)| one.verdict == wanted);
        those.map(|(nth, one)| mark(wanted, (paper.x(nth), paper.y(one.chance.mean)), radius)).collect::<Html>()
    };
    html! {
        <svg viewBox={format!("0 0 {} {}", px(paper.width), px(paper.height))} role="img" aria-label={described}>
            { for stretches(block).map(|(from, to)| band(&paper, from, &block[from..to])) }
            <line class="level" x1={px(EDGE)} x2={px(paper.width)} y1={level.clone()} y2={level} />
            { for changes.map(change) }
            { marks(Verdict::Clean) }
            { marks(Verdict::NotYet) }
            { for scale }
        </svg>
    }
}

/// From where to where in the block the same step was played.
fn stretches(block: &[Believed]) -> impl Iterator<Item = (usize, usize)> {
    block.chunk_by(|one, next| one.step == next.step).scan(0, |from, stretch| {
        let begins = *from;
        *from += stretch.len();
        Some((begins, *from))
    })
}

/// What was believed of one step: the band and the line through it, half a repetition wider on either side.
fn band(paper: &Paper, from: usize, stretch: &[Believed]) -> Html {
    let along = |chance: fn(&ChanceBand) -> f64| -> Vec<String> {
        let y = |one: &Believed| paper.y(chance(&one.chance));
        let inner = stretch.iter().enumerate().map(|(nth, one)| (paper.x(from + nth), y(one)));
        let start = stretch.first().map(|first| (paper.x(from) - 0.5 * paper.pitch, y(first)));
        let end = stretch.last().map(|last| (paper.x(from + stretch.len() - 1) + 0.5 * paper.pitch, y(last)));
        start.into_iter().chain(inner).chain(end).map(pair).collect()
    };
    let mut outline = along(|point| point.high);
    outline.extend(along(|point| point.low).into_iter().rev());
    html! {
        <>
            <polygon class="band" points={outline.join(" ")} />
            <polyline class="mean" points={along(|point| point.mean).join(" ")} />
        </>
    }
}
