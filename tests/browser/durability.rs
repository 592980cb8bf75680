//! A tap is kept: through a killed browser, and through the loss of either copy.

use crate::{
    exported,
    harness::{Chromium, Site},
    stand::{at_the_stand, practising},
};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryId, EntryKind, Journal, Piece},
    method::Verdict,
};

#[tokio::test]
async fn a_tap_is_found_again_after_the_browser_was_killed_right_after_it() {
    let site = Site::serve();
    let browser = practising(&site).await;
    browser.judge(Verdict::NotYet).await;
    let profile = browser.kill();
    let browser = Chromium::resume(profile).await;
    browser.open(&site.origin()).await;
    browser.visit("progress").await;
    browser.wait_for_text("1 of 2 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn either_copy_alone_is_enough_to_go_on() {
    let site = Site::serve();
    let browser = practising(&site).await;
    let lose_indexed = "await new Promise((done) => setTimeout(done, 300));
        await new Promise((done) => { const gone = indexedDB.deleteDatabase('tailfirst'); gone.onsuccess = done; gone.onblocked = done; })";
    for loss in ["localStorage.clear()", lose_indexed] {
        browser.run(loss).await;
        browser.refresh().await.expect("a reload");
        browser.visit("progress").await;
        browser.wait_for_text("1 of 1 clean").await;
    }
    browser.finish().await;
}

#[tokio::test]
async fn what_cannot_be_read_is_set_aside_and_never_lost() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    browser.run("localStorage.setItem('tailfirst.entry.9-abc', 'torn {')").await;
    browser.refresh().await.expect("a reload");
    browser.visit("data").await;
    browser.wait_for_text("entry.9-abc").await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    let kept = "return [localStorage.getItem('tailfirst.entry.9-abc'),
        Object.keys(localStorage).some((key) => key.startsWith('tailfirst.aside.') && localStorage[key].includes('torn {'))]";
    assert_eq!(browser.run(kept).await, serde_json::json!(["torn {", true]));
    browser.finish().await;
}

#[tokio::test]
async fn only_one_window_writes_and_the_turn_can_be_taken_or_falls_to_who_is_left() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    let first = browser.window().await.expect("a window");
    let second = browser.new_window(true).await.expect("another window").handle;
    browser.switch_to_window(second.clone()).await.expect("seen");
    browser.open(&site.origin()).await;
    browser.wait_for_text("Open in another window").await;
    browser.tap("Go on here").await;
    browser.wait_for_text("Today").await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.switch_to_window(first.clone()).await.expect("seen");
    browser.wait_for_text("Open in another window").await;
    browser.wait_for_text("Clean · 1 of 1 clean").await;
    browser.switch_to_window(second.clone()).await.expect("seen");
    browser.judge(Verdict::NotYet).await;
    browser.switch_to_window(first.clone()).await.expect("seen");
    browser.wait_for_text("Not yet · 1 of 2 clean").await;

    browser.switch_to_window(second).await.expect("seen");
    browser.close_window().await.expect("closed");
    browser.switch_to_window(first).await.expect("seen");
    browser.visit("progress").await;
    browser.wait_for_text("1 of 2 clean").await;
    browser.finish().await;
}

/// Older browsers have no locks, and no browser has them on an address that is not secure.
#[tokio::test]
async fn without_locks_two_windows_write_side_by_side_and_nothing_is_lost() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    let first = browser.window().await.expect("a window");
    let second = browser.new_window(true).await.expect("another window").handle;
    for window in [&first, &second] {
        browser.switch_to_window(window.clone()).await.expect("seen");
        browser.run_before_pages("delete Navigator.prototype.locks").await;
        browser.open(&site.origin()).await;
    }
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::NotYet).await;
    browser.switch_to_window(first.clone()).await.expect("seen");
    browser.visit("progress").await;
    browser.wait_for_text("0 of 1 clean").await;
    browser.visit("today").await;
    browser.tap("Go on").await;
    browser.begin().await;
    for window in [&first, &second, &first] {
        browser.switch_to_window(window.clone()).await.expect("seen");
        browser.judge(Verdict::Clean).await;
    }
    for window in [&second, &first] {
        browser.switch_to_window(window.clone()).await.expect("seen");
        browser.visit("progress").await;
        browser.wait_for_text("3 of 4 clean").await;
    }
    browser.run("await new Promise((wait) => setTimeout(wait, 300)); localStorage.clear()").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for_text("3 of 4 clean").await;
    browser.finish().await;
}

/// As with all site data blocked: no store, no lock.
#[tokio::test]
async fn a_page_for_which_nothing_may_be_stored_says_so_and_can_be_practised_with() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    let refuse = "const refused = () => { throw new DOMException('blocked', 'SecurityError'); };
        Object.defineProperty(window, 'localStorage', { get: refused });
        IDBFactory.prototype.open = refused;
        LockManager.prototype.request = async () => refused();";
    browser.run_before_pages(refuse).await;
    browser.open(&site.origin()).await;
    browser.wait_for_text("Not saved: this browser keeps nothing for this page").await;
    browser.tap("Export now").await;
    browser.wait_for_text("Export to a file").await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.finish().await;
}

/// The browser is killed at the very sentence that says so.
#[tokio::test]
async fn what_was_called_added_is_there_after_the_browser_was_killed() {
    let site = Site::serve();
    let browser = at_the_stand(&site).await;
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("years.json");
    let entries = 3_000;
    std::fs::write(&file, many_pieces(entries)).expect("written");
    browser.visit("data").await;
    browser.choose_file(&file).await;
    browser.wait_for_text(&format!("{entries} entries were added.")).await;
    let browser = Chromium::resume(browser.kill()).await;
    browser.open(&site.origin()).await;
    browser.visit("data").await;
    browser.wait_for_text("Export to a file").await;
    let said = browser.text("main").await;
    let kept = said.split("all of it: ").nth(1).and_then(|rest| rest.split(' ').next()?.parse::<usize>().ok());
    assert!(kept.is_some_and(|kept| kept >= entries), "{said}");
    browser.finish().await;
}

/// An exported file with so many pieces.
fn many_pieces(count: usize) -> String {
    let mut journal = Journal::new();
    let (device, at) = (DeviceId(7), Moment::new(1_795_600_800_000, 0));
    let numbers = (10..).take(count);
    journal.merge(numbers.map(|number| {
        let title = format!("Study no. {number}");
        let piece = Piece { title, composer: String::new(), tempo: None, date: None };
        Entry { id: EntryId { number, device }, at, kind: EntryKind::PieceAdded(piece) }
    }));
    exported::export(&journal, device, at)
}

/// Another page holds on, a deletion is pending: the database never answers.
#[tokio::test]
async fn a_database_that_does_not_answer_keeps_nobody_from_practising() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    browser.run_before_pages("IDBFactory.prototype.open = () => new EventTarget()").await;
    browser.open(&site.origin()).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.wait_for_text("Saved once only").await;
    browser.refresh().await.expect("a reload");
    browser.visit("progress").await;
    browser.wait_for_text("1 of 1 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn what_was_played_is_written_again_when_the_site_s_data_is_cleared_in_mid_block() {
    let site = Site::serve();
    let browser = practising(&site).await;
    let clear = "localStorage.clear();
        await new Promise((done) => { indexedDB.deleteDatabase('tailfirst').onsuccess = done; })";
    browser.run(clear).await;
    browser.judge(Verdict::NotYet).await;
    // Everything is written again a while later, to both.
    tokio::time::sleep(std::time::Duration::from_secs(17)).await;
    browser.run("localStorage.clear()").await;
    browser.refresh().await.expect("a reload");
    browser.visit("progress").await;
    browser.wait_for_text("1 of 2 clean").await;
    browser.finish().await;
}
