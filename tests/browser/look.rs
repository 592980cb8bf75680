//! Every screen at every size in both themes: pictures to look at, and what can be told without
//! eyes.

use crate::{
    harness::{Chromium, Site, Viewport},
    stand::at_the_stand,
};
use tailfirst::method::Verdict;

const PLACES: [&str; 11] = [
    "today",
    "pieces",
    "piece/1-study1",
    "score/1-study1",
    "count/1-study1",
    "tap/1-study1",
    "snippet/2-study1",
    "progress",
    "data",
    "settings",
    "help",
];

/// What the page is looked at with.
pub struct Look {
    pub viewport: Viewport,
    theme: &'static str,
    scheme: &'static str,
}

impl Look {
    /// Every screen in both themes.
    pub fn all() -> impl Iterator<Item = Look> {
        let themes = [("paper", "light"), ("stage", "dark")];
        themes.into_iter().flat_map(|(theme, scheme)| Viewport::ALL.map(|viewport| Look { viewport, theme, scheme }))
    }

    pub async fn put_on(&self, browser: &Chromium) {
        browser.set_color_scheme(self.scheme).await;
        browser.set_viewport(self.viewport).await;
    }

    /// Keeps a picture of what is shown, which is not wider than what shows it.
    pub async fn keep(&self, browser: &Chromium, name: &str) {
        let name = format!("{name}-{}-{}", self.theme, self.viewport.name);
        browser.screenshot(&name).await;
        let wide = browser.run("return document.documentElement.scrollWidth - innerWidth").await;
        assert!(wide.as_i64().is_some_and(|beyond| beyond <= 0), "{name} is too wide: {wide}");
    }
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
    for look in Look::all() {
        look.put_on(&browser).await;
        for place in PLACES {
            browser.visit(place).await;
            look.keep(&browser, place.split('/').next().unwrap_or(place)).await;
        }
        browser.visit("practise/2-study1").await;
        look.keep(&browser, "ready").await;
        browser.begin().await;
        browser.judge(Verdict::NotYet).await;
        browser.wait_for(".causes").await;
        look.keep(&browser, "playing").await;
        practice_fits(&browser, look.viewport).await;
        browser.tap("Why?").await;
        look.keep(&browser, "why").await;
        browser.tap("Back").await;
        browser.tap("Another step").await;
        look.keep(&browser, "another-step").await;
        browser.tap("Stop").await;
        browser.wait_for_text("rests until").await;
        look.keep(&browser, "rest").await;
        browser.tap("Undo stop").await;
        browser.visit("today").await;
    }
    browser.finish().await;
}
