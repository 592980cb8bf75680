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
    /// Every screen by day, and a wide and a narrow one on stage.
    pub fn all() -> impl Iterator<Item = Look> {
        let day = Viewport::ALL.map(|viewport| Look { viewport, theme: "paper", scheme: "light" });
        let stage =
            [Viewport::LANDSCAPE, Viewport::PHONE].map(|viewport| Look { viewport, theme: "stage", scheme: "dark" });
        day.into_iter().chain(stage)
    }

    pub async fn put_on(&self, browser: &Chromium) {
        browser.set_color_scheme(self.scheme).await;
        browser.set_viewport(self.viewport).await;
    }

    /// Keeps a picture of what is shown, which is not wider than what shows it, nor is any part of it. The marks of the pulse
    /// set out from beyond its edges, where they are cut.
    pub async fn keep(&self, browser: &Chromium, name: &str) {
        let name = format!("{name}-{}-{}", self.theme, self.viewport.name);
        browser.screenshot(&name).await;
        let wide =
            "return [document.documentElement, ...document.querySelectorAll('body :not(input, .visually-hidden, .pulse)')]
            .filter((part) => part.clientWidth > 0 && part.scrollWidth > part.clientWidth + 1)
            .map((part) => part.outerHTML.slice(0, 90))";
        let wide = browser.run(wide).await;
        assert_eq!(wide, serde_json::json!([]), "{name} is too wide");
    }
}

/// The staff is large enough to be read and whole in view; then the targets are large, and nothing of the practice
/// screen lies outside.
async fn practice_fits(browser: &Chromium, viewport: Viewport) {
    let least = if viewport.is_tablet() { 14.0 } else { 11.0 };
    let staff = seen_staff(browser).await;
    assert!(staff.space >= least, "{} px a space on {}", staff.space, viewport.name);
    assert!(staff.hidden <= 1.0, "{} px of the staff are out of view on {}", staff.hidden, viewport.name);
    assert_eq!(cut(browser).await, serde_json::json!([]), "cut on {}", viewport.name);
    let measure =
        "const targets = [...document.querySelectorAll('.target')].map((target) => target.getBoundingClientRect());
        return targets.map((target) => [target.width, target.height, target.bottom])";
    let targets = browser.run(measure).await;
    for target in targets.as_array().expect("targets") {
        let [width, height, bottom] = [0, 1, 2].map(|index| target[index].as_f64().expect("px"));
        assert!(width.min(height) >= 95.0 && width * height >= 150.0 * 150.0, "a target is {width} × {height} px");
        assert!(bottom <= f64::from(viewport.height), "a target ends at {bottom} px");
    }
}

/// What is said and what can be tapped without being whole in its row, or beyond the screen.
async fn cut(browser: &Chromium) -> serde_json::Value {
    let words = "const said = '.practise :is(.small button, .causes button, .panel button, .panel span, .what, .left, .coach p)';
        const rows = ['.small', '.after', '.panel', '.coach', '.practise:not(.ready) .task', '.practise'].join();
        const row = (one) => one.closest(rows).getBoundingClientRect();
        return [...document.querySelectorAll(said)].filter((one) => {
            const own = one.getBoundingClientRect(), { left, right, top, bottom } = row(one);
            const beyond = own.left < left - 1 || own.right > right + 1 || own.top < top - 1 || own.bottom > bottom + 1;
            return beyond || own.bottom > innerHeight || one.scrollWidth > one.clientWidth + 1;
        }).map((one) => one.textContent)";
    browser.run(words).await
}

/// How much of the staff lies under what is open, in px.
async fn covered(browser: &Chromium) -> f64 {
    let measure = "const panel = document.querySelector('.panel'), staff = document.querySelector('.staff svg');
        return Math.max(0, staff.getBoundingClientRect().bottom - panel.getBoundingClientRect().top)";
    browser.run(measure).await.as_f64().expect("px")
}

/// The staff as it is seen.
struct SeenStaff {
    /// Px from line to line.
    space: f64,
    /// Its place and size.
    place: String,
    /// How much of its height cannot be seen.
    hidden: f64,
}

async fn seen_staff(browser: &Chromium) -> SeenStaff {
    browser.wait_for(".staff svg").await;
    let measure = "await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
        const staff = document.querySelector('.staff'), svg = staff.querySelector('svg');
        const box = staff.getBoundingClientRect(), whole = svg.getBoundingClientRect();
        const shown = Math.min(box.bottom, innerHeight) - Math.max(box.top, 0);
        const place = [box.left, box.top, box.width, box.height].map(Math.round).join(' ');
        return [Number(svg.dataset.space), place, whole.height - shown]";
    let seen = browser.run(measure).await;
    let number = |nth: usize| seen[nth].as_f64().expect("px");
    SeenStaff { space: number(0), place: seen[1].as_str().expect("a place").to_owned(), hidden: number(2) }
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
        let ready = seen_staff(&browser).await;
        assert_eq!(cut(&browser).await, serde_json::json!([]), "cut before the pulse on {}", look.viewport.name);
        browser.begin().await;
        browser.judge(Verdict::NotYet).await;
        browser.wait_for(".causes").await;
        look.keep(&browser, "playing").await;
        practice_fits(&browser, look.viewport).await;
        let playing = seen_staff(&browser).await;
        assert_eq!((ready.space, ready.place), (playing.space, playing.place), "Begin moves the staff");
        browser.tap("Why?").await;
        look.keep(&browser, "why").await;
        browser.tap("Back").await;
        browser.tap("Another step").await;
        look.keep(&browser, "another-step").await;
        practice_fits(&browser, look.viewport).await;
        assert!(covered(&browser).await <= 1.0, "the panel covers the staff on {}", look.viewport.name);
        browser.tap("Stop").await;
        browser.wait_for_text("rests until").await;
        look.keep(&browser, "rest").await;
        browser.visit("today").await;
        browser.tap("40 minutes").await;
        browser.wait_for(".planned").await;
        look.keep(&browser, "plan").await;
        browser.begin_anew(&site).await;
    }
    browser.finish().await;
}

/// What a player may have typed or a file may hold: nothing to break a line at, from right to left, beyond letters.
fn hostile() -> [String; 3] {
    ["W".repeat(200), "\u{5de}\u{5d0}".repeat(100), "\u{1f3b9}\u{1f468}\u{200d}\u{1f469}".repeat(50)]
}

/// The texts and controls that reach beyond the screen, except for those in a box of their own that scrolls.
const BEYOND: &str = "const scrolls = (element) => element && element !== document.body && !element.matches('.practise, .page')
        && (getComputedStyle(element).overflowX !== 'visible' || scrolls(element.parentElement));
    const beyond = (element) => {
        const { left, right, width } = element.getBoundingClientRect();
        return width > 1 && (left < -1 || right > innerWidth + 1) && !scrolls(element.parentElement);
    };
    const all = [...document.querySelectorAll('main :is(button, a, input, select, h1, h2, p, span, label), .places a')];
    return [document.documentElement.scrollWidth - document.documentElement.clientWidth, all.filter(beyond).map((one) => one.outerHTML.slice(0, 90))]";

async fn nothing_is_beyond(browser: &Chromium, place: &str, viewport: Viewport) {
    let beyond = browser.run(BEYOND).await;
    let wide = beyond[0].as_i64().expect("px");
    assert!(wide <= 0 && beyond[1] == serde_json::json!([]), "{place} on {}: {beyond}", viewport.name);
}

#[tokio::test]
async fn nothing_is_ever_wider_than_the_screen() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    let [title, composer, name] = hostile();
    for viewport in Viewport::ALL {
        browser.set_viewport(viewport).await;
        browser.visit("piece/1-study1").await;
        browser.fill("Title", &title).await;
        browser.fill("Composer", &composer).await;
        browser.visit("snippet/2-study1").await;
        browser.fill("Name", &name).await;
        for place in PLACES.into_iter().chain(["practise/2-study1"]) {
            browser.visit(place).await;
            nothing_is_beyond(&browser, place, viewport).await;
        }
        browser.screenshot(&format!("hostile-ready-{}", viewport.name)).await;
        browser.begin().await;
        nothing_is_beyond(&browser, "playing", viewport).await;
        browser.judge(Verdict::NotYet).await;
        browser.wait_for(".causes").await;
        nothing_is_beyond(&browser, "playing with causes", viewport).await;
        browser.tap("Stop").await;
        browser.wait_for_text("rests until").await;
        nothing_is_beyond(&browser, "resting", viewport).await;
        browser.visit("today").await;
        browser.tap("40 minutes").await;
        browser.wait_for(".planned").await;
        nothing_is_beyond(&browser, "the plan", viewport).await;
        browser.visit("tap/1-study1").await;
        browser.tap("Start the pulse").await;
        browser.wait_for(".pads").await;
        browser.screenshot(&format!("pads-{}", viewport.name)).await;
        nothing_is_beyond(&browser, "the pads", viewport).await;
        browser.begin_anew(&site).await;
    }
    browser.finish().await;
}
