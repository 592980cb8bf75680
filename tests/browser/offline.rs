//! The page without a network, and how a newer version arrives.

use crate::{
    harness::{Chromium, Site},
    stand::with_the_page_kept,
};
use std::fs;
use tailfirst::method::Verdict;

#[tokio::test]
async fn once_opened_the_page_opens_without_a_network() {
    let mut site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    browser.goto("about:blank").await.expect("the page is left");
    site.stop();
    for address in [site.origin(), format!("{}/#/anywhere", site.origin())] {
        let heading = browser.open(&address).await;
        assert_eq!(heading.text().await.expect("text"), "Today");
    }
    let everything = "const list = performance.getEntriesByType('resource').map((entry) => entry.responseStatus);
        return list.length > 2 && list.every((status) => status === 200)";
    assert_eq!(browser.run(everything).await, true, "some part of the page is missing");
    browser.finish().await;
}

#[tokio::test]
async fn without_a_network_a_block_can_be_practised_and_is_kept() {
    let mut site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    browser.goto("about:blank").await.expect("the page is left");
    site.stop();
    browser.open(&site.origin()).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.refresh().await.expect("a reload without a network");
    browser.visit("progress").await;
    browser.wait_for_text("1 of 1 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn a_page_kept_by_a_browser_that_was_killed_opens_without_a_network() {
    let mut site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    let profile = browser.kill();
    site.stop();
    let browser = Chromium::resume(profile).await;
    browser.open(&site.origin()).await;
    browser.finish().await;
}

#[tokio::test]
async fn a_newer_version_waits_until_it_is_told_to_take_over() {
    let site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    let first = description(&browser).await;
    site.publish("newer");
    browser.run("document.dispatchEvent(new Event('visibilitychange'))").await;
    browser.wait_for(".notice button").await;
    browser.open(&site.origin()).await;
    assert_eq!(description(&browser).await, first, "it took over unasked");
    browser.tap("Use it now").await;
    // Asked of the document from outside: a script would be lost with the page that is being left.
    browser.wait_for("meta[name=description][content=newer]").await;
    let stale = "const store = await caches.open((await caches.keys())[0]); const pages = await store.keys();
        return pages.filter((page) => new URL(page.url).pathname === '/').length";
    assert_eq!(browser.run(stale).await, 1, "the old start page is still kept");
    browser.finish().await;
}

#[tokio::test]
async fn a_version_with_a_part_missing_is_not_taken_at_all() {
    let site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    let first = description(&browser).await;
    site.publish("newer");
    fs::write(site.folder().join("index.html"), "<title>half a page").expect("written");
    let outcome = "const registration = await navigator.serviceWorker.ready; await registration.update();
        const worker = registration.installing;
        await new Promise((go) => worker.addEventListener('statechange', go));
        return [worker.state, registration.waiting === null]";
    assert_eq!(browser.run(outcome).await, serde_json::json!(["redundant", true]));
    browser.open(&site.origin()).await;
    assert_eq!(description(&browser).await, first);
    browser.finish().await;
}

/// What the version of the page that is open says of itself.
async fn description(browser: &Chromium) -> serde_json::Value {
    browser.run("return document.querySelector('meta[name=description]')?.content ?? ''").await
}
