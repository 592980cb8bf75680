//! The staff as the player uses it: bars and goal chosen on it, fingers and reminders written into it.

use crate::{
    harness::{Chromium, Site},
    stand::at_the_stand,
};
use std::time::Duration;
use tailfirst::{method::Verdict, music::study};

#[tokio::test]
async fn bars_are_picked_by_two_taps_on_the_score_and_the_goal_by_one() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("score/1-study1").await;
    browser.wait_for_text("Tap the first bar.").await;
    browser.tap("Bar 3").await;
    browser.tap("Bar 1").await;
    browser.wait_for(".bar[aria-label='Bar 2'][aria-pressed=true]").await;
    browser.fill("Last bar", "99").await;
    browser.wait_for_text("Give a bar from 0 to 24.").await;
    browser.fill("Last bar", "2").await;
    browser.wait_for(".bar[aria-label='Bar 3'][aria-pressed=false]").await;
    browser.tap("Onset 3: bar 1, beat 1 2/3").await;
    browser.tap("Add the snippet").await;
    browser.open_row("Bars 1–2").await;
    browser.wait_for(".staff svg[aria-label='Onsets 3 to 3 of Bars 1–2']").await;
    browser.finish().await;
}

/// The goal of "The leap" as the screen calls it.
pub fn goal_of_the_leap() -> String {
    let part = &study::score().parts[0];
    let excerpt = study::excerpts(part).swap_remove(0);
    let passage = part.cut(excerpt.bars, &part.usual_hands()).expect("a passage");
    let bar = passage.bar_at(passage.onsets()[excerpt.goal].at).number.clone();
    format!("Onset {}: bar {bar}, beat 2", excerpt.goal + 1)
}

async fn writes_at_the_goal(browser: &Chromium) {
    browser.tap(&goal_of_the_leap()).await;
    browser.fill("Fingers, left hand", "4  2").await;
    browser.fill("To remember: position, motion, sound", "Look left, then leap").await;
    browser.tap("Close").await;
}

#[tokio::test]
async fn fingers_and_reminders_stay_with_their_onset_and_are_shown_when_it_is_played() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("practise/2-study1").await;
    writes_at_the_goal(&browser).await;
    browser.wait_for_text("Look left, then leap").await;
    browser.refresh().await.expect("a reload");
    browser.begin().await;
    browser.wait_for_text("Look left, then leap").await;
    let fingers = "return [...document.querySelectorAll('.staff text.ink-full')].map((text) => text.textContent)";
    let shown = browser.run(fingers).await;
    let shown: Vec<&str> = shown.as_array().expect("texts").iter().filter_map(|text| text.as_str()).collect();
    assert!(shown.contains(&"4") && shown.contains(&"2"), "the staff shows {shown:?}");
    browser.judge(Verdict::Clean).await;
    browser.tap(&goal_of_the_leap()).await;
    browser.fill("To remember: position, motion, sound", "").await;
    browser.tap("Close").await;
    let left = browser.run("return document.querySelectorAll('.reminder').length").await;
    assert_eq!(left, 0);
    browser.finish().await;
}

#[tokio::test]
async fn after_a_miss_one_touch_on_the_note_says_where_it_broke_and_the_next_opens_what_is_written() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("practise/2-study1").await;
    browser.begin().await;
    browser.judge(Verdict::NotYet).await;
    touch(&browser, &goal_of_the_leap()).await;
    let mark = browser.wait_for(".staff .broke").await;
    let told = mark.attr("aria-label").await.expect("a label").expect("a label");
    assert!(
        told.starts_with("It broke at bar ") && goal_of_the_leap().ends_with(&told["It broke at ".len()..]),
        "{told}"
    );
    browser.refresh().await.expect("a reload");
    browser.begin().await;
    browser.wait_for(".staff .broke").await;
    touch(&browser, &goal_of_the_leap()).await;
    browser.wait_for(".panel.onset").await;
    browser.tap("Close").await;

    browser.judge(Verdict::NotYet).await;
    touch(&browser, &goal_of_the_leap()).await;
    browser.tap("Why?").await;
    browser.wait_for_text("Most likely to break: bar ").await;
    browser.wait_for(".why .picture .not-yet").await;
    browser.tap("Back").await;
    browser.judge(Verdict::Clean).await;
    touch(&browser, &goal_of_the_leap()).await;
    browser.wait_for(".panel.onset").await;
    assert_eq!(browser.run("return document.querySelectorAll('.broke').length").await, 0);
    browser.finish().await;
}

/// A finger on the middle of the field with this name.
async fn touch(browser: &Chromium, name: &str) {
    let script = format!(
        "const field = document.querySelector(`rect[aria-label={name:?}]`).getBoundingClientRect();
        return [field.left + field.width / 2, field.top + field.height / 2]"
    );
    tokio::time::sleep(Duration::from_millis(500)).await;
    let spot = browser.run(&script).await;
    browser.touch((spot[0].as_f64().expect("px"), spot[1].as_f64().expect("px")), Duration::from_millis(80)).await;
}
