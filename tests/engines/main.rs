//! The page in the other engines, Firefox and WebKit: practised by touch and kept without a network; in Firefox also
//! found again after the whole browser was killed. WebKit's small browser keeps nothing from one automated run to the
//! next, so that nothing can be said of it there.

mod bidi;
mod browser;
mod firefox;
#[allow(dead_code, unused_imports, reason = "the tests in Chromium use the rest of it")]
#[path = "../support/harness/mod.rs"]
mod harness;
mod webkit;

use browser::{Browser, Engine};
use firefox::Firefox;
use harness::Site;
use std::time::Duration;
use tempfile::TempDir;
use webkit::WebKit;

/// Between two verdicts, so that none is a bounce.
const PLAYED: Duration = Duration::from_millis(700);

/// Opens the page and begins to practise the first snippet.
async fn at_the_stand<E: Engine>(site: &Site, profile: TempDir) -> Browser<E> {
    let browser = Browser::start(profile).await;
    browser.open(&site.origin()).await;
    browser.run("location.hash = 'practise/2-study1'").await;
    browser.touch(".begin").await;
    browser.wait_for(".targets").await;
    browser
}

/// How many of how many repetitions are clean, as Progress says it of the first snippet.
async fn clean<E: Engine>(browser: &Browser<E>) -> String {
    browser.run("location.hash = 'progress'").await;
    browser.wait_for(".row").await;
    let read =
        "return document.querySelector('.row').textContent.match(/\\d+ of \\d+ clean|nothing clean yet/)?.[0] ?? ''";
    browser.run(read).await.as_str().expect("a text").to_owned()
}

async fn is_practised_by_touch_and_read_again_after_a_reload<E: Engine>() {
    let site = Site::serve();
    let browser: Browser<E> = at_the_stand(&site, tempfile::tempdir().expect("a folder")).await;
    for target in [".target.clean", ".target.not-yet", ".target.clean"] {
        tokio::time::sleep(PLAYED).await;
        browser.touch(target).await;
    }
    browser.screenshot("practised").await;
    browser.open(&format!("{}/?again", site.origin())).await;
    assert_eq!(clean(&browser).await, "2 of 3 clean");
}

async fn opens_without_a_network_once_it_is_kept<E: Engine>() {
    let mut site = Site::serve();
    let browser: Browser<E> = Browser::start(tempfile::tempdir().expect("a folder")).await;
    browser.open(&site.origin()).await;
    browser.wait_until_kept().await;
    browser.leave().await;
    site.stop();
    browser.open(&site.origin()).await;
    assert_eq!(browser.run("return document.querySelector('h1').textContent").await, "Today");
}

#[tokio::test]
async fn firefox_is_practised_by_touch_and_read_again_after_a_reload() {
    is_practised_by_touch_and_read_again_after_a_reload::<Firefox>().await;
}

#[tokio::test]
async fn webkit_is_practised_by_touch_and_read_again_after_a_reload() {
    is_practised_by_touch_and_read_again_after_a_reload::<WebKit>().await;
}

#[tokio::test]
async fn firefox_opens_the_page_without_a_network_once_it_is_kept() {
    opens_without_a_network_once_it_is_kept::<Firefox>().await;
}

#[tokio::test]
async fn webkit_opens_the_page_without_a_network_once_it_is_kept() {
    opens_without_a_network_once_it_is_kept::<WebKit>().await;
}

/// The browser is killed so long after the tap was marked.
#[tokio::test]
async fn firefox_finds_a_tap_again_when_it_was_killed_after_it() {
    for wait in [0, 50, 500].map(Duration::from_millis) {
        let site = Site::serve();
        let browser: Browser<Firefox> = at_the_stand(&site, tempfile::tempdir().expect("a folder")).await;
        tokio::time::sleep(PLAYED).await;
        browser.touch(".target.clean").await;
        browser.wait_for(".target .taken").await;
        tokio::time::sleep(wait).await;
        let browser: Browser<Firefox> = Browser::start(browser.kill()).await;
        browser.open(&site.origin()).await;
        assert_eq!(clean(&browser).await, "1 of 1 clean", "killed {wait:?} after the tap");
    }
}
