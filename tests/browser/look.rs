//! Every screen at every size in both themes: pictures to look at, and what can be told without
//! eyes.

use crate::{
    harness::{Chromium, Site, Viewport},
    stand::at_the_stand,
};
use tailfirst::method::Verdict;

const PLACES: [&str; 8] =
    ["today", "pieces", "piece/1-study1", "count/1-study1", "tap/1-study1", "snippet/2-study1", "progress", "settings"];

/// Keeps a picture of the screen, which is not wider than what shows it.
pub async fn look(browser: &Chromium, viewport: Viewport, name: &str) {
    browser.screenshot(&format!("{name}-{}", viewport.name)).await;
    let wide = browser.run("return document.documentElement.scrollWidth - innerWidth").await;
    assert!(wide.as_i64().is_some_and(|beyond| beyond <= 0), "{name} on {} is too wide: {wide}", viewport.name);
}

/// The targets are large, and nothing of the practice screen lies outside.
async fn practice_fits(browser: &Chromium, viewport: Viewport) {
    let measure =
        "const targets = [...document.querySelectorAll('.target')].map((target) => target.getBoundingClientRect());
        return targets.map((target) => [target.width, target.height, target.bottom])";
    let targets = browser.run(measure).await;
    for target in targets.as_array().expect("targets") {
        let [width, height, bottom] = [0, 1, 2].map(|index| target[index].as_f64().expect("px"));
        assert!(width >= 150.0 && height >= 150.0, "a target is {width} × {height} px");
        assert!(bottom <= f64::from(viewport.height), "a target ends at {bottom} px");
    }
}

#[tokio::test]
async fn every_screen_fits_every_size_in_both_themes() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    for (theme, scheme) in [("paper", "light"), ("stage", "dark")] {
        browser.set_color_scheme(scheme).await;
        for viewport in [Viewport::LANDSCAPE, Viewport::PORTRAIT, Viewport::PHONE] {
            browser.set_viewport(viewport).await;
            for place in PLACES {
                browser.visit(place).await;
                look(&browser, viewport, &format!("{}-{theme}", place.split('/').next().unwrap_or(place))).await;
            }
            browser.visit("practise/2-study1").await;
            look(&browser, viewport, &format!("ready-{theme}")).await;
            browser.begin().await;
            browser.judge(Verdict::NotYet).await;
            browser.wait_for(".causes").await;
            look(&browser, viewport, &format!("playing-{theme}")).await;
            practice_fits(&browser, viewport).await;
            browser.tap("Why?").await;
            look(&browser, viewport, &format!("why-{theme}")).await;
            browser.tap("Back").await;
            browser.tap("Another step").await;
            look(&browser, viewport, &format!("another-step-{theme}")).await;
            browser.tap("Stop").await;
            browser.wait_for_text("rests until").await;
            look(&browser, viewport, &format!("rest-{theme}")).await;
            browser.tap("Undo").await;
            browser.visit("today").await;
        }
    }
    browser.finish().await;
}
