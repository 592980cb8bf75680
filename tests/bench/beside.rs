//! How free the page stays while its worker is at a large task: the longest time in which it does nothing else.

use crate::{
    exported,
    figure::{Figure, Sheet, wait},
    harness::{Chromium, Site},
    practised::TEN_YEARS,
    tap::number,
    years,
};
use std::{
    fs,
    io::{Cursor, Write},
    path::{Path, PathBuf},
    time::Duration,
};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Journal},
    music::musicxml::LARGEST_TEXT,
};
use zip::{ZipWriter, write::SimpleFileOptions};

pub fn measure(sheet: &mut Sheet) {
    wait(scores(sheet));
    wait(journals(sheet));
}

/// Ten years are taken in on a new device and written there; then ten other years are merged into them.
async fn journals(sheet: &mut Sheet) {
    let file = put("ten-years.json", ten_years(1).as_bytes());
    let other = put("ten-other-years.json", ten_years(2).as_bytes());
    let site = Site::serve();
    let browser = at(&site, "data").await;
    let taken_in = task(&browser, &file, "main.data", " entries were added| entries are here").await;
    println!("ten years taken in after {:.0} ms", taken_in.lasted);
    sheet.add(Figure { name: "import-longest-block", value: taken_in.longest_block, unit: "ms", target: 100.0 });
    begin(&browser).await;
    browser.run("document.querySelector('[aria-labelledby=export] button').click()").await;
    let written = end(&browser, "main.data", "was handed to the browser").await;
    println!("ten years written after {:.0} ms", written.lasted);
    sheet.add(Figure { name: "export-longest-block", value: written.longest_block, unit: "ms", target: 100.0 });
    browser.refresh().await.expect("a reload");
    let merged = task(&browser, &other, "main.data", " entries were added| entries are here").await;
    sheet.add(Figure { name: "ten-years-merged", value: merged.lasted / 1_000.0, unit: "s", target: 2.0 });
    sheet.add(Figure { name: "merge-longest-block", value: merged.longest_block, unit: "ms", target: 100.0 });
    browser.finish().await;
}

/// The file of who practised ten years; `seed` makes the player.
fn ten_years(seed: u64) -> String {
    let mut journal = Journal::new();
    journal.merge(years::practise(TEN_YEARS, seed));
    let last = journal.entries().last().expect("ten years").at;
    exported::export(&journal, DeviceId(1), Moment::new(last.unix_ms(), 0))
}

/// Scores that are large, and files that are made to be.
async fn scores(sheet: &mut Sheet) {
    let site = Site::serve();
    let browser = at(&site, "pieces").await;
    let quarter = |repeated| format!("<measure number='1'>{}</measure>", NOTE.repeat(repeated));
    let large = score(&quarter(4).repeat(9_000_000 / quarter(4).len()));
    for (name, text) in
        [("score-of-9-MB-longest-block", large), ("bar-of-50000-longest-block", score(&quarter(50_000)))]
    {
        let file = put(&format!("{name}.musicxml"), text.as_bytes());
        let read = task(&browser, &file, ".score-field", " bars?").await;
        println!("read after {:.0} ms", read.lasted);
        sheet.add(Figure { name, value: read.longest_block, unit: "ms", target: 100.0 });
    }
    let bombs = [" ".repeat(LARGEST_TEXT + 1), score(&"<b/>".repeat(4_000_001)), score(&"<measure/>".repeat(100_001))];
    let mut slowest = 0.0_f64;
    for bomb in bombs {
        let file = put("bomb.mxl", &squeezed(&bomb));
        let refused = task(&browser, &file, ".score-field", "Nothing was changed").await;
        slowest = slowest.max(refused.lasted);
    }
    sheet.add(Figure { name: "bomb-refused", value: slowest / 1_000.0, unit: "s", target: 2.0 });
    browser.finish().await;
}

const NOTE: &str = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration><voice>1</voice></note>";

fn score(measures: &str) -> String {
    let attributes = "<measure number='0'><attributes><divisions>1</divisions></attributes></measure>";
    format!("<score-partwise><part-list/><part id='P1'>{attributes}{measures}</part></score-partwise>")
}

/// Packed as one entry.
fn squeezed(text: &str) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    zip.start_file("score.xml", SimpleFileOptions::default()).expect("an entry");
    zip.write_all(text.as_bytes()).expect("written");
    zip.finish().expect("a zip").into_inner()
}

fn put(name: &str, bytes: &[u8]) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, bytes).expect("a file");
    path
}

async fn at(site: &Site, place: &str) -> Chromium {
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    browser.run(&format!("location.hash = '{place}'")).await;
    browser
}

/// How a task went, in milliseconds.
struct Task {
    lasted: f64,
    /// The longest task of the page; 50 ms where none was longer.
    longest_block: f64,
}

/// Chooses a file and waits until the element says how that ended.
async fn task(browser: &Chromium, file: &Path, element: &str, ended: &str) -> Task {
    let field = browser.wait_for("label.file input").await;
    begin(browser).await;
    field.send_keys(&file.display().to_string()).await.expect("a file is chosen");
    end(browser, element, ended).await
}

/// From now on the browser notes every task of the page that takes 50 ms or more; of shorter ones it tells nothing.
async fn begin(browser: &Chromium) {
    browser
        .run(
            "globalThis.began = performance.now();
            globalThis.longestTask = 50;
            globalThis.watching ??= new PerformanceObserver((list) => {
                for (const { duration } of list.getEntries()) longestTask = Math.max(longestTask, duration);
            });
            watching.observe({ type: 'longtask' });",
        )
        .await;
}

async fn end(browser: &Chromium, element: &str, ended: &str) -> Task {
    let lasted = format!(
        "const ended = document.querySelector('{element}').textContent.match(/{ended}/);
        return ended ? performance.now() - began : null"
    );
    let lasted = loop {
        tokio::time::sleep(Duration::from_millis(20)).await;
        if let Some(lasted) = browser.run(&lasted).await.as_f64() {
            break lasted;
        }
    };
    // The browser tells a little later.
    let told = "await new Promise((wait) => setTimeout(wait, 500)); watching.disconnect(); return longestTask";
    let longest_block = number(&browser.run(told).await);
    Task { lasted, longest_block }
}
