//! How soon the staff is laid out and a long score is in view, on a processor four times slower than
//! this one.

use crate::{
    figure::{Figure, Paired, Ratio, Sheet, median, wait},
    harness::{Chromium, Site, Viewport},
    tap::numbers,
};
use std::{fmt::Write, path::Path};

/// Odd numbers, so that there is a middle one.
const LAYOUTS: usize = 15;
const OPENINGS: usize = 5;
/// As many as a sonata movement has.
const BARS: usize = 300;

const STUDY: &str = include_str!("../../src/music/study.musicxml");

pub fn measure(sheet: &mut Sheet) {
    let (layout, opening) = wait(async { (four_bars().await, long_score().await) });
    sheet.add_ratio(Ratio {
        name: "staff-layout-4-bars",
        paired: layout,
        beside: "the browser's own layout and paint of that drawing",
        target: 0.5,
    });
    sheet.add(Figure { name: "score-opening-300-bars", value: opening, unit: "ms", target: 1000.0 });
}

async fn at_the_page(site: &Site) -> Chromium {
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    browser.set_viewport(Viewport::LANDSCAPE).await;
    browser
}

/// The layout of four bars on two staves: the goal is moved, so that all of it is laid out anew. Beside it what the
/// browser's main thread does for the same drawing from its insertion to its paint.
async fn four_bars() -> Paired {
    let site = Site::serve();
    let browser = at_the_page(&site).await;
    browser.run("location.hash = 'score/1-study1'").await;
    browser.wait_for(".bar-fields").await;
    let choose = "const type = async (nth, text) => {
            const field = document.querySelectorAll('.bar-fields input')[nth];
            field.value = text;
            field.dispatchEvent(new Event('change', { bubbles: true }));
            await new Promise((drawn) => setTimeout(drawn, 400));
        };
        await type(0, '12');
        await type(1, '15');";
    browser.run(choose).await;
    browser.wait_for(".snippet-form .staff svg").await;
    browser.slow_down(4.0).await;
    let move_goal = format!(
        "const goal = [...document.querySelectorAll('.field')].find((field) => field.textContent.startsWith('Goal'));
        const select = goal.querySelector('select');
        performance.clearMeasures();
        for (let nth = 0; nth < {LAYOUTS}; nth += 1) {{
            select.selectedIndex = nth;
            select.dispatchEvent(new Event('change', {{ bubbles: true }}));
            await new Promise(requestAnimationFrame);
            await new Promise(requestAnimationFrame);
        }}
        return performance.getEntriesByName('staff', 'measure').map((entry) => entry.duration)"
    );
    let times = browser.run(&move_goal).await;
    let work = numbers(&times);
    assert!(work.len() >= LAYOUTS, "only {times} was laid out");
    let mut yardstick = Vec::new();
    for _ in 0..LAYOUTS {
        yardstick.push(painted_anew(&browser, true).await - painted_anew(&browser, false).await);
    }
    browser.finish().await;
    Paired { work, yardstick }
}

/// Milliseconds that the main thread is busy while copies of the drawing are painted one after the other, for each of
/// them; or while the same frames go by without one.
async fn painted_anew(browser: &Chromium, drawing: bool) -> f64 {
    const COPIES: usize = 4;
    let before = browser.busy_milliseconds().await;
    let show = format!(
        "const svg = document.querySelector('.snippet-form .staff svg');
        const copies = Array.from({{ length: {COPIES} }}, () => svg.cloneNode(true));
        const holder = svg.parentElement.parentElement.insertBefore(document.createElement('div'), svg.parentElement);
        for (const copy of copies) {{
            holder.replaceChildren(...({drawing} ? [copy] : []));
            await new Promise(requestAnimationFrame);
            await new Promise(requestAnimationFrame);
        }}
        holder.remove();
        await new Promise(requestAnimationFrame)"
    );
    browser.run(&show).await;
    (browser.busy_milliseconds().await - before) / COPIES as f64
}

/// The study's bars over and over.
fn long_study() -> String {
    let (head, rest) = STUDY.split_once("<measure number=\"1\"").expect("bars");
    let (bars, tail) = rest.rsplit_once("</measure>").expect("bars");
    let bars = format!("<measure number=\"1\"{bars}</measure>");
    let each: Vec<&str> = bars.split_inclusive("</measure>").collect();
    let mut text = head.to_string();
    for number in 1..=BARS {
        let bar = each[(number - 1) % each.len()];
        let (_, contents) = bar.split_once('>').expect("a bar");
        write!(text, "<measure number=\"{number}\">{contents}").expect("memory can be written");
    }
    text + tail
}

/// The median time from the tap that opens a score of 300 bars until it is painted, in milliseconds. The page is
/// reloaded each time, so that the file is read again.
async fn long_score() -> f64 {
    let site = Site::serve();
    let browser = at_the_page(&site).await;
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("long-study.musicxml");
    std::fs::write(&file, long_study()).expect("a file");
    browser.run("location.hash = 'pieces'").await;
    browser.wait_for("input[type=file]").await.send_keys(&file.display().to_string()).await.expect("a file is chosen");
    browser.wait_for(".found .primary").await.click().await.expect("a tap");
    browser.wait_for(".score-view .printed path").await;
    let address = browser.run("return location.hash").await;
    browser.slow_down(4.0).await;
    let mut times = Vec::new();
    for _ in 0..OPENINGS {
        browser.run("location.hash = 'today'").await;
        browser.refresh().await.expect("a reload");
        browser.wait_for("h1").await;
        let open = format!(
            "const start = performance.now();
            location.hash = {address};
            while (!document.querySelector('.score-view .printed path')) await new Promise(requestAnimationFrame);
            await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
            return performance.now() - start"
        );
        times.push(browser.run(&open).await);
    }
    browser.finish().await;
    median(numbers(&serde_json::Value::Array(times)))
}
