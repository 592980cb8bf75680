//! Scores are read by a worker beside the page, which goes on meanwhile.

use crate::{harness::Site, stand::at_the_stand};
use std::{fs, path::PathBuf};

/// A piano part of so many bars, four sixteenths to a quarter, as a file.
fn long_score(folder: &tempfile::TempDir, bars: usize) -> PathBuf {
    let note = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration><voice>1</voice>\
                <type>16th</type><stem>up</stem></note>";
    let attributes = "<attributes><divisions>4</divisions></attributes>";
    let bars: String = (1..=bars)
        .map(|number| format!("<measure number='{number}'>{attributes}{}</measure>", note.repeat(16)))
        .collect();
    let text = format!(
        "<score-partwise><work><work-title>Long Evening</work-title></work><part-list/>\
         <part id='P1'>{bars}</part></score-partwise>"
    );
    let path = folder.path().join("long-evening.musicxml");
    fs::write(&path, text).expect("written");
    path
}

#[tokio::test]
async fn a_score_is_read_beside_the_page_called_off_and_refused_in_words_where_there_is_no_worker() {
    let (site, folder) = (Site::serve(), tempfile::tempdir().expect("a folder"));
    let score = long_score(&folder, 3_000);
    let browser = at_the_stand(&site).await;
    browser.visit("pieces").await;

    browser.choose_file(&score).await;
    browser.tap("Cancel").await;
    let waiting = "return document.querySelector('.score-field progress, .score-field .found') === null";
    assert_eq!(browser.run(waiting).await, true, "it is still being read");

    // Every value that the bar of progress shows is a frame of the page in the middle of the reading.
    browser
        .run(
            "globalThis.shown = new Set();
            new MutationObserver(() => {
                const progress = document.querySelector('.score-field progress');
                if (progress) shown.add(progress.value);
            }).observe(document.body, { subtree: true, childList: true, attributes: true });",
        )
        .await;
    browser.choose_file(&score).await;
    browser.wait_for_text("3000 bars").await;
    let shown = browser.run("return [...shown]").await;
    assert!(shown.as_array().is_some_and(|shown| shown.len() > 10), "progress shown: {shown}");

    browser.tap("Keep it and choose bars").await;
    browser.wait_for(".score-view .bar").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for(".score-view .bar").await;

    browser.run("globalThis.Worker = class { constructor() { throw new Error('not here'); } }").await;
    browser.visit("pieces").await;
    browser.choose_file(&score).await;
    browser.wait_for_text("This browser does not let a page work in the background").await;
    browser.finish().await;
}

/// What only those programs know that read or write such files.
const TELLING: [(&str, &str); 2] =
    [("the reader of scores", "score-timewise"), ("the reader and the writer of journal files", "tailfirst journal")];

#[test]
fn the_page_is_loaded_without_what_only_the_worker_calls() {
    let mut programs = [None, None];
    for file in fs::read_dir(Site::packed()).expect("a folder").map(|file| file.expect("a file").path()) {
        let name = file.file_name().expect("a name").to_string_lossy().into_owned();
        let place = ["tailfirst-", "workshop-"].iter().position(|program| name.starts_with(program));
        if let Some(place) = place.filter(|_| name.ends_with(".wasm")) {
            programs[place] = Some(fs::read(&file).expect("a program"));
        }
    }
    let [Some(page), Some(worker)] = programs else { panic!("two programs") };
    let knows = |program: &[u8], text: &str| program.windows(text.len()).any(|bytes| bytes == text.as_bytes());
    for (what, telling) in TELLING {
        assert_eq!((knows(&page, telling), knows(&worker, telling)), (false, true), "page and worker have {what}");
    }
}
