//! From a score to a snippet: the part, the bars, and from which onset to which.

use crate::{
    harness::{Site, Viewport},
    stand::at_the_stand,
};
use std::fs;

/// A song of so many bars, invented: a voice on one staff, a piano on two, four quarters in each.
fn song(bars: usize) -> String {
    let note = |step: char, octave: u8, staff: u8| {
        format!(
            "<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>1</duration>\
             <voice>{staff}</voice><type>quarter</type><staff>{staff}</staff></note>"
        )
    };
    let line = |octave, staff| "CDEF".chars().map(|step| note(step, octave, staff)).collect::<String>();
    let part = |id: &str, staves: u8, content: &str| {
        let attributes = format!("<attributes><divisions>1</divisions><staves>{staves}</staves></attributes>");
        let bars: String =
            (1..=bars).map(|bar| format!("<measure number='{bar}'>{attributes}{content}</measure>")).collect();
        format!("<part id='{id}'>{bars}</part>")
    };
    let voice = part("P1", 1, &line(5, 1));
    let piano = part("P2", 2, &(line(4, 1) + "<backup><duration>4</duration></backup>" + &line(3, 2)));
    let list = "<part-list><score-part id='P1'><part-name>Voice</part-name></score-part>\
                <score-part id='P2'><part-name>Piano</part-name></score-part></part-list>";
    format!("<score-partwise>{list}{voice}{piano}</score-partwise>")
}

/// Whether all of an element is in the window.
fn is_in_view(selector: &str) -> String {
    format!(
        "const sides = document.querySelector(`{selector}`).getBoundingClientRect();
        return sides.top >= 0 && sides.bottom <= innerHeight + 1"
    )
}

#[tokio::test]
async fn a_snippet_is_chosen_from_onset_to_onset_in_a_song() {
    let (site, folder) = (Site::serve(), tempfile::tempdir().expect("a folder"));
    let file = folder.path().join("Evening Song.musicxml");
    fs::write(&file, song(60)).expect("written");
    let browser = at_the_stand(&site).await;
    browser.set_viewport(Viewport::LANDSCAPE).await;
    browser.visit("pieces").await;
    browser.choose_file(&file).await;
    browser.wait_for_text("Evening Song").await;
    browser.tap("Keep it and choose bars").await;

    // A song opens on the piano.
    browser.wait_for(".score-view .bar").await;
    let part = "return document.querySelector('main select').selectedOptions[0].text";
    assert_eq!(browser.run(part).await, "Piano (2 staves)");

    // No system is wider than what the scroll bar leaves of the window on the score.
    let cut_off = "const view = document.querySelector('.score-view');
        return [view.scrollWidth - view.clientWidth, getComputedStyle(view).overflowY]";
    assert_eq!(browser.run(cut_off).await, serde_json::json!([0, "scroll"]));

    // A bar number that is typed moves the score and is shown as chosen.
    browser.fill("First bar", "50").await;
    browser.wait_for(".score-view .bar[aria-label='Bar 50'][aria-pressed=true]").await;
    let in_the_score = "const [bar, view] = [`.bar[aria-label='Bar 50']`, '.score-view']
            .map((selector) => document.querySelector(selector).getBoundingClientRect());
        return bar.top >= view.top - 1 && bar.bottom <= view.bottom + 1";
    assert_eq!(browser.run(in_the_score).await, true, "bar 50 is out of sight");
    browser.wait_for_text("Bar 50 is the first.").await;
    browser.fill("First bar", "none").await;
    browser.wait_for_text("Give a bar from 1 to 60.").await;
    browser.fill("First bar", "50").await;

    // After the second bar is tapped, what comes next is in view and spoken of.
    browser.tap("Bar 51").await;
    browser.wait_for_text("Bars 50–51 are chosen. Shape the snippet below").await;
    browser.wait_for("#new-snippet:focus").await;
    for selector in ["#new-snippet", ".new-snippet .last-step button"] {
        assert_eq!(browser.run(&is_in_view(selector)).await, true, "{selector} is out of view");
    }
    browser.screenshot("choosing").await;

    // It begins and ends on any onset, by a tap or in a field.
    browser.fill("Begins with", "Onset 3: bar 50, beat 3").await;
    browser.tap("End").await;
    browser.tap("Onset 7: bar 51, beat 3").await;
    let ends = "return [...document.querySelectorAll('label.field')]
        .find((field) => field.firstChild.textContent === 'Ends with').querySelector('select').selectedIndex";
    assert_eq!(browser.run(ends).await, 6);
    browser.fill("Name", " ").await;
    browser.tap("Add the snippet").await;
    browser.wait_for_text("Correct it first").await;
    browser.fill("Name", "The middle").await;
    browser.tap("Add the snippet").await;
    browser.wait_for_text("5 onsets").await;
    browser.open_row("The middle").await;
    browser.wait_for(".staff svg").await;
    browser.screenshot("chosen").await;
    browser.finish().await;
}
