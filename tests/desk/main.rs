//! The desk with the files of a folder, asked by a client that writes its requests byte by byte; and the desk as a file.
#![cfg(all(feature = "share", feature = "workshop"))]

mod alone;
mod asked;
mod files;
mod guarded;

use leadpipe::desk::{self, DeskSite};
use leadpipe::handout::share::{Folder, Server};
use std::fs;
use std::io::{Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpStream};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::Duration;
use tempfile::TempDir;

const SECRET: &str = "0123456789abcdef0123456789abcdef";

/// A desk that is being served.
struct Served {
    /// Holds `lessons`, which is the folder, and `secret.toml`, which is outside it.
    around: TempDir,
    address: SocketAddr,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

/// What the server said.
struct Answer {
    status: u16,
    head: String,
    body: String,
}

impl Served {
    fn new() -> Self {
        let around = tempfile::tempdir().unwrap();
        let folder = around.path().join("lessons");
        fs::create_dir_all(folder.join("tuesday/.hidden")).unwrap();
        for (name, text) in [
            ("secret.toml", "secret"),
            ("lessons/anna.toml", "title = \"Anna\"\n"),
            ("lessons/tuesday/bo ü.toml", "title = \"Bo\"\n"),
            ("lessons/tuesday/.hidden/c.toml", "secret"),
            ("lessons/.d.toml", "secret"),
            ("lessons/notes.txt", "no routine"),
        ] {
            fs::write(around.path().join(name), text).unwrap();
        }
        let shared = Folder::new(&folder).unwrap();
        let address = (Ipv4Addr::LOCALHOST, 0).into();
        let html = desk::html(Some("lessons"));
        let site = |bound| DeskSite::new(shared, bound, SECRET, html);
        let server = Server::with(address, site).unwrap();
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

    fn path(&self, name: &str) -> PathBuf {
        self.around.path().join("lessons").join(name)
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    /// Sends a request with these fields and a body.
    fn ask(&self, method: &str, path: &str, fields: &[&str], body: &str) -> Answer {
        let mut stream = TcpStream::connect(self.address).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        let fields: String = fields.iter().map(|f| format!("{f}\r\n")).collect();
        let length = body.len();
        let request = format!(
            "{method} {path} HTTP/1.1\r\nConnection: close\r\n{fields}Content-Length: {length}\r\n\r\n{body}"
        );
        // A server that has heard enough may close before all is said.
        let _ = stream.write_all(request.as_bytes());
        let mut bytes = vec![];
        let _ = stream.read_to_end(&mut bytes);
        let text = String::from_utf8_lossy(&bytes);
        let (head, body) = text.split_once("\r\n\r\n").expect("it answers");
        Answer {
            status: head[9..12].parse().unwrap(),
            head: head.to_lowercase(),
            body: body.to_owned(),
        }
    }

    fn host(&self) -> String {
        format!("Host: {}", self.address)
    }

    fn origin(&self) -> String {
        format!("Origin: http://{}", self.address)
    }

    /// As the page asks.
    fn get(&self, path: &str) -> Answer {
        self.ask("GET", &format!("/{SECRET}{path}"), &[&self.host()], "")
    }

    /// As the page writes.
    fn put(&self, name: &str, before: Option<&str>, text: &str) -> Answer {
        let body = serde_json::json!({ "before": before, "text": text }).to_string();
        let path = format!("/{SECRET}/file/{name}");
        self.ask("PUT", &path, &[&self.host(), &self.origin()], &body)
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        let ended = self.thread.take().map(JoinHandle::join);
        if !std::thread::panicking() {
            ended.unwrap().unwrap();
        }
    }
}
