//! How long a tap keeps the page busy, on a processor four times slower than this one.

use crate::{
    figure::{Figure, Sheet, median, wait},
    harness::{Chromium, Site},
};
use std::rc::Rc;
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryId, Event, Journal, SnippetId},
    method::{Coach, Verdict},
};

/// Repetitions that the snippet has behind it, sixty a day.
const REPETITIONS: u64 = 5_000;
const A_DAY: u64 = 60;
/// An odd number, so that there is a middle one.
const TAPS: usize = 11;

pub fn measure(sheet: &mut Sheet) {
    sheet.add(Figure { name: "tap-after-5000", value: median(wait(taps())), unit: "ms", target: 16.0 });
}

/// Milliseconds of each tap on *Clean*: some lead to another step, so that the staff is laid out anew.
async fn taps() -> Vec<f64> {
    let site = Site::serve();
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    let (snippet, entries) = long_practised();
    for part in entries.chunks(1_000) {
        let keep =
            format!("for (const [id, text] of {}) localStorage.setItem('tailfirst.entry.' + id, text)", json(part));
        browser.run(&keep).await;
    }
    browser.refresh().await.expect("a reload");
    browser.run(&format!("location.hash = 'practise/{}'", snippet.0)).await;
    browser.wait_for(".begin").await.click().await.expect("a tap");
    browser.wait_for(".targets").await;
    browser.slow_down(4.0).await;
    let tap = format!(
        "const times = [], taken = () => Object.keys(localStorage).filter((key) => key.includes('.entry.')).length;
        const before = taken();
        for (let nth = 0; nth < {TAPS}; nth += 1) {{
            await new Promise((done) => setTimeout(done, 2_500));
            const target = document.querySelector('.target.clean');
            const start = performance.now();
            target.dispatchEvent(new PointerEvent('pointerdown', {{ bubbles: true, cancelable: true }}));
            const channel = new MessageChannel();
            await new Promise((done) => {{ channel.port1.onmessage = done; channel.port2.postMessage(0); }});
            document.querySelector('main').getBoundingClientRect();
            times.push(performance.now() - start);
        }}
        if (taken() - before !== {TAPS}) throw new Error(`${{taken() - before}} taps were taken`);
        return times"
    );
    let times = browser.run(&tap).await;
    browser.finish().await;
    times.as_array().expect("times").iter().filter_map(|time| time.as_f64()).collect()
}

/// The study's first snippet, practised on many days before this one: clean one time in three, so that its first
/// step is still not secure.
fn long_practised() -> (SnippetId, Vec<Entry>) {
    let journal = Journal::new();
    let (snippet, record) = journal.state().snippets().next().expect("the study");
    let now = Moment::new(1_795_600_800_000, 0);
    let step = Coach::new(Rc::clone(&record.snippet)).advice(now).step;
    let verdict = |nth: u64| if nth.is_multiple_of(3) { Verdict::Clean } else { Verdict::NotYet };
    let what = |nth: u64| match nth % A_DAY {
        0 => Event::BlockBegan { snippet },
        59 => Event::BlockEnded { snippet },
        _ => Event::Played { snippet, step, verdict: verdict(nth) },
    };
    let at = |nth: u64| {
        let days_ago = (REPETITIONS - nth) / A_DAY + 2;
        Moment::new(now.unix_ms() - days_ago as i64 * 86_400_000 + 4_000 * (nth % A_DAY) as i64, 0)
    };
    let entry = |nth| Entry { id: EntryId { number: 10 + nth, device: DeviceId(1) }, at: at(nth), what: what(nth) };
    (snippet, (0..REPETITIONS).map(entry).collect())
}

fn json(entries: &[Entry]) -> String {
    let pairs: Vec<_> = entries.iter().map(|entry| (entry.id.to_string(), entry.written())).collect();
    serde_json::to_string(&pairs).expect("texts")
}
