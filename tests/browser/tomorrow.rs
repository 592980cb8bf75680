//! Time goes by: rests end, a day has its share, and the next one begins with a cold try.

use crate::{
    harness::{Chromium, Site, Viewport},
    stand::at_the_stand,
};
use tailfirst::method::Verdict;

/// Ten in the morning, in milliseconds since 1970, UTC.
const MORNING: i64 = 1_795_600_800_000;
const MINUTE: i64 = 60_000;
const DAY: i64 = 24 * 60 * MINUTE;

/// The page opened anew with its clock at `now`.
async fn at(browser: &mut Chromium, site: &Site, now: i64) {
    browser.set_clock(now).await;
    browser.goto("about:blank").await.expect("the page is left");
    browser.open(&site.origin()).await;
}

async fn practise(browser: &Chromium, name: &str) {
    browser.visit("pieces").await;
    browser.open_row("Study for a Soft Landing").await;
    browser.open_row(name).await;
}

#[tokio::test]
async fn a_block_ends_by_itself_its_rest_calls_back_and_three_blocks_are_enough() {
    let site = Site::serve();
    let mut browser = at_the_stand(&site).await;
    for block in 0..3 {
        let start = MORNING + block * 25 * MINUTE;
        at(&mut browser, &site, start).await;
        if block > 0 {
            browser.wait_for_text("The leap has rested.").await;
        }
        practise(&browser, "The leap").await;
        browser.begin().await;
        browser.judge(Verdict::Clean).await;
        // The page is closed in the middle of the block; five minutes later it is over all the same.
        at(&mut browser, &site, start + 6 * MINUTE).await;
        practise(&browser, "The leap").await;
        let rest = if block < 2 { "The leap rests until" } else { "The leap has had its blocks for today." };
        browser.wait_for_text(rest).await;
    }
    browser.visit("today").await;
    browser.wait_for_text("enough for today").await;
    browser.finish().await;
}

#[tokio::test]
async fn the_next_day_begins_with_a_cold_try() {
    let site = Site::serve();
    let mut browser = at_the_stand(&site).await;
    at(&mut browser, &site, MORNING).await;
    practise(&browser, "The leap").await;
    browser.begin().await;
    for _ in 0..8 {
        browser.judge(Verdict::Clean).await;
    }
    at(&mut browser, &site, MORNING + DAY).await;
    browser.wait_for_text("Last played yesterday. A cold try first.").await;
    browser.tap("Practise").await;
    browser.begin().await;
    browser.wait_for_text("Once, cold. It shows what the night has kept.").await;
    browser.finish().await;
}

#[tokio::test]
async fn what_was_good_enough_or_left_out_is_back_tomorrow() {
    let site = Site::serve();
    let mut browser = at_the_stand(&site).await;
    at(&mut browser, &site, MORNING).await;
    practise(&browser, "The leap").await;
    browser.begin().await;
    browser.judge(Verdict::NotYet).await;
    browser.judge(Verdict::NotYet).await;
    browser.tap("Good enough for today").await;
    browser.visit("today").await;
    browser.tap("Not this one today").await;
    browser.wait_for(".not-today").await;
    at(&mut browser, &site, MORNING + DAY).await;
    browser.wait_for_text("Last played yesterday").await;
    assert_eq!(browser.run("return document.querySelectorAll('.not-today').length").await, 0);
    browser.tap("Practise").await;
    browser.wait_for_text("A new day. On from where you stopped.").await;
    browser.finish().await;
}

#[tokio::test]
async fn the_minutes_there_are_become_a_plan_that_follows_what_is_played() {
    let site = Site::serve();
    let mut browser = at_the_stand(&site).await;
    at(&mut browser, &site, MORNING).await;
    browser.tap("40 minutes").await;
    browser.wait_for_text("Planned until 10:40.").await;
    browser.wait_for(".given button[aria-pressed=true]").await;
    let next = browser.text(".next h2").await;
    at(&mut browser, &site, MORNING + MINUTE).await;
    browser.wait_for_text("Planned until 10:40.").await;
    browser.tap("Practise").await;
    browser.begin().await;
    browser.judge(Verdict::Clean).await;
    browser.tap("Stop").await;
    browser.wait_for_text("rests until").await;
    at(&mut browser, &site, MORNING + 7 * MINUTE).await;
    browser.wait_for_text("Planned until 10:40.").await;
    assert_ne!(browser.text(".next").await.lines().nth(1), Some(next.as_str()));
    browser.fill("Or until", "09:00").await;
    browser.wait_for_text("Give a time later today.").await;
    browser.fill("Or until", "10:20").await;
    browser.wait_for_text("Planned until 10:20.").await;
    at(&mut browser, &site, MORNING + 20 * MINUTE).await;
    browser.wait_for_text("How many minutes do you have?").await;
    assert_eq!(browser.run("return document.querySelectorAll('.planned').length").await, 0);
    browser.finish().await;
}

#[tokio::test]
async fn progress_foretells_the_date_from_what_was_practised() {
    let site = Site::serve();
    let mut browser = at_the_stand(&site).await;
    at(&mut browser, &site, MORNING).await;
    browser.visit("piece/1-study1").await;
    browser.fill("Performance date", "2026-12-20").await;
    browser.visit("progress").await;
    browser.wait_for_text("in 25 days").await;
    assert_eq!(browser.run("return document.querySelectorAll('.outlook').length").await, 0, "nothing was practised");
    practise(&browser, "The leap").await;
    browser.begin().await;
    for _ in 0..8 {
        browser.judge(Verdict::Clean).await;
    }
    at(&mut browser, &site, MORNING + 6 * MINUTE).await;
    browser.visit("progress").await;
    browser.wait_for_text("a day all that is begun is clean on the date with a chance of").await;
    browser.wait_for_text("2 snippets are not begun and not counted.").await;
    browser.set_viewport(Viewport::LANDSCAPE).await;
    browser.screenshot("outlook-landscape").await;
    browser.set_viewport(Viewport::PHONE).await;
    browser.screenshot("outlook-phone").await;
    browser.finish().await;
}
