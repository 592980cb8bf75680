//! A packed folder shown to the browsers of this machine, and to nobody else.
//!
//! Refuses to know what the page does. Every answer carries the content-security policy that the
//! start page states, so that the two cannot disagree.

use std::{fs, io, net::Ipv4Addr, path::Component, path::Path};
use tiny_http::{Header, Method, Request, Response, ResponseBox, Server, StatusCode};

/// Tried first, then its successors, where no port was asked for.
const PORT: u16 = 8720;
const PORTS_TRIED: u16 = 20;

/// Serves `dir` on `port` (0: any free one) of the loopback address until the process ends.
pub fn serve(dir: &Path, port: Option<u16>) -> Result<(), String> {
    let policy = policy_of(dir)?;
    let server = match port {
        Some(port) => open(port).map_err(|error| format!("port {port} cannot be used: {error}"))?,
        None => open_first_free()?,
    };
    println!("Tailfirst is at http://{}/ until you press Ctrl-C", server.server_addr());
    for request in server.incoming_requests() {
        let answer = answer(dir, &policy, &request);
        // A browser that went away in the middle of an answer needs none.
        if let Err(error) = request.respond(answer) {
            eprintln!("an answer was not taken: {error}");
        }
    }
    Ok(())
}

fn open(port: u16) -> Result<Server, Box<dyn std::error::Error + Send + Sync>> {
    Server::http((Ipv4Addr::LOCALHOST, port))
}

fn open_first_free() -> Result<Server, String> {
    if let Ok(server) = open(PORT) {
        return Ok(server);
    }
    eprintln!("port {PORT} is taken; taking the next free one");
    (PORT + 1..PORT + PORTS_TRIED)
        .find_map(|port| open(port).ok())
        .ok_or_else(|| format!("ports {PORT} to {} are all taken; name one with --port", PORT + PORTS_TRIED - 1))
}

/// The policy in the start page's `meta` element.
fn policy_of(dir: &Path) -> Result<String, String> {
    let start = dir.join("index.html");
    let page = fs::read_to_string(&start)
        .map_err(|error| format!("cannot read {}: {error}; run `tailfirst pack` first", start.display()))?;
    page.split_once("http-equiv=\"Content-Security-Policy\"")
        .and_then(|(_, after)| after.split_once("content=\""))
        .and_then(|(_, after)| after.split_once('"'))
        .map(|(policy, _)| policy.to_owned())
        .ok_or_else(|| format!("{} states no content-security policy", start.display()))
}

fn answer(dir: &Path, policy: &str, request: &Request) -> ResponseBox {
    let mut response = match request.method() {
        Method::Get | Method::Head => file_at(dir, request.url()),
        _ => text(405, "only GET and HEAD are answered"),
    };
    for (name, value) in
        [("Content-Security-Policy", policy), ("Cache-Control", "no-cache"), ("X-Content-Type-Options", "nosniff")]
    {
        response.add_header(header(name, value));
    }
    response
}

fn file_at(dir: &Path, url: &str) -> ResponseBox {
    let path = url.split(['?', '#']).next().unwrap_or(url).trim_start_matches('/');
    let name = Path::new(if path.is_empty() { "index.html" } else { path });
    // No packed name needs percent-encoding, so none is undone here.
    let inside = name.components().all(|part| matches!(part, Component::Normal(_)));
    let Some(kind) = media_type(name).filter(|_| inside) else {
        return text(404, "there is no such file");
    };
    match fs::read(dir.join(name)) {
        Ok(contents) => Response::from_data(contents).with_header(header("Content-Type", kind)).boxed(),
        Err(error) if error.kind() == io::ErrorKind::NotFound => text(404, "there is no such file"),
        Err(error) => text(500, &error.to_string()),
    }
}

/// The media type of a packed file (IANA media types registry); other files are not shown.
fn media_type(name: &Path) -> Option<&'static str> {
    Some(match name.extension()?.to_str()? {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "txt" => "text/plain; charset=utf-8",
        _ => return None,
    })
}

fn text(status: u16, sentence: &str) -> ResponseBox {
    Response::from_string(sentence).with_status_code(StatusCode(status)).boxed()
}

fn header(name: &str, value: &str) -> Header {
    Header::from_bytes(name, value).expect("our own header names and a policy of one line are ASCII")
}
