//! The rest is the coach's word; the player's counts more, and is kept.

use crate::{
    harness::{Chromium, Site, Viewport},
    stand::at_the_stand,
};
use tailfirst::method::Verdict;

#[tokio::test]
async fn a_rest_can_be_overruled_the_last_miss_named_and_the_minutes_that_run_are_seen() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.set_viewport(Viewport::LANDSCAPE).await;
    browser
        .run(
            "globalThis.awake = 0;
            navigator.wakeLock.request = async () => { awake += 1; return { release: async () => { awake -= 1; } }; };",
        )
        .await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::NotYet).await;
    assert_eq!(browser.run("return awake").await, 1, "the device may fall asleep while one plays");
    assert!(smallest_button(&browser).await >= 22.0, "a button of a block is too small to read");
    browser.tap("Stop").await;
    browser.wait_for(".rest .cause").await;
    assert!(smallest_button(&browser).await >= 22.0, "a button of a rest is too small to read");
    browser.tap("late").await;
    browser.wait_for(".rest .cause[aria-pressed=true]").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for(".rest .cause[aria-pressed=true]").await;

    browser.tap("Practise anyway").await;
    browser.wait_for_text("Begin · 5 minutes").await;
    browser.tap("Rest after all").await;
    browser.wait_for_text("rests until").await;
    browser.tap("Practise anyway").await;
    browser.refresh().await.expect("a reload");
    browser.begin().await;

    browser.visit("today").await;
    browser.wait_for_text("A block is under way: 4:").await;
    browser.tap("Go on").await;
    browser.wait_for_text("Go on · 4:").await;
    browser.finish().await;
}

/// The size of the smallest text on a button of the screen, in px.
async fn smallest_button(browser: &Chromium) -> f64 {
    let sizes = "return Math.min(...[...document.querySelectorAll('main button')]
        .map((button) => parseFloat(getComputedStyle(button).fontSize)))";
    browser.run(sizes).await.as_f64().expect("px")
}
