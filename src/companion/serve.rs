//! A packed folder served to the browsers of this machine only.
//!
//! Only who asks for this machine by name is answered, so that no page from elsewhere can have its own name point here
//! and read the folder. Every answer carries the content-security policy that the start page states, so that the two cannot disagree.

use http_body_util::Full;
use hyper::{
    Method, Request, Response, StatusCode,
    body::Bytes,
    header::{CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HOST, HeaderValue, X_CONTENT_TYPE_OPTIONS},
    server::conn::http1,
    service::service_fn,
};
use hyper_util::rt::{TokioIo, TokioTimer};
use std::{
    convert::Infallible,
    fs, io,
    net::{IpAddr, Ipv4Addr, TcpListener},
    path::{Component, Path, PathBuf},
    sync::Arc,
    time::Duration,
};
use tokio::sync::Semaphore;

/// The first port tried where none was asked for, then the following ones.
const PORT: u16 = 8720;
const PORTS_TRIED: u16 = 20;
/// Most connections at a time, well below what any system lets a process open; the others wait.
const MOST_CONNECTIONS: usize = 100;
/// How long a connection may stay open with nothing asked.
const PATIENCE: Duration = Duration::from_secs(5);
/// How long nothing is accepted where the system has no room for a connection.
const PAUSE: Duration = Duration::from_millis(100);

/// Serves `dir` on `port` (0: any free one) of the loopback address until the process ends.
pub fn serve(dir: &Path, port: Option<u16>) -> Result<(), String> {
    let site = Arc::new(Site { dir: dir.into(), policy: policy_of(dir)? });
    let listener = match port {
        Some(port) => open(port).map_err(|error| format!("port {port} cannot be used: {error}"))?,
        None => open_first_free()?,
    };
    let address = listener.local_addr().map_err(|error| error.to_string())?;
    println!("Tailfirst is at http://{address}/ until you press Ctrl-C");
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    runtime.and_then(|runtime| runtime.block_on(accept(listener, site))).map_err(|error| format!("stopped: {error}"))
}

fn open(port: u16) -> io::Result<TcpListener> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, port))
}

fn open_first_free() -> Result<TcpListener, String> {
    if let Ok(listener) = open(PORT) {
        return Ok(listener);
    }
    let listener = (PORT + 1..PORT + PORTS_TRIED)
        .find_map(|port| open(port).ok())
        .ok_or_else(|| format!("ports {PORT} to {} are all taken; name one with --port", PORT + PORTS_TRIED - 1))?;
    eprintln!(
        "\n*** Port {PORT} is taken, so the page gets ANOTHER ADDRESS this time. ***\n\
         Browsers keep a journal for each address: what was practised at http://127.0.0.1:{PORT}/ is not shown there.\n\
         To have it again, end what uses the port, or choose a port to stay with: tailfirst serve --port N\n"
    );
    Ok(listener)
}

/// Answers every connection, each as long as its browser keeps asking.
async fn accept(listener: TcpListener, site: Arc<Site>) -> io::Result<()> {
    listener.set_nonblocking(true)?;
    let listener = tokio::net::TcpListener::from_std(listener)?;
    let free = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    loop {
        let place = free.clone().acquire_owned().await.map_err(io::Error::other)?;
        // The system may be out of room for a moment; whoever asks then is still in its queue.
        let Ok((stream, _)) = listener.accept().await else {
            tokio::time::sleep(PAUSE).await;
            continue;
        };
        let site = site.clone();
        tokio::spawn(async move {
            let answer = service_fn(|request| {
                let answer = site.answer(&request);
                async { Ok::<_, Infallible>(answer) }
            });
            let mut http = http1::Builder::new();
            http.timer(TokioTimer::new()).header_read_timeout(PATIENCE);
            // A browser that disconnected needs no answer, and one that asks nothing is to go.
            match http.serve_connection(TokioIo::new(stream), answer).await {
                Err(error) if !error.is_timeout() => eprintln!("an answer was not taken: {error}"),
                _ => {}
            }
            drop(place);
        });
    }
}

/// Whether `host`, as a request names it, is this machine: by its own name or by a loopback address.
fn is_this_machine(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|digit| digit.is_ascii_digit()) => name,
        _ => host,
    };
    let address = name.trim_start_matches('[').trim_end_matches(']').parse::<IpAddr>();
    name.eq_ignore_ascii_case("localhost") || address.is_ok_and(|address| address.is_loopback())
}

/// The policy in the start page's `meta` element.
fn policy_of(dir: &Path) -> Result<HeaderValue, String> {
    let start = dir.join("index.html");
    let page = fs::read_to_string(&start)
        .map_err(|error| format!("cannot read {}: {error}; run `tailfirst pack` first", start.display()))?;
    page.split_once("http-equiv=\"Content-Security-Policy\"")
        .and_then(|(_, after)| after.split_once("content=\""))
        .and_then(|(_, after)| after.split_once('"'))
        .and_then(|(policy, _)| HeaderValue::from_str(policy).ok())
        .ok_or_else(|| format!("{} states no content-security policy", start.display()))
}

type Answer = Response<Full<Bytes>>;

/// What is shown.
struct Site {
    dir: PathBuf,
    policy: HeaderValue,
}

impl Site {
    fn answer<T>(&self, request: &Request<T>) -> Answer {
        let host = request.headers().get(HOST).and_then(|host| host.to_str().ok());
        let mut answer = match *request.method() {
            _ if !host.is_some_and(is_this_machine) => {
                text(StatusCode::MISDIRECTED_REQUEST, "only this machine is answered, under its own name")
            }
            Method::GET | Method::HEAD => self.file_at(request.uri().path()),
            _ => text(StatusCode::METHOD_NOT_ALLOWED, "only GET and HEAD are answered"),
        };
        let headers = answer.headers_mut();
        headers.insert(CONTENT_SECURITY_POLICY, self.policy.clone());
        headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-cache"));
        headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
        answer
    }

    fn file_at(&self, path: &str) -> Answer {
        let path = path.trim_start_matches('/');
        let name = Path::new(if path.is_empty() { "index.html" } else { path });
        // No packed name needs percent-encoding, so none is undone here.
        let inside = name.components().all(|part| matches!(part, Component::Normal(_)));
        let Some(kind) = media_type(name).filter(|_| inside) else {
            return text(StatusCode::NOT_FOUND, "there is no such file");
        };
        match fs::read(self.dir.join(name)) {
            Ok(contents) => answer(StatusCode::OK, kind, contents),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                text(StatusCode::NOT_FOUND, "there is no such file")
            }
            Err(error) => text(StatusCode::INTERNAL_SERVER_ERROR, &error.to_string()),
        }
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

fn text(status: StatusCode, sentence: &str) -> Answer {
    answer(status, "text/plain; charset=utf-8", sentence.to_owned())
}

fn answer(status: StatusCode, kind: &'static str, contents: impl Into<Bytes>) -> Answer {
    let mut answer = Response::new(Full::new(contents.into()));
    *answer.status_mut() = status;
    answer.headers_mut().insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    answer
}
