//! A tap is kept: through a killed browser, and through the loss of either copy.

use crate::{
    harness::{Chromium, Site},
    stand::at_the_stand,
};
use tailfirst::method::Verdict;

#[tokio::test]
async fn a_tap_is_found_again_after_the_browser_was_killed_right_after_it() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.judge(Verdict::NotYet).await;
    let profile = browser.kill();
    let browser = Chromium::resume(profile).await;
    browser.open(&site.origin()).await;
    browser.visit("progress").await;
    browser.wait_for_text("1 of 2 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn either_copy_alone_is_enough_to_go_on() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    let lose_indexed = "await new Promise((done) => setTimeout(done, 300));
        await new Promise((done) => { const gone = indexedDB.deleteDatabase('tailfirst'); gone.onsuccess = done; gone.onblocked = done; })";
    for loss in ["localStorage.clear()", lose_indexed] {
        browser.run(loss).await;
        browser.refresh().await.expect("a reload");
        browser.visit("progress").await;
        browser.wait_for_text("1 of 1 clean").await;
    }
    browser.finish().await;
}

#[tokio::test]
async fn what_cannot_be_read_is_set_aside_and_never_lost() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.run("localStorage.setItem('tailfirst.entry.9-abc', 'torn {')").await;
    browser.refresh().await.expect("a reload");
    browser.visit("data").await;
    browser.wait_for_text("entry.9-abc").await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    let kept = "return [localStorage.getItem('tailfirst.entry.9-abc'),
        Object.keys(localStorage).some((key) => key.startsWith('tailfirst.aside.') && localStorage[key].includes('torn {'))]";
    assert_eq!(browser.run(kept).await, serde_json::json!(["torn {", true]));
    browser.finish().await;
}

#[tokio::test]
async fn only_one_window_writes_and_the_turn_can_be_taken() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    let first = browser.window().await.expect("a window");
    let second = browser.new_window(true).await.expect("another window").handle;
    browser.switch_to_window(second).await.expect("seen");
    browser.open(&site.origin()).await;
    browser.wait_for_text("Open in another window").await;
    browser.tap("Go on here").await;
    browser.wait_for_text("Today").await;
    browser.switch_to_window(first).await.expect("seen");
    browser.wait_for_text("Open in another window").await;
    browser.finish().await;
}
