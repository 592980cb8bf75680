//! The other ways in, and putting pieces and snippets in order.

use crate::{harness::Site, stand::at_the_stand};
use tailfirst::method::Verdict;

#[tokio::test]
async fn a_plain_count_gives_a_snippet_that_can_be_shaped_ordered_and_brought_back() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("pieces").await;
    browser.tap("Add a piece by its title").await;
    browser.wait_for_text("Give the piece a title.").await;
    browser.fill("Title", "Evening Waltz").await;
    browser.tap("Add a piece by its title").await;
    browser.tap("Count the onsets").await;
    browser.fill("Onsets", "0").await;
    browser.wait_for_text("Give a whole number from 1 to 64.").await;
    browser.tap("Add the snippet").await;
    browser.wait_for_text("Correct it first").await;
    let focused = "return document.activeElement.getAttribute('aria-invalid')";
    assert_eq!(browser.run(focused).await, "true", "the field to be mended has the focus");
    browser.fill("Onsets", "5").await;
    browser.wait_for_text("Onset 5: bar").await;
    browser.fill("Name", "The turn").await;
    browser.tap("Add the snippet").await;
    browser.wait_for_text("The turn").await;
    browser.tap("Duplicate The turn").await;
    browser.tap("Move The turn (copy) up").await;
    browser.tap("Remove The turn").await;
    browser.wait_for_text("The turn was removed.").await;
    browser.tap("Undo").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for_text("The turn (copy)").await;
    let names = "return [...document.querySelectorAll('.row .name')].map((name) => name.firstChild.textContent)";
    assert_eq!(browser.run(names).await, serde_json::json!(["The turn (copy)", "The turn"]));
    assert_eq!(browser.text("h1").await, "Evening Waltz");
    browser.finish().await;
}

#[tokio::test]
async fn a_tapped_rhythm_comes_to_the_grid_and_can_be_nudged() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("pieces").await;
    browser.fill("Title", "Evening Waltz").await;
    browser.tap("Add a piece by its title").await;
    browser.tap("Tap the rhythm in").await;
    browser.fill("Meter", "4 by 4").await;
    browser.wait_for_text("is not a time signature").await;
    browser.tap("Start the pulse").await;
    browser.wait_for("input[aria-invalid=true]:focus").await;
    browser.fill("Meter", "4/4").await;
    browser.tap("Start the pulse").await;
    browser.wait_for(".pads").await;
    let taps = "const pads = document.querySelectorAll('.pads button');
        const tap = (pad) => pads[pad].dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
        const rest = (ms) => new Promise((done) => setTimeout(done, ms));
        await rest(3700);
        for (const pad of [1, 0, 2, 1]) { tap(pad); await rest(833); }";
    browser.run(taps).await;
    browser.tap("Done").await;
    browser.wait_for_text("Fitted to the grid:").await;
    browser.run("document.querySelector('.grid').open = true").await;
    browser.wait_for_text("Onset 4: bar").await;
    browser.tap("Onset 4 later").await;
    browser.tap("Add the snippet").await;
    browser.wait_for_text("4 onsets").await;
    browser.finish().await;
}

#[tokio::test]
async fn a_pedal_or_a_keyboard_judges_too() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.sit_down_to_the_first_snippet().await;
    for key in ["ArrowRight", "PageUp", "c"] {
        tokio::time::sleep(std::time::Duration::from_millis(600)).await;
        browser
            .run(&format!("window.dispatchEvent(new KeyboardEvent('keydown', {{ key: '{key}', bubbles: true }}))"))
            .await;
    }
    browser.judge(Verdict::Clean).await;
    browser.tap("Stop").await;
    browser.visit("progress").await;
    browser.wait_for_text("3 of 4 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn the_click_falls_on_its_exact_sample() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.visit("data").await;
    browser.tap("Check this device").await;
    let found = browser.text("[data-check=click]").await;
    assert_eq!(found, "Yes: every click falls on its exact sample.");
    browser.finish().await;
}
