//! How soon the screens that look back over everything stand, with 20,000 repetitions behind the player, on a
//! processor four times slower than this one.

use crate::{
    figure::{Figure, Sheet, median, wait},
    harness::Site,
    practised::at_a_page_with,
    tap::number,
};

const REPETITIONS: u64 = 20_000;
/// An odd number, so that there is a middle one.
const VISITS: usize = 7;
/// By the figure's name and the screen's address.
const SCREENS: [(&str, &str); 3] =
    [("today-after-20000", "today"), ("piece-after-20000", "piece/1-study1"), ("progress-after-20000", "progress")];

pub fn measure(sheet: &mut Sheet) {
    for (name, times) in wait(visits()) {
        sheet.add(Figure { name, value: median(times), unit: "ms", target: 50.0 });
    }
}

/// Milliseconds from the change of address until the screen is laid out.
async fn visits() -> Vec<(&'static str, Vec<f64>)> {
    let site = Site::serve();
    let (browser, _) = at_a_page_with(&site, REPETITIONS).await;
    browser.slow_down(4.0).await;
    let mut figures = Vec::new();
    for (name, address) in SCREENS {
        let mut times = Vec::new();
        for _ in 0..VISITS {
            times.push(number(&browser.run(&one_visit(address)).await));
        }
        figures.push((name, times));
    }
    browser.finish().await;
    figures
}

fn one_visit(address: &str) -> String {
    format!(
        "const posted = () => new Promise((done) => {{
            const channel = new MessageChannel();
            channel.port1.onmessage = done;
            channel.port2.postMessage(0);
        }});
        location.hash = 'settings';
        await new Promise((wait) => setTimeout(wait, 500));
        const before = document.querySelector('main'), start = performance.now();
        location.hash = '{address}';
        while (document.querySelector('main') === before) await posted();
        document.querySelector('main').getBoundingClientRect();
        return performance.now() - start"
    )
}
