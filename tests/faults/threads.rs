//! `leadpipe share` where the system gives no thread, and Ctrl-C there.

use crate::fault::{self, Fault, KINDS};
use crate::folder;
use crate::process;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

const PAGE: &str = "<p>a page";

/// The first failing request for a thread, and all after it.
fn no_thread(nth: usize) -> Fault {
    let (kind, errors) = KINDS
        .iter()
        .find(|(kind, _)| *kind == "thread")
        .expect("there is such a kind");
    let ways = fault::ways(kind, errors, nth);
    *ways.iter().find(|fault| fault.forever).unwrap()
}

/// What it answers to a browser.
fn get(address: &str, path: &str) -> String {
    let host = address.trim_start_matches("http://").trim_end_matches('/');
    let mut stream = TcpStream::connect(host).unwrap();
    stream
        .set_read_timeout(Some(Duration::from_secs(20)))
        .unwrap();
    let request = format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    stream.write_all(request.as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    answer
}

fn interrupt(child: &Child, signal: &str) {
    let id = child.id().to_string();
    let sent = Command::new("kill").args([signal, &id]).status().unwrap();
    assert!(sent.success());
}

#[test]
fn a_folder_is_shared_without_a_thread_and_ctrl_c_ends_it() {
    let Some(shim) = fault::shim() else {
        return;
    };
    for (nth, signal) in [(1, "-INT"), (2, "-TERM"), (3, "-HUP")] {
        let kept = tempfile::tempdir().unwrap();
        folder::fill(kept.path(), "shared/index.html", PAGE.as_bytes());
        let mut command = process::leadpipe(kept.path(), &["share", "shared"]);
        let log = kept.path().join("log");
        fault::preload(&mut command, shim, kept.path(), &log, Some(&no_thread(nth)));
        let mut child = command
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut address = String::new();
        let mut out = BufReader::new(child.stdout.take().unwrap());
        out.read_line(&mut address).unwrap();
        let answers = ["/", "/index.html"].map(|path| get(address.trim_end(), path));
        interrupt(&child, signal);
        let status = process::wait(&mut child, Duration::from_secs(20));
        let mut said = String::new();
        child.stderr.unwrap().read_to_string(&mut said).unwrap();
        for answer in answers {
            assert!(answer.ends_with(PAGE), "thread {nth}: {answer}; {said}");
        }
        assert_eq!(status.and_then(|s| s.code()), Some(130), "{signal}: {said}");
        assert!(!said.contains("panicked"), "{said}");
    }
}
