//! The companion serves a packed folder to this machine's browsers: all of it, and nothing else.

use std::{
    fs,
    io::{BufRead, BufReader, Read, Write},
    net::TcpStream,
    process::{Child, Command, Stdio},
    time::Duration,
};
use tempfile::TempDir;

const PAGE: &str = r#"<meta http-equiv="Content-Security-Policy" content="default-src 'none'">"#;

struct Companion {
    parent: TempDir,
    process: Child,
    address: String,
}

impl Companion {
    /// Serves a folder with a start page and one picture; a secret lies beside it.
    fn serve() -> Companion {
        Companion::serve_with("exec \"$0\" serve --port 0 --dir \"$1\"")
    }

    /// By a shell, which has the companion's path and that of the folder.
    fn serve_with(script: &str) -> Companion {
        let parent = tempfile::tempdir().expect("a folder");
        let dir = parent.path().join("dist");
        fs::create_dir(&dir).expect("a folder");
        for (name, contents) in [("dist/index.html", PAGE), ("dist/dot.svg", "<svg/>"), ("secret.txt", "secret")] {
            fs::write(parent.path().join(name), contents).expect("written");
        }
        let mut process = Command::new("sh")
            .args(["-c", script, env!("CARGO_BIN_EXE_tailfirst")])
            .arg(dir)
            .stdout(Stdio::piped())
            .spawn()
            .expect("the companion starts");
        let said = BufReader::new(process.stdout.take().expect("a pipe")).lines().next();
        let said = said.and_then(Result::ok).expect("the companion says its address");
        let address = said.split("http://").nth(1).and_then(|rest| rest.split('/').next()).expect("an address");
        Companion { parent, process, address: address.to_owned() }
    }

    /// A connection on which nothing has been asked yet.
    fn connect(&self) -> TcpStream {
        let connection = TcpStream::connect(&self.address).expect("a connection");
        connection.set_read_timeout(Some(Duration::from_secs(10))).expect("a time limit");
        connection
    }

    fn get(&self, path: &str) -> String {
        self.get_from(&self.address, path)
    }

    fn get_from(&self, host: &str, path: &str) -> String {
        let mut connection = self.connect();
        write!(connection, "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").expect("asked");
        let mut answer = String::new();
        connection.read_to_string(&mut answer).expect("an answer");
        answer
    }
}

impl Drop for Companion {
    fn drop(&mut self) {
        self.process.kill().and_then(|()| self.process.wait()).expect("the companion is ended");
    }
}

#[test]
fn files_come_with_their_type_and_with_the_policy_the_page_states() {
    let companion = Companion::serve();
    for (path, kind) in [("/", "text/html; charset=utf-8"), ("/?a=b", "text/html"), ("/dot.svg?1", "image/svg+xml")] {
        let answer = companion.get(path).to_lowercase();
        assert!(answer.starts_with("http/1.1 200 "), "{path}: {answer}");
        for header in [&format!("content-type: {kind}"), "content-security-policy: default-src 'none'\r"] {
            assert!(answer.contains(header), "{path}: {answer}");
        }
        assert!(answer.contains("cache-control: no-cache"), "{path}: {answer}");
    }
}

#[test]
fn nothing_outside_the_folder_is_shown() {
    let companion = Companion::serve();
    let secret = companion.parent.path().join("secret.txt");
    assert_eq!(fs::read_to_string(&secret).expect("it is there"), "secret");
    let absolute = format!("/{}", secret.display());
    for path in
        ["/../secret.txt", "/%2e%2e/secret.txt", "/./../secret.txt", "/..%2fsecret.txt", &absolute, "/absent.js"]
    {
        assert!(companion.get(path).starts_with("HTTP/1.1 404 "), "{path}");
    }
}

#[test]
fn every_connection_of_a_burst_is_answered_while_all_stay_open() {
    // A browser opens several connections at once and keeps them; a server just started and at rest
    // is where a pool of threads would leave one of them waiting.
    for _ in 0..10 {
        let companion = Companion::serve();
        companion.get("/");
        let mut connections: Vec<TcpStream> = (0..6).map(|_| companion.connect()).collect();
        for connection in &mut connections {
            write!(connection, "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").expect("asked");
        }
        for connection in &mut connections {
            let mut start = [0; 12];
            connection.read_exact(&mut start).expect("an answer in time");
            assert_eq!(&start, b"HTTP/1.1 200");
        }
    }
}

#[test]
fn a_taken_port_is_named_and_not_exchanged_for_another() {
    let companion = Companion::serve();
    let (_, port) = companion.address.split_once(':').expect("a port");
    let second = Command::new(env!("CARGO_BIN_EXE_tailfirst"))
        .args(["serve", "--port", port, "--dir"])
        .arg(companion.parent.path().join("dist"))
        .output()
        .expect("the companion runs");
    assert!(!second.status.success());
    assert!(String::from_utf8_lossy(&second.stderr).contains(&format!("port {port} cannot be used")));
}

/// A page from elsewhere whose name was made to point at this machine.
#[test]
fn only_who_asks_for_this_machine_by_name_is_answered() {
    let companion = Companion::serve();
    let (_, port) = companion.address.split_once(':').expect("a port");
    for host in ["localhost", "LOCALHOST:80", "127.0.0.1", "[::1]", "127.0.0.7:1", &format!("localhost:{port}")] {
        assert!(companion.get_from(host, "/").starts_with("HTTP/1.1 200 "), "{host}");
    }
    for host in ["elsewhere.example", "localhost.elsewhere.example", "192.168.0.7", "127.0.0.1.nip.example", ""] {
        let answer = companion.get_from(host, "/");
        assert!(!answer.starts_with("HTTP/1.1 200 ") && !answer.contains(PAGE), "{host}: {answer}");
    }
}

#[test]
fn a_connection_on_which_nothing_is_asked_is_closed() {
    let companion = Companion::serve();
    for begun in ["", "GET / HTTP/1.1\r\nHost: local"] {
        let mut connection = companion.connect();
        connection.write_all(begun.as_bytes()).expect("begun");
        let mut answer = Vec::new();
        connection.read_to_end(&mut answer).expect("closed within the time limit");
        assert!(!answer.starts_with(b"HTTP/1.1 200"));
    }
}

#[test]
fn more_connections_than_the_system_lets_it_open_are_answered_in_turn() {
    let companion = Companion::serve_with("ulimit -n 110; exec \"$0\" serve --port 0 --dir \"$1\"");
    let held: Vec<TcpStream> = (0..130).map(|_| companion.connect()).collect();
    assert!(companion.get("/").starts_with("HTTP/1.1 200 "), "after {} others", held.len());
}

#[test]
fn another_address_than_the_usual_is_said_loudly_and_how_to_choose_one() {
    let _usual = std::net::TcpListener::bind("127.0.0.1:8720");
    let companion = Companion::serve_with("exec \"$0\" serve --dir \"$1\" 2>\"$1/said.txt\"");
    let said = fs::read_to_string(companion.parent.path().join("dist/said.txt")).expect("what was said");
    assert!(!companion.address.ends_with(":8720"), "{}", companion.address);
    for part in ["Port 8720 is taken", "ANOTHER ADDRESS", "--port"] {
        assert!(said.contains(part), "{said}");
    }
}
