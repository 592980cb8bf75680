//! How soon the kept page is ready for the first tap, offline and with 20,000 repetitions or ten years behind the player,
//! on a processor four times slower than this one; beside the former an empty page of the same stack.

use crate::{
    figure::{Figure, Paired, Ratio, Sheet, median, wait},
    harness::{Chromium, Site},
    practised::{at_a_page_with, at_a_page_with_ten_years},
};
use std::{path::Path, process::Command};
use wasm_bindgen_cli_support::Bindgen;

const REPETITIONS: u64 = 20_000;
/// An odd number, so that there is a middle one.
const OPENINGS: usize = 7;
const TARGET: &str = "wasm32-unknown-unknown";

pub fn measure(sheet: &mut Sheet) {
    let paired = wait(openings());
    let opening = median(paired.work.clone());
    sheet.add(Figure { name: "opening-offline-20000", value: opening, unit: "ms", target: 1000.0 });
    sheet.add_ratio(Ratio {
        name: "opening-to-empty-page",
        paired,
        beside: "an empty page of the same stack, kept and opened the same way",
        target: 3.0,
    });
    let opening = median(wait(openings_after_ten_years()));
    sheet.add(Figure { name: "opening-offline-ten-years", value: opening, unit: "ms", target: 1000.0 });
}

/// Milliseconds from the start of each navigation until the screen stands.
async fn openings() -> Paired {
    let (mut site, mut empty) = (Site::serve(), Site::serve());
    put_the_empty_page(&empty);
    let (browser, _) = at_a_page_with(&site, REPETITIONS).await;
    browser.wait_until_kept().await;
    browser.open(&empty.origin()).await;
    browser.run("await navigator.serviceWorker.register('./sw.js')").await;
    browser.wait_until_kept().await;
    browser.goto("about:blank").await.expect("the page is left");
    let origins = [site.origin(), empty.origin()];
    site.stop();
    empty.stop();
    browser.note_when_there("h1").await;
    browser.slow_down(4.0).await;
    let mut paired = Paired::default();
    for _ in 0..OPENINGS {
        paired.work.push(opening(&browser, &origins[0]).await);
        paired.yardstick.push(opening(&browser, &origins[1]).await);
    }
    browser.finish().await;
    paired
}

async fn openings_after_ten_years() -> Vec<f64> {
    let mut site = Site::serve();
    let (browser, _) = at_a_page_with_ten_years(&site).await;
    browser.wait_until_kept().await;
    browser.goto("about:blank").await.expect("the page is left");
    let origin = site.origin();
    site.stop();
    browser.note_when_there("h1").await;
    browser.slow_down(4.0).await;
    let mut times = Vec::new();
    for _ in 0..OPENINGS {
        times.push(opening(&browser, &origin).await);
    }
    browser.finish().await;
    times
}

async fn opening(browser: &Chromium, origin: &str) -> f64 {
    browser.open(origin).await;
    let there = "while (!window.thereAt) await new Promise((wait) => setTimeout(wait, 50)); return window.thereAt";
    let time = browser.run(there).await.as_f64().expect("milliseconds");
    browser.goto("about:blank").await.expect("the page is left");
    time
}

/// Puts the empty page's program where the site has the program's own.
fn put_the_empty_page(site: &Site) {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let target = Path::new(env!("CARGO_TARGET_TMPDIR")).parent().expect("the target folder");
    let built = Command::new(cargo)
        .args(["build", "--example", "empty_page", "--profile", "web", "--target", TARGET, "--target-dir"])
        .arg(target)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .status();
    assert!(built.is_ok_and(|status| status.success()), "the empty page does not compile");
    let module = target.join(TARGET).join("web/examples/empty_page.wasm");
    let mut glue = Bindgen::new();
    let glue = glue.input_path(module).web(true).and_then(|glue| {
        glue.typescript(false).remove_name_section(true).remove_producers_section(true).generate_output()
    });
    let mut glue = glue.expect("the empty page's glue");
    site.put_in_place_of("tailfirst", "js", glue.js().as_bytes());
    site.put_in_place_of("tailfirst", "wasm", &glue.wasm_mut().emit_wasm());
}
