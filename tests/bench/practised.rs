//! A page with long practice behind it, brought in as a player would: by importing a file.

use crate::{
    exported,
    harness::{Chromium, Site},
    years,
};
use std::{path::Path, rc::Rc, time::Duration};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryId, EntryKind, Journal, SnippetId},
    method::{Coach, Step, Verdict},
};

/// Entries of one day: a block, its repetitions, its end.
const A_DAY: u64 = 60;
const DAY_MS: i64 = 86_400_000;
/// A day in November 2026, 00:00 UTC.
const NOW_MS: i64 = 1_795_564_800_000;

/// Ten years at some 400 repetitions a day.
pub const TEN_YEARS: u32 = 3_652;

/// A browser in which the study's first snippet has so many repetitions, with their blocks, behind it.
pub async fn at_a_page_with(site: &Site, repetitions: u64) -> (Chromium, SnippetId) {
    let (snippet, entries) = long_practised(repetitions);
    let mut journal = Journal::new();
    journal.merge(entries);
    let browser = Chromium::start().await;
    take_in(&browser, site, &journal, Moment::new(NOW_MS, 0)).await;
    (browser, snippet)
}

/// A browser on the morning after ten years, and the snippet that was played last in them.
pub async fn at_a_page_with_ten_years(site: &Site) -> (Chromium, SnippetId) {
    let entries = years::practise(TEN_YEARS, 1);
    let last = entries.iter().rev().find_map(|entry| Some((entry.at, entry.kind.practised()?)));
    let (at, snippet) = last.expect("ten years");
    let mut journal = Journal::new();
    journal.merge(entries);
    let mut browser = Chromium::start().await;
    browser.set_clock(at.unix_ms() + DAY_MS / 2).await;
    take_in(&browser, site, &journal, at).await;
    (browser, snippet)
}

/// Opens the page and imports the journal, as it was exported `at`.
async fn take_in(browser: &Chromium, site: &Site, journal: &Journal, at: Moment) {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("practised-{}.json", journal.count()));
    std::fs::write(&file, exported::export(journal, DeviceId(1), at)).expect("a file");
    browser.open(&site.origin()).await;
    browser.run("location.hash = 'data'").await;
    let field = browser.wait_for("label.file input[accept*=json]").await;
    field.send_keys(&file.display().to_string()).await.expect("a file is chosen");
    let is_taken_in = "return / entries were added/.test(document.querySelector('main').textContent)";
    while browser.run(is_taken_in).await != true {
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    browser.run("location.hash = 'today'").await;
}

/// Practised on many days before this one: clean one time in three, so that the first step is still not secure.
fn long_practised(repetitions: u64) -> (SnippetId, Vec<Entry>) {
    let journal = Journal::new();
    let (snippet, record) = journal.state().snippets().next().expect("the study");
    let step = Coach::new(Rc::clone(&record.snippet)).advice(Moment::new(NOW_MS, 0)).step;
    let entries = repetitions * A_DAY / (A_DAY - 2);
    let at = |nth: u64| {
        let days_ago = (entries - nth) / A_DAY + 2;
        Moment::new(NOW_MS - days_ago as i64 * DAY_MS + 4_000 * (nth % A_DAY) as i64, 0)
    };
    let entry = |nth| Entry {
        id: EntryId { number: 10 + nth, device: DeviceId(1) },
        at: at(nth),
        kind: kind(nth, snippet, step),
    };
    (snippet, (0..entries).map(entry).collect())
}

fn kind(nth: u64, snippet: SnippetId, step: Step) -> EntryKind {
    let verdict = if nth.is_multiple_of(3) { Verdict::Clean } else { Verdict::NotYet };
    match nth % A_DAY {
        0 => EntryKind::BlockBegan { snippet },
        59 => EntryKind::BlockEnded { snippet },
        _ => EntryKind::Played { snippet, step, verdict },
    }
}
