//! The player has the last word: good enough, not this one today, start afresh, and why.

use crate::{
    harness::{Chromium, Site, Viewport},
    look::Look,
    staff::goal_of_the_leap,
    stand::at_the_stand,
};
use tailfirst::method::Verdict;

/// The goal goes well after a miss, and what follows does not at once.
const PLAYED: [Verdict; 5] = [Verdict::NotYet, Verdict::Clean, Verdict::Clean, Verdict::Clean, Verdict::NotYet];

#[tokio::test]
async fn good_enough_settles_the_snippet_for_today_and_can_be_taken_back() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::NotYet).await;
    browser.tap("Good enough for today").await;
    browser.wait_for_text("Good enough for today. Your ear decides.").await;
    browser.wait_for_text("is settled for today.").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for_text("is settled for today.").await;
    browser.visit("today").await;
    browser.wait_for_text("good enough for today").await;
    browser.tap("Not this one today").await;
    browser.run("history.back()").await;
    browser.wait_for_text("is settled for today.").await;
    browser.tap("Undo good enough").await;
    browser.begin().await;
    browser.tap("Stop").await;
    browser.wait_for_text("rests until").await;
    browser.tap("Good enough for today").await;
    browser.wait_for_text("is settled for today.").await;
    browser.visit("progress").await;
    browser.wait_for_text("0 of 1 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn what_is_left_out_today_stands_apart_and_comes_back_with_a_tap() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    let next = browser.text(".next h2").await;
    browser.tap("Not this one today").await;
    browser.wait_for(".not-today").await;
    assert_eq!(browser.text(".not-today .name").await.lines().next(), Some(next.as_str()));
    assert_ne!(browser.text(".next h2").await, next);
    browser.refresh().await.expect("a reload");
    browser.tap(&format!("Bring {next} back")).await;
    browser.wait_for_text(&next).await;
    assert_eq!(browser.text(".next h2").await, next);
    browser.tap("Practise").await;
    browser.tap("Not this one today").await;
    browser.wait_for_text("is left out today. Nothing else changes.").await;
    browser.tap("Bring it back").await;
    browser.wait_for(".begin").await;
    browser.visit("progress").await;
    browser.wait_for_text("not begun").await;
    browser.finish().await;
}

#[tokio::test]
async fn starting_afresh_is_always_at_hand_keeps_the_history_and_can_be_undone() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    for _ in 0..3 {
        browser.judge(Verdict::Clean).await;
    }
    let hands = browser.text(".what strong").await;
    browser.tap("Another step").await;
    browser.wait_for_text("From its first step again. Its history is kept.").await;
    browser.tap("Start afresh").await;
    browser.wait_for_text("From the first step, with fresh ears.").await;
    browser.tap("Undo the fresh start").await;
    browser.wait_for_text(&hands).await;
    browser.tap("Stop").await;
    browser.visit("snippet/2-study1").await;
    browser.wait_for_text("From its first step again. Its history is kept.").await;
    browser.tap("Start afresh").await;
    browser.visit("progress").await;
    browser.wait_for_text("3 of 3 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn why_is_a_screen_of_its_own_that_shows_the_whole_block_while_it_goes_on() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    for look in Look::all() {
        look.put_on(&browser).await;
        browser.sit_down_to_the_first_snippet().await;
        for verdict in PLAYED {
            browser.judge(verdict).await;
        }
        browser.tap(&goal_of_the_leap()).await;
        browser.wait_for(".staff .broke").await;
        look.keep(&browser, "broke").await;
        browser.tap("Why?").await;
        shows_the_block(&browser, look.viewport).await;
        look.keep(&browser, "why-block").await;
        browser.tap("Back").await;
        browser.wait_for(".targets").await;
        browser.tap("Good enough for today").await;
        browser.wait_for_text("is settled for today.").await;
        look.keep(&browser, "settled").await;
        browser.visit("today").await;
        browser.tap("Not this one today").await;
        browser.wait_for(".not-today").await;
        look.keep(&browser, "today-moods").await;
        browser.begin_anew(&site).await;
    }
    browser.finish().await;
}

/// Every repetition of the block by its shape, the change of step, and nothing too small to read.
async fn shows_the_block(browser: &Chromium, viewport: Viewport) {
    let read = "const sheet = document.querySelector('.chart .sheet');
        const count = (selector) => sheet.querySelectorAll(selector).length;
        const sizes = [...document.querySelectorAll('.why p, .why figcaption, .why text, .why button')]
            .map((element) => parseFloat(getComputedStyle(element).fontSize));
        return [count('circle'), count('polygon.not-yet'), count('.change') > 0, Math.min(...sizes)]";
    browser.wait_for(".chart .sheet svg").await;
    let shown = browser.run(read).await;
    assert_eq!((shown[0].as_u64(), shown[1].as_u64(), shown[2].as_bool()), (Some(3), Some(2), Some(true)), "{shown}");
    let smallest = shown[3].as_f64().expect("px");
    let is_a_phone = viewport.width.min(viewport.height) < 600;
    let least = if is_a_phone { 18.0 } else { 24.0 };
    assert!(smallest >= least, "text of {smallest} px on {}", viewport.name);
    browser.wait_for_text("more clean ones in a row lead on.").await;
}
