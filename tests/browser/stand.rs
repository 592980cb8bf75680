//! What a player does at the music stand, in the words of the screens.

use crate::harness::{Chromium, PATIENCE, Site};
use fantoccini::Locator;
use std::{path::Path, time::Duration};
use tailfirst::method::Verdict;

/// A verdict sooner than the span can be played after the one before is a bounce: this is longer than four onsets of the
/// study take.
const AFTER_A_BOUNCE: Duration = Duration::from_millis(1_000);

impl Chromium {
    /// Taps the button or link with exactly this text or name.
    pub async fn tap(&self, text: &str) {
        let path = format!(
            "//*[self::button or self::a or local-name()='rect'][normalize-space()={0} or @aria-label={0}][not(@disabled)]",
            xpath_text(text)
        );
        let found = self.wait().at_most(PATIENCE).for_element(Locator::XPath(&path)).await;
        let element = found.unwrap_or_else(|error| panic!("no “{text}” to tap: {error}"));
        self.run_on(&element, "arguments[0].scrollIntoView({ block: 'center' })").await;
        self.click(&element).await.unwrap_or_else(|error| panic!("“{text}” cannot be tapped: {error}"));
    }

    /// Opens the row whose name begins so.
    pub async fn open_row(&self, name: &str) {
        let path = format!("//a[contains(@class, 'name')][starts-with(normalize-space(), {})]", xpath_text(name));
        let found = self.wait().at_most(PATIENCE).for_element(Locator::XPath(&path)).await;
        let row = found.unwrap_or_else(|error| panic!("no row “{name}”: {error}"));
        self.click(&row).await.unwrap_or_else(|error| panic!("the row “{name}” cannot be tapped: {error}"));
    }

    async fn run_on(&self, element: &fantoccini::elements::Element, script: &str) {
        let element = serde_json::to_value(element).expect("a reference");
        self.execute(script, vec![element]).await.expect("the script runs");
    }

    /// The text of the first element that matches.
    pub async fn text(&self, selector: &str) -> String {
        self.wait_for(selector).await.text().await.expect("text")
    }

    /// Waits until the screen says this.
    pub async fn wait_for_text(&self, text: &str) {
        let path = format!("//body//*[contains(normalize-space(), {})]", xpath_text(text));
        let found = self.wait().at_most(PATIENCE).for_element(Locator::XPath(&path)).await;
        if found.is_err() {
            panic!("the screen never said “{text}”; it says: {}", self.text("body").await);
        }
    }

    /// Goes to the screen with this name in the address.
    pub async fn visit(&self, screen: &str) {
        self.run(&format!("location.hash = '{screen}'")).await;
        self.wait_for("h1").await;
    }

    /// Puts a file into the file field.
    pub async fn choose_file(&self, path: &Path) {
        let field = self.wait_for("input[type=file]").await;
        field.send_keys(&path.display().to_string()).await.expect("a file is chosen");
    }

    /// Changes the field with this label as typing does.
    pub async fn fill(&self, label: &str, value: &str) {
        let script = format!(
            "const find = () => [...document.querySelectorAll('label.field')].find((field) => field.firstChild.textContent === {0});
            while (!find()) await new Promise(requestAnimationFrame);
            const label = find();
            const control = label.querySelector('input, select');
            if (control.tagName === 'SELECT') control.selectedIndex = [...control.options].findIndex((o) => o.text === {1});
            else control.value = {1};
            control.dispatchEvent(new Event('change', {{ bubbles: true }}));",
            serde_json::json!(label),
            serde_json::json!(value)
        );
        self.run(&script).await;
    }

    /// From Today to the running pulse of the snippet that is next.
    pub async fn sit_down_to_the_first_snippet(&self) {
        self.visit("today").await;
        self.tap("Practise").await;
        self.begin().await;
    }

    /// The page as it is opened for the first time.
    pub async fn begin_anew(&self, site: &Site) {
        self.run("localStorage.clear(); indexedDB.deleteDatabase('tailfirst')").await;
        self.open(&site.origin()).await;
    }

    /// Starts the pulse.
    pub async fn begin(&self) {
        let begin = self.wait_for(".begin").await;
        self.click(&begin).await.expect("a tap");
        self.wait_for(".targets").await;
    }

    /// Judges the repetition, no sooner than a bounce would be.
    pub async fn judge(&self, verdict: Verdict) {
        self.judge_after(verdict, AFTER_A_BOUNCE).await;
    }

    /// Judges the repetition after a while.
    pub async fn judge_after(&self, verdict: Verdict, after: Duration) {
        tokio::time::sleep(after).await;
        let target = match verdict {
            Verdict::Clean => ".target.clean",
            Verdict::NotYet => ".target.not-yet",
        };
        self.wait_for(target).await.click().await.expect("a tap");
    }
}

/// A browser that has opened the page.
pub async fn at_the_stand(site: &Site) -> Chromium {
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    browser
}

/// A browser in which a block of the first snippet is under way, with one clean repetition.
pub async fn practising(site: &Site) -> Chromium {
    let browser = at_the_stand(site).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser
}

/// A browser that has opened the page and keeps it.
pub async fn with_the_page_kept(site: &Site) -> Chromium {
    let browser = at_the_stand(site).await;
    browser.wait_until_kept().await;
    browser
}

/// A text for XPath 1.0, which has no escapes.
fn xpath_text(text: &str) -> String {
    assert!(!text.contains('"'), "no quotation marks in what is looked for");
    format!("\"{text}\"")
}
