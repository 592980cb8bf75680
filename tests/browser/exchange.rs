//! Export from one device, import on another.

use crate::{
    exported,
    harness::{Chromium, PATIENCE, Site, Viewport},
    look::Look,
    stand::{at_the_stand, practising},
    years,
};
use serde_json::Value;
use std::{
    fs,
    path::{Path, PathBuf},
    rc::Rc,
    time::{Duration, Instant},
};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryKind, Journal},
    method::{Coach, Verdict},
};

/// The file that the browser puts into `folder`.
pub async fn downloaded(folder: &Path) -> PathBuf {
    let start = Instant::now();
    loop {
        let files = fs::read_dir(folder).expect("a folder").filter_map(Result::ok).map(|entry| entry.path());
        if let Some(file) = files.into_iter().find(|path| path.extension().is_some_and(|kind| kind == "json")) {
            return file;
        }
        assert!(start.elapsed() < PATIENCE, "no file was handed out");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

fn matches_the_schema(file: &Path) -> bool {
    let schema = Path::new(env!("CARGO_MANIFEST_DIR")).join("static/journal.schema.json");
    let mut schemas = boon::Schemas::new();
    let schema = boon::Compiler::new().compile(schema.to_str().expect("a path"), &mut schemas).expect("a schema");
    let document: Value = serde_json::from_slice(&fs::read(file).expect("a file")).expect("JSON");
    schemas.validate(&document, schema).is_ok()
}

async fn import(browser: &Chromium, name: &str, text: &str, folder: &Path) {
    let path = folder.join(name);
    fs::write(&path, text).expect("written");
    browser.choose_file(&path).await;
}

#[tokio::test]
async fn a_second_device_shows_the_same_after_an_import() {
    let site = Site::serve();
    let folder = tempfile::tempdir().expect("a folder");
    let first = practising(&site).await;
    first.download_to(folder.path()).await;
    first.judge(Verdict::NotYet).await;
    first.tap("Stop").await;
    first.visit("progress").await;
    let progress = first.text("main").await;
    first.visit("data").await;
    first.tap("Export to a file").await;
    let file = downloaded(folder.path()).await;
    assert!(matches_the_schema(&file), "{} is not what the schema says", file.display());
    first.finish().await;

    let second = at_the_stand(&site).await;
    second.visit("data").await;
    second.choose_file(&file).await;
    second.wait_for_text("entries were added.").await;
    second.choose_file(&file).await;
    second.wait_for_text("Nothing in the file was new.").await;
    second.refresh().await.expect("a reload");
    second.visit("progress").await;
    second.wait_for_text("1 of 2 clean").await;
    assert_eq!(second.text("main").await, progress);
    second.finish().await;
}

#[tokio::test]
async fn a_file_that_cannot_be_taken_in_says_so_and_changes_nothing() {
    let site = Site::serve();
    let folder = tempfile::tempdir().expect("a folder");
    let browser = at_the_stand(&site).await;
    browser.visit("data").await;
    let newer = r#"{"format":"tailfirst journal","version":99,"entries":[]}"#;
    let damaged = r#"{"format":"tailfirst journal","version":1,"exported":"2026-11-25T10:00:00Z","device":"a","entries":[{"id":"5-a"}]}"#;
    for (name, text, sentence) in [
        ("newer.json", newer, "written by a newer version"),
        ("damaged.json", damaged, "This file is damaged (entry 1:"),
        ("torn.json", "{\"format\": ", "breaks off or is damaged at line 1"),
        ("list.json", "[]", "is not a journal"),
    ] {
        import(&browser, name, text, folder.path()).await;
        browser.wait_for_text(sentence).await;
        browser.wait_for_text("Nothing was changed.").await;
    }
    browser.wait_for_text("One file with all of it: 4 entries.").await;
    browser.visit("pieces").await;
    import(&browser, "letter.musicxml", "Dear friend", folder.path()).await;
    browser.wait_for(".score-field .wrong").await;
    browser.finish().await;
}

#[tokio::test]
async fn leaving_your_data_calls_off_an_import_and_says_so() {
    let (site, folder) = (Site::serve(), tempfile::tempdir().expect("a folder"));
    let mut journal = Journal::new();
    journal.merge(years::practise(120, 1));
    let browser = at_the_stand(&site).await;
    browser.visit("data").await;
    let text = exported::export(&journal, DeviceId(7), Moment::new(1_795_600_800_000, 0));
    import(&browser, "months.json", &text, folder.path()).await;
    browser.wait_for("main.data progress").await;
    browser.visit("today").await;
    browser.wait_for_text("The import was called off. Nothing was changed.").await;
    browser.visit("data").await;
    browser.wait_for_text("One file with all of it: 4 entries.").await;
    browser.finish().await;
}

#[tokio::test]
async fn where_the_browser_erases_unvisited_pages_it_is_said_after_three_days() {
    const MORNING: i64 = 1_795_600_800_000;
    let site = Site::serve();
    let mut browser = Chromium::start().await;
    let webkit = "Object.defineProperty(navigator, 'vendor', { get: () => 'Apple Computer, Inc.' })";
    browser.run_before_pages(webkit).await;
    browser.set_clock(MORNING).await;
    browser.open(&site.origin()).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.set_clock(MORNING + 3 * 86_400_000).await;
    browser.goto("about:blank").await.expect("the page is left");
    browser.open(&site.origin()).await;
    browser.wait_for_text("This browser erases what a page has stored").await;
    browser.wait_for_text("Nothing has been exported for 3 days.").await;
    for look in Look::all() {
        look.put_on(&browser).await;
        look.keep(&browser, "reminder").await;
    }
    browser.tap("Export now").await;
    browser.wait_for_text("It does not erase a page on the home screen").await;
    browser.finish().await;
}

/// Notes every value that a bar of progress shows: each is a frame of the page in the middle of the work.
const WATCH_PROGRESS: &str = "globalThis.shown = new Set();
    new MutationObserver(() => {
        const progress = document.querySelector('main.data progress');
        if (progress) shown.add(progress.value);
    }).observe(document.body, { subtree: true, childList: true, attributes: true });";

async fn progress_shown(browser: &Chromium) -> usize {
    let shown = browser.run("return shown.size").await;
    browser.run("shown.clear()").await;
    shown.as_u64().expect("a number") as usize
}

#[tokio::test]
async fn months_come_in_and_go_out_beside_the_page_which_can_call_it_off() {
    let (site, folder) = (Site::serve(), tempfile::tempdir().expect("a folder"));
    let mut journal = Journal::new();
    journal.merge(years::practise(60, 1));
    let text = exported::export(&journal, DeviceId(7), Moment::new(1_795_600_800_000, 0));
    let browser = at_the_stand(&site).await;
    browser.download_to(folder.path()).await;
    browser.visit("data").await;
    browser.run(WATCH_PROGRESS).await;

    import(&browser, "months.txt", &text, folder.path()).await;
    browser.tap("Cancel").await;
    assert_eq!(browser.run("return document.querySelector('main.data progress') === null").await, true);
    browser.wait_for_text("One file with all of it: 4 entries.").await;
    progress_shown(&browser).await;

    import(&browser, "months.txt", &text, folder.path()).await;
    browser.wait_for_text("entries were added.").await;
    browser.wait_for_text(&format!("One file with all of it: {} entries.", journal.count())).await;
    assert!(progress_shown(&browser).await > 10);
    import(&browser, "months.txt", &text, folder.path()).await;
    browser.wait_for_text("Nothing in the file was new.").await;
    progress_shown(&browser).await;

    browser.tap("Export to a file").await;
    let file = downloaded(folder.path()).await;
    assert!(progress_shown(&browser).await > 10);
    let elsewhere = exported::read(&fs::read_to_string(&file).expect("a file")).expect("a journal");
    assert!(elsewhere.entries.into_iter().eq(journal.entries()), "all that came in goes out");

    browser.run("globalThis.Worker = class { constructor() { throw new Error('not here'); } }").await;
    import(&browser, "months.txt", &text, folder.path()).await;
    browser.wait_for_text("This browser does not let a page work in the background").await;
    browser.wait_for_text("Nothing was changed.").await;
    browser.tap("Export to a file").await;
    browser.wait_for(".data [aria-labelledby=export] [role=alert]").await;
    browser.finish().await;
}

#[tokio::test]
async fn a_file_that_is_dropped_anywhere_is_taken_in_on_the_screen_for_its_kind() {
    let (site, folder) = (Site::serve(), tempfile::tempdir().expect("a folder"));
    let browser = at_the_stand(&site).await;
    let journal = folder.path().join("from-the-other-device.json");
    fs::write(&journal, exported::export(&Journal::new(), DeviceId(7), Moment::new(0, 0))).expect("written");
    browser.visit("progress").await;
    browser.drop_file(&journal).await;
    browser.wait_for_text("Your data").await;
    browser.wait_for_text("Nothing in the file was new.").await;
    let score = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/music/study.musicxml");
    browser.drop_file(&score).await;
    browser.wait_for_text("Keep it and choose bars").await;
    browser.finish().await;
}

/// A share sheet as the standard has it, which hands the file to nobody.
#[tokio::test]
async fn where_there_is_a_share_sheet_the_export_goes_there_or_is_saved() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    let sheet = "globalThis.shared = [];
        navigator.canShare = ({ files }) => files.length === 1 && files[0].name.endsWith('.json');
        navigator.share = async ({ files }) => {
            if (!navigator.userActivation.isActive) throw new DOMException('no tap', 'NotAllowedError');
            shared.push([files[0].name, files[0].type, (await files[0].text()).slice(0, 1)]);
            if (shared.length === 1) throw new DOMException('back', 'AbortError');
        };";
    browser.run_before_pages(sheet).await;
    browser.open(&site.origin()).await;
    browser.visit("data").await;
    browser.tap("Export to a file").await;
    browser.tap("Share it").await;
    browser.tap("Share it").await;
    browser.wait_for_text("was handed over.").await;
    let shared = browser.run("return shared").await;
    let times = shared.as_array().expect("a list");
    assert_eq!(times.len(), 2, "{shared}");
    assert_eq!((&times[1][1], &times[1][2]), (&"application/json".into(), &"{".into()));
    browser.finish().await;
}

#[tokio::test]
async fn what_a_newer_version_wrote_is_told_where_it_belongs_and_goes_out_as_it_came() {
    let (site, folder) = (Site::serve(), tempfile::tempdir().expect("a folder"));
    let mut journal = Journal::new();
    let (snippet, record) = journal.state().snippets().next().expect("the study");
    let at = Moment::new(1_795_600_800_000, 0);
    let step = Coach::new(Rc::clone(&record.snippet)).advice(at).step;
    let played = EntryKind::Played { snippet, step, verdict: Verdict::NotYet };
    let repetition = journal.next(DeviceId(7), at, played);
    journal.append(repetition.clone());
    let later = [
        format!(r#"{{"id":"901-zz","at":"2031-01-01T08:00:00Z","what":{{"cause_named":{{"repetition":"{}","cause":"rushed"}}}}}}"#, repetition.id),
        r#"{"id":"902-zz","at":"2031-01-01T08:00:01Z","what":{"listened":{"to":[1e300,0.10,12345678901234567890123]}}}"#.to_string(),
    ];
    journal.merge(later.iter().map(|line| Entry::read(line).expect("an entry")));
    let browser = at_the_stand(&site).await;
    browser.download_to(folder.path()).await;
    browser.visit("data").await;
    import(&browser, "newer.txt", &exported::export(&journal, DeviceId(7), at), folder.path()).await;
    browser.wait_for_text("2 entries were written by a newer version of the program.").await;
    browser.refresh().await.expect("a reload");
    browser.visit("progress").await;
    browser.wait_for_text("A newer version noted one thing more here.").await;
    browser.run(&format!("location.hash = 'practise/{}'", snippet.0)).await;
    browser.tap("Why?").await;
    browser.wait_for_text("A newer version noted one thing more here.").await;
    browser.visit("data").await;
    browser.tap("Export to a file").await;
    let file = fs::read_to_string(downloaded(folder.path()).await).expect("a file");
    assert!(later.iter().all(|line| file.lines().any(|kept| kept.trim_end_matches([',', ']']) == line)), "{file}");
    browser.finish().await;
}

#[tokio::test]
async fn an_import_can_be_taken_back_and_everything_erased() {
    let site = Site::serve();
    let folder = tempfile::tempdir().expect("a folder");
    let browser = practising(&site).await;
    browser.download_to(folder.path()).await;
    browser.visit("data").await;
    browser.wait_for_text("Nothing has been exported from this device yet.").await;
    browser.wait_for_text("This device,").await;
    let mut journal = Journal::new();
    journal.merge(years::practise(3, 7));
    let device = DeviceId(7);
    import(&browser, "other.json", &exported::export(&journal, device, Moment::new(0, 0)), folder.path()).await;
    browser.wait_for_text("entries were added.").await;
    browser.tap("Go back to before the import").await;
    browser.wait_for_text("This is what was here before the import.").await;
    browser.wait_for_text("One file with all of it: 6 entries.").await;
    browser.refresh().await.expect("a reload");
    browser.wait_for_text("One file with all of it: 6 entries.").await;
    for viewport in [Viewport::LANDSCAPE, Viewport::PHONE] {
        browser.set_viewport(viewport).await;
        browser
            .run("for (const id of ['export', 'before', 'here', 'erase']) document.getElementById(id).scrollIntoView()")
            .await;
        browser.screenshot(&format!("your-data-{}", viewport.name)).await;
    }

    browser.tap("Export to a file").await;
    browser.wait_for_text("The last export was on").await;
    browser.fill("Type 6, the number of entries, to erase them all", "6").await;
    browser.tap("Erase now").await;
    browser.wait_for_text("Today").await;
    let left = "return [Object.keys(localStorage).filter((key) => key.startsWith('tailfirst.entry.')).length,
        (await indexedDB.databases()).map((database) => database.name).includes('tailfirst-before')]";
    assert_eq!(browser.run(left).await, serde_json::json!([0, false]));
    browser.visit("progress").await;
    assert!(!browser.text("main").await.contains("1 of 1 clean"));
    browser.finish().await;
}
