//! The page opens: on every screen, in both themes, at any time; or it says why not.

use crate::harness::{Chromium, Site, Viewport};
use std::fs;

#[tokio::test]
async fn the_page_opens_on_every_screen_in_both_themes() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    for viewport in Viewport::ALL {
        browser.set_viewport(viewport).await;
        let mut papers = Vec::new();
        for theme in ["light", "dark"] {
            browser.set_color_scheme(theme).await;
            let heading = browser.open(&site.origin()).await;
            assert_eq!(heading.text().await.expect("text"), "Today");
            let picture = browser.screenshot(&format!("opening-{}-{theme}", viewport.name)).await;
            assert!(picture.metadata().expect("a file").len() > 0);
            papers.push(browser.run("return getComputedStyle(document.body).backgroundColor").await);
        }
        assert_eq!(papers[0], "rgb(250, 246, 236)");
        assert_ne!(papers[0], papers[1]);
        let size = browser.run("return [innerWidth, innerHeight, devicePixelRatio, navigator.maxTouchPoints]").await;
        assert_eq!(size, serde_json::json!([viewport.width, viewport.height, viewport.scale, 5]));
    }
    browser.finish().await;
}

#[tokio::test]
async fn the_page_lives_by_the_clock_it_is_given() {
    let site = Site::serve();
    let mut browser = Chromium::start().await;
    for evening in [1_795_635_000_000_i64, 1_795_721_400_000] {
        browser.set_clock(evening).await;
        browser.open(&site.origin()).await;
        let shown = browser.run("return [Date.now(), new Date().getTime(), new Date(5).getTime()]").await;
        let since = |index: usize| shown[index].as_i64().expect("milliseconds") - evening;
        assert!((0..60_000).contains(&since(0)) && (0..60_000).contains(&since(1)), "{shown}");
        assert_eq!(shown[2], 5);
    }
    browser.finish().await;
}

#[tokio::test]
async fn a_page_that_cannot_start_says_so_in_plain_words() {
    let site = Site::serve();
    let program = fs::read_dir(site.folder()).expect("a folder").filter_map(Result::ok).map(|entry| entry.path());
    let program = program.filter(|path| path.extension().is_some_and(|extension| extension == "wasm"));
    program.for_each(|path| fs::remove_file(path).expect("removed"));
    let browser = Chromium::start().await;
    browser.goto(&site.origin()).await.expect("the page opens");
    let notice = browser.wait_for("[role=alert]").await.text().await.expect("text");
    assert!(notice.contains("could not start"), "{notice}");
    assert!(!browser.errors().await.is_empty(), "the console keeps the cause");
    browser.finish().await;
}
