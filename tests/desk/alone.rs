//! The desk as a file, and the command that serves it.

use assert_cmd::Command;
use assert_cmd::cargo::cargo_bin;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::Stdio;

#[test]
fn one_file_is_the_desk() {
    let folder = tempfile::tempdir().unwrap();
    let run = |more: &[&str]| {
        let mut command = Command::new(cargo_bin("leadpipe"));
        command.current_dir(folder.path());
        command.args(["desk", "--out", "desk.html"]).args(more);
        command.assert()
    };
    run(&[]).success();
    let html = fs::read_to_string(folder.path().join("desk.html")).unwrap();
    assert_eq!(html, leadpipe::desk::html(None));
    // Made again, it replaces itself; what is somebody's own it does not.
    run(&[]).success();
    fs::write(folder.path().join("desk.html"), "mine").unwrap();
    run(&[]).failure();
    assert_eq!(
        fs::read_to_string(folder.path().join("desk.html")).unwrap(),
        "mine"
    );
    run(&["--force"]).success();
}

#[test]
fn the_command_says_where_the_desk_is() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = std::process::Command::new(cargo_bin("leadpipe"));
    command.args(["desk", "--no-browser"]).arg(folder.path());
    command.stdout(Stdio::piped()).stderr(Stdio::null());
    let mut desk = command.spawn().unwrap();
    let mut address = String::new();
    let mut said = BufReader::new(desk.stdout.take().unwrap());
    said.read_line(&mut address).unwrap();
    let rest = address.trim().strip_prefix("http://").unwrap();
    let (host, path) = rest.split_once('/').unwrap();
    assert!(
        host.starts_with("127.0.0.1:") && path.len() == 33,
        "{address}"
    );
    let mut stream = TcpStream::connect(host).unwrap();
    let request = format!("GET /{path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    stream.write_all(request.as_bytes()).unwrap();
    let mut answer = vec![];
    stream.read_to_end(&mut answer).unwrap();
    desk.kill().unwrap();
    desk.wait().unwrap();
    assert!(answer.starts_with(b"HTTP/1.1 200 OK"));
}
