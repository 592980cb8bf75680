//! How soon the kept page shows itself, on a processor four times slower than this one.

use crate::{
    figure::{Figure, Sheet, median, wait},
    harness::{Chromium, Site},
};

/// An odd number, so that there is a middle one.
const OPENINGS: usize = 7;

pub fn measure(sheet: &mut Sheet) {
    sheet.add(Figure { name: "opening-offline", value: median(wait(open_offline())), unit: "ms", target: 1000.0 });
}

/// Milliseconds from the start of each navigation to the first paint with contents.
async fn open_offline() -> Vec<f64> {
    let mut site = Site::serve();
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    browser.wait_until_kept().await;
    browser.goto("about:blank").await.expect("the page is left");
    site.stop();
    browser.slow_down(4.0).await;
    let mut times = Vec::new();
    for _ in 0..OPENINGS {
        browser.open(&site.origin()).await;
        let painted = "return await new Promise((done) => new PerformanceObserver((list) => {
            const entry = list.getEntriesByName('first-contentful-paint')[0];
            if (entry) done(entry.startTime);
        }).observe({ type: 'paint', buffered: true }))";
        times.push(browser.run(painted).await.as_f64().expect("milliseconds"));
        browser.goto("about:blank").await.expect("the page is left");
    }
    browser.finish().await;
    times
}
