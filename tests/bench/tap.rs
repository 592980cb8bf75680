//! How soon a tap is drawn, on a processor four times slower than this one, beside the browser's own frame.

use crate::{
    figure::{Figure, Paired, Ratio, Sheet, median, wait},
    harness::{Chromium, Site},
    practised::{at_a_page_with, at_a_page_with_ten_years},
};
use serde_json::Value;
use std::time::Duration;
use tailfirst::journal::SnippetId;

const REPETITIONS: u64 = 20_000;
/// An odd number, so that there is a middle one.
const TAPS: usize = 11;
/// A tap that comes sooner is taken for a bounce.
const NO_BOUNCE: Duration = Duration::from_millis(2_500);

pub fn measure(sheet: &mut Sheet) {
    let site = Site::serve();
    let Taps { busy, frames } = wait(async { taps(at_a_page_with(&site, REPETITIONS).await).await });
    sheet.add(Figure { name: "tap-after-20000", value: median(busy), unit: "ms", target: 16.0 });
    sheet.add_ratio(Ratio {
        name: "tap-to-frame",
        paired: frames,
        beside: "the frame in which a text of the same screen is changed without the program",
        target: 2.0,
    });
    let site = Site::serve();
    let Taps { busy, .. } = wait(async { taps(at_a_page_with_ten_years(&site).await).await });
    sheet.add(Figure { name: "tap-after-ten-years", value: median(busy), unit: "ms", target: 16.0 });
}

struct Taps {
    /// Milliseconds in which a tap keeps the page from anything else.
    busy: Vec<f64>,
    /// From the tap, and from the change of a text, until its frame is painted.
    frames: Paired,
}

/// Some of the taps on *Clean* lead to another step, so that the staff is laid out anew.
async fn taps((browser, snippet): (Chromium, SnippetId)) -> Taps {
    browser.refresh().await.expect("a reload");
    browser.run(&format!("location.hash = 'practise/{}'", snippet.0)).await;
    browser.wait_for(".begin").await.click().await.expect("a tap");
    browser.wait_for(".targets").await;
    browser.slow_down(4.0).await;
    let mut taps = Taps { busy: Vec::new(), frames: Paired::default() };
    for nth in 0..TAPS {
        tokio::time::sleep(NO_BOUNCE).await;
        let times = browser.run(&one_tap(nth)).await;
        taps.busy.push(number(&times["busy"]));
        taps.frames.work.push(number(&times["work"]));
        taps.frames.yardstick.push(number(&times["yardstick"]));
    }
    browser.finish().await;
    taps
}

/// Changes a text of the screen, then taps *Clean*. Each begins right after a frame, so that both wait equally long for
/// theirs.
fn one_tap(nth: usize) -> String {
    let pointer = nth + 2;
    format!(
        "const posted = () => new Promise((done) => {{
            const channel = new MessageChannel();
            channel.port1.onmessage = done;
            channel.port2.postMessage(0);
        }});
        const until_painted = async (change) => {{
            await new Promise(requestAnimationFrame);
            const start = performance.now();
            await change();
            await new Promise(requestAnimationFrame);
            await posted();
            return performance.now() - start;
        }};
        const text = document.querySelector('.coach p').firstChild, said = text.nodeValue;
        const yardstick = await until_painted(() => {{ text.nodeValue = 'Something else, as long as this.'; }});
        text.nodeValue = said;
        await new Promise((wait) => setTimeout(wait, 100));
        const shown = () => document.querySelector('main.practise').outerHTML, before = shown();
        const pointer = {{ bubbles: true, cancelable: true, pointerId: {pointer}, isPrimary: true }};
        let busy;
        const work = await until_painted(async () => {{
            const start = performance.now();
            document.querySelector('.target.clean').dispatchEvent(new PointerEvent('pointerdown', pointer));
            await posted();
            document.querySelector('main').getBoundingClientRect();
            busy = performance.now() - start;
        }});
        if (shown() === before) throw new Error('the tap was not taken');
        document.querySelector('main').dispatchEvent(new PointerEvent('pointerup', pointer));
        return {{ busy, work, yardstick }}"
    )
}

/// What a script measured.
pub fn numbers(times: &Value) -> Vec<f64> {
    times.as_array().expect("times").iter().map(number).collect()
}

/// One time that a script measured.
pub fn number(time: &Value) -> f64 {
    time.as_f64().expect("a time")
}
