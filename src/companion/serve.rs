//! A packed folder served to the browsers of this machine only.
//!
//! Every answer carries the content-security policy that the start page states, so that the two cannot disagree.

use http_body_util::Full;
use hyper::{
    Method, Response, StatusCode,
    body::Bytes,
    header::{CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HeaderValue, X_CONTENT_TYPE_OPTIONS},
    server::conn::http1,
    service::service_fn,
};
use hyper_util::rt::TokioIo;
use std::{
    convert::Infallible,
    fs, io,
    net::{Ipv4Addr, TcpListener},
    path::{Component, Path, PathBuf},
    sync::Arc,
};

/// The first port tried where none was asked for, then the following ones.
const PORT: u16 = 8720;
const PORTS_TRIED: u16 = 20;

/// Serves `dir` on `port` (0: any free one) of the loopback address until the process ends.
pub fn serve(dir: &Path, port: Option<u16>) -> Result<(), String> {
    let site = Arc::new(Site { dir: dir.into(), policy: policy_of(dir)? });
    let listener = match port {
        Some(port) => open(port).map_err(|error| format!("port {port} cannot be used: {error}"))?,
        None => open_first_free()?,
    };
    let address = listener.local_addr().map_err(|error| error.to_string())?;
    println!("Tailfirst is at http://{address}/ until you press Ctrl-C");
    let runtime = tokio::runtime::Builder::new_current_thread().enable_io().build();
    runtime.and_then(|runtime| runtime.block_on(accept(listener, site))).map_err(|error| format!("stopped: {error}"))
}

fn open(port: u16) -> io::Result<TcpListener> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, port))
}

fn open_first_free() -> Result<TcpListener, String> {
    if let Ok(listener) = open(PORT) {
        return Ok(listener);
    }
    eprintln!("port {PORT} is taken; taking the next free one");
    (PORT + 1..PORT + PORTS_TRIED)
        .find_map(|port| open(port).ok())
        .ok_or_else(|| format!("ports {PORT} to {} are all taken; name one with --port", PORT + PORTS_TRIED - 1))
}

/// Answers every connection, each as long as its browser keeps it open.
async fn accept(listener: TcpListener, site: Arc<Site>) -> io::Result<()> {
    listener.set_nonblocking(true)?;
    let listener = tokio::net::TcpListener::from_std(listener)?;
    loop {
        let (stream, _) = listener.accept().await?;
        let site = site.clone();
        tokio::spawn(async move {
            let answer = service_fn(|request| {
                let answer = site.answer(request.method(), request.uri().path());
                async { Ok::<_, Infallible>(answer) }
            });
            // A browser that disconnected needs no answer.
            if let Err(error) = http1::Builder::new().serve_connection(TokioIo::new(stream), answer).await {
                eprintln!("an answer was not taken: {error}");
            }
        });
    }
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
    fn answer(&self, method: &Method, path: &str) -> Answer {
        let mut answer = match *method {
            Method::GET | Method::HEAD => self.file_at(path),
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
