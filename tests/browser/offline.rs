//! The page without a network, and how a newer version arrives.

use crate::{
    harness::{Chromium, Site},
    stand::with_the_page_kept,
};
use std::{
    fs,
    io::{BufRead, BufReader, Write},
    net::{TcpListener, TcpStream},
    path::{Path, PathBuf},
    thread,
};
use tailfirst::method::Verdict;

#[tokio::test]
async fn once_opened_the_page_opens_without_a_network() {
    let mut site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    browser.goto("about:blank").await.expect("the page is left");
    site.stop();
    for address in [site.origin(), format!("{}/#/anywhere", site.origin())] {
        let heading = browser.open(&address).await;
        assert_eq!(heading.text().await.expect("text"), "Today");
    }
    let everything = "const list = performance.getEntriesByType('resource').map((entry) => entry.responseStatus);
        return list.length > 2 && list.every((status) => status === 200)";
    assert_eq!(browser.run(everything).await, true, "some part of the page is missing");
    browser.finish().await;
}

#[tokio::test]
async fn without_a_network_a_block_can_be_practised_and_is_kept() {
    let mut site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    browser.goto("about:blank").await.expect("the page is left");
    site.stop();
    browser.open(&site.origin()).await;
    browser.sit_down_to_the_first_snippet().await;
    browser.judge(Verdict::Clean).await;
    browser.refresh().await.expect("a reload without a network");
    browser.visit("progress").await;
    browser.wait_for_text("1 of 1 clean").await;
    browser.finish().await;
}

#[tokio::test]
async fn a_page_kept_by_a_browser_that_was_killed_opens_without_a_network() {
    let mut site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    let profile = browser.kill();
    site.stop();
    let browser = Chromium::resume(profile).await;
    browser.open(&site.origin()).await;
    browser.finish().await;
}

#[tokio::test]
async fn a_newer_version_waits_until_it_is_told_to_take_over() {
    let site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    let first = description(&browser).await;
    site.publish("newer");
    browser.run("document.dispatchEvent(new Event('visibilitychange'))").await;
    browser.wait_for(".notice button").await;
    browser.open(&site.origin()).await;
    assert_eq!(description(&browser).await, first, "it took over unasked");
    browser.tap("Use it now").await;
    // Asked of the document from outside: a script would be lost with the page that is being left.
    browser.wait_for("meta[name=description][content=newer]").await;
    let stale = "const store = await caches.open((await caches.keys())[0]); const pages = await store.keys();
        return pages.filter((page) => new URL(page.url).pathname === '/').length";
    assert_eq!(browser.run(stale).await, 1, "the old start page is still kept");
    browser.finish().await;
}

#[tokio::test]
async fn a_version_with_a_part_missing_is_not_taken_at_all() {
    let site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    let first = description(&browser).await;
    site.publish("newer");
    fs::write(site.folder().join("index.html"), "<title>half a page").expect("written");
    let outcome = "const registration = await navigator.serviceWorker.ready; await registration.update();
        const worker = registration.installing;
        await new Promise((go) => worker.addEventListener('statechange', go));
        return [worker.state, registration.waiting === null]";
    assert_eq!(browser.run(outcome).await, serde_json::json!(["redundant", true]));
    browser.open(&site.origin()).await;
    assert_eq!(description(&browser).await, first);
    browser.finish().await;
}

/// What the version of the page that is open says of itself.
async fn description(browser: &Chromium) -> serde_json::Value {
    browser.run("return document.querySelector('meta[name=description]')?.content ?? ''").await
}

/// Many servers tell by a file's date whether a browser has it already, and an older version put back in place, or one
/// unpacked from an archive, has an older date.
#[tokio::test]
async fn a_newer_version_is_taken_from_a_server_that_goes_by_dates() {
    let site = Site::serve();
    let origin = serve_by_dates(site.folder().to_path_buf());
    let browser = Chromium::start().await;
    browser.open(&origin).await;
    browser.wait_until_kept().await;
    site.publish("newer");
    browser.run("document.dispatchEvent(new Event('visibilitychange'))").await;
    browser.tap("Use it now").await;
    browser.wait_for("meta[name=description][content=newer]").await;
    browser.finish().await;
}

/// Serves a folder as if nothing but the worker had changed since a browser saw it.
fn serve_by_dates(folder: PathBuf) -> String {
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
    let origin = format!("http://{}", listener.local_addr().expect("an address"));
    thread::spawn(move || {
        for connection in listener.incoming().map_while(Result::ok) {
            let folder = folder.clone();
            thread::spawn(move || answer_by_date(&connection, &folder));
        }
    });
    origin
}

fn answer_by_date(mut connection: &TcpStream, folder: &Path) -> Option<()> {
    let lines = BufReader::new(connection).lines().map_while(Result::ok);
    let request: Vec<String> = lines.take_while(|line| !line.is_empty()).collect();
    let path = request.first()?.split(' ').nth(1)?.trim_start_matches('/').split('?').next()?;
    let name = if path.is_empty() { "index.html" } else { path };
    let seen = request.iter().any(|line| line.to_lowercase().starts_with("if-modified-since:"));
    if seen && name != "sw.js" {
        return connection.write_all(b"HTTP/1.1 304 Not Modified\r\nConnection: close\r\n\r\n").ok();
    }
    let kind = match name.rsplit('.').next()? {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript",
        "css" => "text/css",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        _ => "application/octet-stream",
    };
    let contents = fs::read(folder.join(name)).ok()?;
    let head = format!(
        "HTTP/1.1 200 OK\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n\
         Last-Modified: Tue, 01 Dec 2026 10:00:00 GMT\r\nConnection: close\r\n\r\n",
        contents.len()
    );
    connection.write_all(head.as_bytes()).and_then(|()| connection.write_all(&contents)).ok()
}

/// The browser has thrown away one of the files: the page is opened from the network, whole, rather than in part.
#[tokio::test]
async fn a_page_that_is_not_kept_whole_any_more_is_opened_from_the_network() {
    let site = Site::serve();
    let browser = with_the_page_kept(&site).await;
    site.publish("newer");
    let lose = "const store = await caches.open((await caches.keys())[0]); const pages = await store.keys();
        await store.delete(pages.find((page) => page.url.includes('.wasm')))";
    browser.run(lose).await;
    browser.open(&site.origin()).await;
    assert_eq!(description(&browser).await, "newer");
    browser.finish().await;
}
