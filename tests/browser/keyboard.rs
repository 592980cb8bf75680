//! With a keyboard alone: what can be tapped answers to Enter and Space, Escape closes what lies open, and the
//! focus is never lost with what had it.

use crate::{
    harness::{Chromium, Site},
    stand::at_the_stand,
};

/// What a screen reader would say of the element that has the focus.
async fn focused(browser: &Chromium) -> String {
    let name = "await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
        const focused = document.activeElement;
        return focused.getAttribute('aria-label') ?? (focused === document.body ? 'the page' : focused.textContent)";
    browser.run(name).await.as_str().expect("a name").to_owned()
}

async fn focus(browser: &Chromium, selector: &str) {
    browser.wait_for(selector).await;
    browser.run(&format!("document.querySelector('{selector}').focus()")).await;
}

#[tokio::test]
async fn a_block_is_begun_looked_into_and_closed_with_keys() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("practise/2-study1").await;
    focus(&browser, ".begin").await;
    browser.press("Enter").await;
    browser.wait_for(".targets").await;
    assert_eq!(focused(&browser).await, "The leap", "after Begin");

    focus(&browser, ".small button[aria-expanded]").await;
    browser.press(" ").await;
    focus(&browser, ".panel.other-step button").await;
    browser.press("Escape").await;
    browser.wait_for(".coach").await;
    assert_eq!(focused(&browser).await, "The leap", "after the panel is closed");

    focus(&browser, ".staff .onset:last-child").await;
    browser.press(" ").await;
    browser.wait_for(".panel.onset label:last-of-type input").await.send_keys("Breathe").await.expect("typed");
    browser.press("Escape").await;
    assert_eq!(browser.text(".coach .reminder").await, "Breathe", "what was typed is kept");

    browser.tap("Why?").await;
    browser.wait_for(".page.why").await;
    assert_eq!(focused(&browser).await, "Why?");
    browser.press("Escape").await;
    browser.wait_for(".targets").await;
    assert_eq!(focused(&browser).await, "The leap", "after Why?");
    browser.finish().await;
}

#[tokio::test]
async fn a_bar_is_chosen_with_the_space_key() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("score/1-study1").await;
    focus(&browser, ".score-view .bar").await;
    browser.press(" ").await;
    browser.wait_for(".score-view .bar[aria-pressed=true]").await;
    browser.finish().await;
}
