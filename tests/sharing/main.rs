//! The shared folder, asked by a client that writes its requests byte by byte.
#![cfg(feature = "share")]

#[cfg(target_os = "linux")]
mod crowd;
mod hosts;
mod outside;
mod ranges;
mod refused;
mod slow;
mod terminal;

use leadpipe::handout::share::{Folder, Server};
use std::fs;
use std::io::{Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpStream};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::Duration;
use tempfile::TempDir;

/// A folder that is being shared.
struct Shared {
    /// Holds `shared`, which is the folder, and `secret.txt`, which is outside it.
    around: TempDir,
    address: SocketAddr,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Shared {
    fn new() -> Self {
        Self::with(|server| server)
    }

    /// With a server that is not as usual.
    fn with(change: impl FnOnce(Server) -> Server) -> Self {
        let around = tempfile::tempdir().unwrap();
        let folder = around.path().join("shared");
        fs::create_dir_all(folder.join("in it/.hidden")).unwrap();
        fs::create_dir_all(folder.join(".leadpipe")).unwrap();
        for (name, text) in [
            ("secret.txt", "secret"),
            ("shared/.leadpipe/t.json", "secret"),
            ("shared/in it/.hidden/a.txt", "secret"),
            ("shared/a 1.mp3", "0123456789"),
            ("shared/empty.wav", ""),
            ("shared/in it/index.html", "<p>page"),
            ("shared/<b>.txt", "text"),
        ] {
            fs::write(around.path().join(name), text).unwrap();
        }
        let server = Folder::new(&folder).unwrap();
        let server = change(Server::open(server, (Ipv4Addr::LOCALHOST, 0).into()).unwrap());
        let address = server.address().unwrap();
        let stop = Arc::new(AtomicBool::new(false));
        let thread = std::thread::spawn({
            let stop = Arc::clone(&stop);
            move || server.run(&stop).unwrap()
        });
        Self {
            around,
            address,
            stop,
            thread: Some(thread),
        }
    }

    fn folder(&self) -> std::path::PathBuf {
        self.around.path().join("shared")
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.address).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        stream
    }

    /// Sends these bytes and reads until the server closes.
    fn raw(&self, request: impl AsRef<[u8]>) -> Answer {
        let mut stream = self.connect();
        // A server that has heard enough may close before all is said.
        let _ = stream.write_all(request.as_ref());
        let mut bytes = vec![];
        let _ = stream.read_to_end(&mut bytes);
        Answer::read(&bytes)
    }

    fn ask(&self, method: &str, path: &str, fields: &[&str]) -> Answer {
        let fields: String = fields.iter().map(|f| format!("{f}\r\n")).collect();
        self.raw(format!(
            "{method} {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n{fields}\r\n"
        ))
    }

    fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, &[])
    }
}

impl Drop for Shared {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        let ended = self.thread.take().map(JoinHandle::join);
        if !std::thread::panicking() {
            ended.unwrap().unwrap();
        }
    }
}

/// What the server said.
#[derive(Debug)]
struct Answer {
    status: u16,
    fields: Vec<(String, String)>,
    body: Vec<u8>,
}

impl Answer {
    fn read(bytes: &[u8]) -> Self {
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n");
        let end = end.unwrap_or_else(|| panic!("{:?}", String::from_utf8_lossy(bytes)));
        let head = std::str::from_utf8(&bytes[..end]).unwrap();
        let mut rows = head.split("\r\n");
        let status = rows.next().unwrap();
        // A client of HTTP/1.0 is answered in its version.
        let version = &status[..9];
        assert!(["HTTP/1.1 ", "HTTP/1.0 "].contains(&version), "{status}");
        let fields = rows.map(|row| {
            let (name, value) = row.split_once(": ").unwrap();
            (name.to_lowercase(), value.to_owned())
        });
        Self {
            status: status[9..12].parse().unwrap(),
            fields: fields.collect(),
            body: bytes[end + 4..].to_vec(),
        }
    }

    fn field(&self, name: &str) -> &str {
        let found = self.fields.iter().find(|(n, _)| n == name);
        found.map_or("", |(_, value)| value)
    }

    fn text(&self) -> &str {
        std::str::from_utf8(&self.body).unwrap()
    }
}

#[test]
fn files_pages_and_lists_are_read() {
    let shared = Shared::new();
    let file = shared.get("/a%201.mp3");
    assert_eq!((file.status, file.text()), (200, "0123456789"));
    assert_eq!(file.field("content-type"), "audio/mpeg");
    assert_eq!(file.field("content-length"), "10");
    assert_eq!(file.field("accept-ranges"), "bytes");
    let page = shared.get("/in%20it/");
    assert_eq!((page.status, page.text()), (200, "<p>page"));
    assert_eq!(page.field("content-type"), "text/html; charset=utf-8");
    let list = shared.get("/");
    assert_eq!(list.status, 200);
    for shown in [
        "<a href=\"a%201.mp3\">a 1.mp3</a>",
        "<a href=\"in%20it/\">in it/</a>",
        "<a href=\"%3Cb%3E.txt\">&lt;b&gt;.txt</a>",
    ] {
        assert!(list.text().contains(shown), "{}", list.text());
    }
    assert!(!list.text().contains("leadpipe"), "nothing hidden");
    for answer in [&file, &page, &list] {
        assert_eq!(answer.field("x-content-type-options"), "nosniff");
        assert!(
            answer
                .field("content-security-policy")
                .contains("frame-ancestors 'none'")
        );
        assert_eq!(answer.field("referrer-policy"), "no-referrer");
    }
    for (name, kind) in [
        ("x.flac", "audio/flac"),
        ("x.WAV", "audio/wav"),
        ("x.m3u8", "application/vnd.apple.mpegurl"),
        ("x.css", "text/css; charset=utf-8"),
        ("x.exe", "application/octet-stream"),
    ] {
        fs::write(shared.folder().join(name), "x").unwrap();
        assert_eq!(shared.get(&format!("/{name}")).field("content-type"), kind);
    }
}

/// Only Windows gives `:` a meaning in names.
#[cfg(not(windows))]
#[test]
fn a_name_with_a_colon_is_served() {
    let shared = Shared::new();
    fs::write(shared.folder().join("61: slow.mp3"), "slow").unwrap();
    fs::create_dir(shared.folder().join("c:")).unwrap();
    fs::write(shared.folder().join("c:/d.txt"), "d").unwrap();
    // RFC 3986, section 3.3: a path's segment may contain a colon.
    for path in ["/61:%20slow.mp3", "/61%3A%20slow.mp3"] {
        let answer = shared.get(path);
        assert_eq!((answer.status, answer.text()), (200, "slow"), "{path}");
    }
    assert_eq!(shared.get("/c:/d.txt").text(), "d");
    // RFC 3986, section 4.2: as a relative address, such a name would be a scheme.
    assert_eq!(shared.get("/c:").field("location"), "./c:/");
    let list = shared.get("/");
    let link = "<a href=\"61%3A%20slow.mp3\">61: slow.mp3</a>";
    assert!(list.text().contains(link), "{}", list.text());
}

/// A list whose links lead nowhere would be wrong.
#[cfg(unix)]
#[test]
fn a_list_shows_what_is_served_and_nothing_else() {
    let shared = Shared::new();
    for name in ["back\\slash.txt", "bell\u{7}.txt", "half: ½ #1?.txt"] {
        fs::write(shared.folder().join(name), "x").unwrap();
    }
    let list = shared.get("/");
    let links: Vec<&str> = list.text().split("<a href=\"").skip(1).collect();
    assert!(links.len() >= 4, "{}", list.text());
    for link in links {
        let path = link.split('"').next().unwrap();
        assert_eq!(shared.get(&format!("/{path}")).status, 200, "{path}");
    }
}

#[test]
fn a_head_says_what_a_get_would_and_sends_nothing() {
    let shared = Shared::new();
    for path in ["/a%201.mp3", "/", "/none", "/empty.wav"] {
        let (get, head) = (
            shared.get(path),
            shared.ask("HEAD", path, &["Range: bytes=0-1"]),
        );
        assert_eq!(head.status, get.status, "{path}");
        assert_eq!(head.body, b"", "{path}");
        for name in ["content-length", "content-type", "etag", "last-modified"] {
            assert_eq!(head.field(name), get.field(name), "{path} {name}");
        }
    }
}

#[test]
fn a_connection_serves_many_requests() {
    let shared = Shared::new();
    let mut stream = shared.connect();
    let request = "GET /a%201.mp3 HTTP/1.1\r\nHost: localhost\r\n\r\n";
    stream.write_all(request.repeat(20).as_bytes()).unwrap();
    let last = "GET /none HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";
    stream.write_all(last.as_bytes()).unwrap();
    let mut all = String::new();
    stream.read_to_string(&mut all).unwrap();
    assert_eq!(all.matches("0123456789").count(), 20);
    assert_eq!(all.matches("HTTP/1.1 404").count(), 1);
}

#[test]
fn what_a_browser_has_is_not_sent_again() {
    let shared = Shared::new();
    let first = shared.get("/a%201.mp3");
    let (tag, date) = (first.field("etag"), first.field("last-modified"));
    for field in [
        format!("If-None-Match: {tag}"),
        format!("If-None-Match: \"x\", W/{tag}"),
        format!("If-Modified-Since: {date}"),
    ] {
        let again = shared.ask("GET", "/a%201.mp3", &[&field]);
        assert_eq!((again.status, again.body.len()), (304, 0), "{field}");
        assert_eq!(again.field("etag"), tag);
    }
    for field in [
        "If-None-Match: \"x\"",
        "If-Modified-Since: Sat, 01 Jan 2000 00:00:00 GMT",
        "If-Modified-Since: yesterday",
    ] {
        assert_eq!(
            shared.ask("GET", "/a%201.mp3", &[field]).status,
            200,
            "{field}"
        );
    }
    fs::write(shared.folder().join("a 1.mp3"), "another, longer").unwrap();
    let field = format!("If-None-Match: {tag}");
    assert_eq!(
        shared.ask("GET", "/a%201.mp3", &[&field]).text(),
        "another, longer"
    );
}

#[test]
fn a_large_file_comes_whole() {
    let shared = Shared::new();
    let bytes: Vec<u8> = (0..5_000_000u32)
        .map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8)
        .collect();
    fs::write(shared.folder().join("large.wav"), &bytes).unwrap();
    assert!(shared.get("/large.wav").body == bytes);
    let part = shared.ask("GET", "/large.wav", &["Range: bytes=123456-3456789"]);
    assert!(part.body == bytes[123_456..=3_456_789]);
}

/// A client may close its side of the connection when it has asked (RFC 9293, section 3.6: it can still receive).
#[test]
fn a_client_that_has_no_more_to_say_gets_its_answer() {
    let shared = Shared::new();
    let bytes = vec![7; 5_000_000];
    fs::write(shared.folder().join("large.wav"), &bytes).unwrap();
    for _ in 0..20 {
        let mut stream = shared.connect();
        let request = "GET /large.wav HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";
        stream.write_all(request.as_bytes()).unwrap();
        stream.shutdown(std::net::Shutdown::Write).unwrap();
        let mut answer = vec![];
        let _ = stream.read_to_end(&mut answer);
        assert!(
            Answer::read(&answer).body == bytes,
            "{} bytes",
            answer.len()
        );
    }
    // Nobody waits for one that says nothing at all.
    let begun = std::time::Instant::now();
    let mut stream = shared.connect();
    stream.write_all(b"GET / HT").unwrap();
    stream.shutdown(std::net::Shutdown::Write).unwrap();
    let mut answer = vec![];
    let _ = stream.read_to_end(&mut answer);
    assert!(begun.elapsed() < leadpipe::handout::share::HEAD_TIME / 2);
}

fn exists(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// What `flate2` reads out of a body that was sent compressed.
fn unpacked(answer: &Answer) -> Vec<u8> {
    let mut content = vec![];
    flate2::read::GzDecoder::new(&answer.body[..])
        .read_to_end(&mut content)
        .unwrap();
    content
}

/// RFC 9110, sections 8.4, 8.8.3 and 12.5.
#[test]
fn text_is_sent_compressed_to_those_who_take_it() {
    let shared = Shared::new();
    let text = "<p>page</p>\n".repeat(1000);
    fs::write(shared.folder().join("long.html"), &text).unwrap();
    let gzip = "Accept-Encoding: br, gzip";
    let packed = shared.ask("GET", "/long.html", &[gzip]);
    assert_eq!(packed.field("content-encoding"), "gzip");
    assert_eq!(packed.field("vary"), "Accept-Encoding");
    assert_eq!(packed.field("content-type"), "text/html; charset=utf-8");
    assert_eq!(
        packed.field("content-length"),
        packed.body.len().to_string()
    );
    assert!(packed.body.len() < text.len() / 10);
    assert_eq!(unpacked(&packed), text.as_bytes());
    let head = shared.ask("HEAD", "/long.html", &[gzip]);
    for field in ["content-encoding", "content-length", "etag", "vary"] {
        assert_eq!(head.field(field), packed.field(field));
    }
    assert_eq!(head.body.len(), 0);

    let plain = shared.get("/long.html");
    assert_eq!(
        (plain.field("content-encoding"), plain.text()),
        ("", &*text)
    );
    assert_eq!(plain.field("vary"), "Accept-Encoding");
    assert_ne!(plain.field("etag"), packed.field("etag"));
    let refused = shared.ask("GET", "/long.html", &["Accept-Encoding: gzip;q=0"]);
    assert_eq!(refused.text(), text);

    // Each form is known by its own tag.
    for (with, other) in [(&packed, &plain), (&plain, &packed)] {
        let accept = if with.field("content-encoding").is_empty() {
            "Accept: */*"
        } else {
            gzip
        };
        let known = |answer: &Answer| format!("If-None-Match: {}", answer.field("etag"));
        let again = shared.ask("GET", "/long.html", &[accept, &known(with)]);
        assert_eq!(
            (again.status, again.field("vary")),
            (304, "Accept-Encoding")
        );
        assert_eq!(
            shared
                .ask("GET", "/long.html", &[accept, &known(other)])
                .status,
            200
        );
    }

    // A range is one of the file as it is, and goes with no other form of it.
    let part = shared.ask("GET", "/long.html", &[gzip, "Range: bytes=0-2"]);
    assert_eq!(
        (part.status, part.text(), part.field("content-encoding")),
        (206, "<p>", "")
    );
    let of_packed = format!("If-Range: {}", packed.field("etag"));
    let whole = shared.ask("GET", "/long.html", &[gzip, "Range: bytes=0-2", &of_packed]);
    assert_eq!((whole.status, whole.text()), (200, &*text));

    // Sound is packed already, and what is short is no shorter.
    for path in ["/a%201.mp3", "/in%20it/"] {
        let answer = shared.ask("GET", path, &[gzip]);
        assert_eq!(
            (answer.field("content-encoding"), answer.field("vary")),
            ("", ""),
            "{path}"
        );
    }
}
