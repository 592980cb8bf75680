//! What goes wrong under the page while it is used: the program itself, a translator, a text that is torn or gone.

use crate::{
    exchange::downloaded,
    exported,
    harness::{Chromium, Site},
    look::Look,
    stand::{at_the_stand, practising},
};
use tailfirst::{journal::EntryKind, method::Verdict};

/// The page's own elements can no longer be put into the document.
const BREAK: &str = "for (const way of ['insertBefore', 'appendChild'])
    Node.prototype[way] = () => { throw new Error('broken on purpose'); };";

#[tokio::test]
async fn a_program_that_has_broken_down_says_so_hands_out_what_is_saved_and_starts_again() {
    let site = Site::serve();
    let folder = tempfile::tempdir().expect("a folder");
    let browser = practising(&site).await;
    browser.download_to(folder.path()).await;
    browser.run(&format!("{BREAK} location.hash = 'data'")).await;
    browser.wait_for_text("Tailfirst has stopped").await;
    browser.screenshot("stopped").await;
    browser.tap("Export what is saved").await;
    let file = std::fs::read_to_string(downloaded(folder.path()).await).expect("the file");
    let saved = exported::read(&file).expect("a journal");
    assert!(saved.entries.iter().any(|entry| matches!(entry.kind, EntryKind::Played { .. })), "{file}");
    browser.tap("Start again").await;
    browser.wait_for_text("Today").await;
    browser.visit("progress").await;
    browser.wait_for_text("1 of 1 clean").await;
    assert!(!browser.errors().await.is_empty(), "the console tells why it stopped");
    browser.finish().await;
}

/// A translator puts an element of its own in the place of each text.
#[tokio::test]
async fn texts_that_a_translator_has_replaced_come_back_and_go_on() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    assert_eq!(browser.run("return document.documentElement.translate").await, false);
    browser.sit_down_to_the_first_snippet().await;
    let translate = "const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), texts = [];
        while (walk.nextNode()) texts.push(walk.currentNode);
        texts.forEach((text, nth) => {
            const stranger = document.createElement('font');
            stranger.textContent = 'traduit';
            if (nth % 2) return text.replaceWith(stranger);
            text.before(stranger);
            text.remove();
        });
        await new Promise(requestAnimationFrame);
        return [texts.length > 5, texts.every((text) => text.isConnected), document.querySelectorAll('font').length]";
    assert_eq!(browser.run(translate).await, serde_json::json!([true, true, 0]));
    browser.judge(Verdict::NotYet).await;
    browser.wait_for_text("too loud").await;
    browser.finish().await;
}

#[tokio::test]
async fn what_is_torn_or_gone_is_said_when_it_is_found_and_once() {
    let site = Site::serve();
    let browser = practising(&site).await;
    browser.judge(Verdict::NotYet).await;
    reopen_after(&browser, "localStorage.setItem('tailfirst.entry.2-abc', 'torn {')").await;
    browser.wait_for_text("Something saved here cannot be read. It was set aside, not thrown away.").await;
    browser.tap("Close").await;
    // The repetition that was clean, in both copies.
    let lose = "const key = Object.keys(localStorage).find((key) => key.includes('entry.') && localStorage[key].includes('\"clean\"'));
        localStorage.removeItem(key);
        await new Promise((done) => { indexedDB.open('tailfirst').onsuccess = ({ target: { result } }) => {
            const change = result.transaction('entries', 'readwrite');
            change.objectStore('entries').delete(key.replace('tailfirst.', ''));
            change.oncomplete = () => { result.close(); done(); };
        }; })";
    reopen_after(&browser, lose).await;
    browser.wait_for_text("One entry is gone from this device.").await;
    for look in Look::all() {
        look.put_on(&browser).await;
        look.keep(&browser, "gone").await;
    }
    browser.tap("Export now").await;
    browser.wait_for_text("Export to a file").await;
    reopen_after(&browser, "").await;
    assert!(!browser.text("body").await.contains("gone from this device"), "it was said already");
    browser.visit("data").await;
    browser.wait_for_text("One entry is gone from this device.").await;
    browser.finish().await;
}

/// Opens the page again once what was to be written is written and something has happened to it.
async fn reopen_after(browser: &Chromium, script: &str) {
    browser.run(&format!("await new Promise((wait) => setTimeout(wait, 300)); {script}")).await;
    browser.visit("today").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for("h1").await;
}

/// Counts every write to either store, and refuses the one with the number that the window's name tells, or that one and
/// all after it.
const REFUSE: &str = "const plan = JSON.parse(window.name || '{}');
    let done = 0;
    const count = (object, method, isOurs) => {
        const real = object[method];
        object[method] = function (...given) {
            if (isOurs(this)) {
                window.writes = ++done;
                if (plan.ever ? done >= plan.nth : done === plan.nth) throw new DOMException('refused', 'QuotaExceededError');
            }
            return real.apply(this, given);
        };
    };
    const isLocal = (store) => store === localStorage;
    for (const method of ['setItem', 'removeItem']) count(Storage.prototype, method, isLocal);
    for (const method of ['put', 'delete']) count(IDBObjectStore.prototype, method, () => true);
    count(IDBDatabase.prototype, 'transaction', () => true);
    count(IDBFactory.prototype, 'open', () => true);";

#[tokio::test]
async fn whichever_write_is_refused_once_or_for_ever_no_tap_is_lost_or_called_saved_that_is_not() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    browser.run_before_pages(REFUSE).await;
    browser.open(&site.origin()).await;
    // What refuses nothing tells how many writes there are.
    let all = two_taps(&browser, &site, None).await;
    assert!((8..60).contains(&all), "{all} writes");
    for nth in 1..=all {
        for ever in [false, true] {
            two_taps(&browser, &site, Some((nth, ever))).await;
        }
    }
    browser.errors().await;
    browser.finish().await;
}

/// A visit with two taps in which one write is refused, and the next visit; how many writes the first made.
async fn two_taps(browser: &Chromium, site: &Site, refused: Option<(u64, bool)>) -> u64 {
    let plan = refused.map_or("{}".into(), |(nth, ever)| format!("{{ \"nth\": {nth}, \"ever\": {ever} }}"));
    let anew = "localStorage.clear(); sessionStorage.clear();
        await new Promise((done) => { const gone = indexedDB.deleteDatabase('tailfirst'); gone.onsuccess = gone.onblocked = done; });";
    browser.run(&format!("window.name = ''; {anew} window.name = '{plan}'")).await;
    browser.goto("about:blank").await.expect("the page is left");
    browser.run(&format!("window.name = '{plan}'")).await;
    browser.open(&site.origin()).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.judge(Verdict::NotYet).await;
    browser.visit("progress").await;
    browser.wait_for_text("1 of 2 clean").await;
    browser.run("await new Promise((wait) => setTimeout(wait, 200))").await;
    let warned = browser.text("body").await.contains("Not saved");
    let writes = browser.run("window.name = '{}'; return window.writes").await.as_u64().expect("a number");
    browser.refresh().await.expect("a reload");
    browser.wait_for("h1").await;
    let kept = browser.text("main").await.contains("1 of 2 clean");
    assert!(kept || warned, "refused {refused:?}: lost, and nothing said");
    writes
}
