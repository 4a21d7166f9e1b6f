//! `leadpipe share` on the command line.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};

fn leadpipe(arguments: &[&str], folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_leadpipe"));
    command.arg("share").args(arguments).current_dir(folder);
    command.stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// Ended whatever happens.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

#[cfg(unix)]
fn stop(running: &mut Running) -> (i32, String) {
    let id = running.0.id().to_string();
    let sent = Command::new("kill").args(["-INT", &id]).status().unwrap();
    assert!(sent.success());
    let code = running.0.wait().unwrap().code().unwrap();
    let mut words = String::new();
    let mut stderr = running.0.stderr.take().unwrap();
    stderr.read_to_string(&mut words).unwrap();
    (code, words)
}

#[cfg(unix)]
#[test]
fn it_says_its_address_and_who_can_read_and_ends_with_ctrl_c() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.txt"), "a").unwrap();
    let mut running = Running(leadpipe(&["."], folder.path()).spawn().unwrap());
    let mut out = BufReader::new(running.0.stdout.take().unwrap());
    let mut address = String::new();
    out.read_line(&mut address).unwrap();
    let host = address
        .trim()
        .strip_prefix("http://")
        .unwrap()
        .strip_suffix('/')
        .unwrap();
    assert!(host.starts_with("127.0.0.1:"), "{host}");
    let mut stream = TcpStream::connect(host).unwrap();
    let request = format!("GET /a.txt HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    stream.write_all(request.as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    assert!(answer.starts_with("HTTP/1.1 200 OK") && answer.ends_with("\r\n\r\na"));
    let (code, words) = stop(&mut running);
    assert_eq!(code, 130);
    let root = folder.path().canonicalize().unwrap();
    assert_eq!(
        words,
        format!(
            "Only this computer can read the 1 file in {} there. With --lan phones in the same network can, \
             too.\nCtrl-C ends it.\nEnded; the folder is shared no more.\n",
            root.display()
        )
    );
}

/// On a machine without a network the program says so, and there is nothing to photograph.
#[cfg(unix)]
#[test]
fn phones_read_the_address_from_a_square() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.txt"), "a").unwrap();
    let mut running = Running(leadpipe(&[".", "--lan"], folder.path()).spawn().unwrap());
    let mut out = BufReader::new(running.0.stdout.take().unwrap());
    let mut address = String::new();
    out.read_line(&mut address).unwrap();
    if leadpipe::handout::share::lan_address().is_none() {
        let (code, words) = (running.0.wait().unwrap().code(), address);
        assert_eq!((code, words.as_str()), (Some(1), ""));
        return;
    }
    let address = address.trim().to_owned();
    let mut rows = vec![];
    for row in out.lines().map(Result::unwrap).skip(1) {
        if row.is_empty() {
            break;
        }
        rows.push(row);
    }
    let read = photograph(&rows);
    assert_eq!(read, address);
    assert!(!address.contains("127.0.0.1"));
    let (code, words) = stop(&mut running);
    assert_eq!(code, 130);
    let who = "Everybody in the same network as this computer can now read the 1 file";
    assert!(words.starts_with(who), "{words}");
}

/// What a reader of such squares reads in rows of half blocks: ink is dark.
fn photograph(rows: &[String]) -> String {
    const PIXELS: usize = 4;
    let width = rows.iter().map(|row| row.chars().count()).max().unwrap();
    let dark = |x: usize, y: usize| {
        let row: Vec<char> = rows[y / 2].chars().collect();
        match row.get(x) {
            Some('█') => true,
            Some('▀') => y.is_multiple_of(2),
            Some('▄') => !y.is_multiple_of(2),
            _ => false,
        }
    };
    let (w, h) = (width * PIXELS, rows.len() * 2 * PIXELS);
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(w, h, |x, y| {
        if dark(x / PIXELS, y / PIXELS) { 0 } else { 255 }
    });
    let grids = image.detect_grids();
    assert_eq!(grids.len(), 1);
    grids[0].decode().unwrap().1
}

fn refused(arguments: &[&str], folder: &Path) -> (i32, String) {
    let Output {
        status,
        stdout,
        stderr,
    } = leadpipe(arguments, folder).output().unwrap();
    assert_eq!(stdout, b"");
    (status.code().unwrap(), String::from_utf8(stderr).unwrap())
}

#[test]
fn what_cannot_be_shared_is_said() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.txt"), "a").unwrap();
    let (code, words) = refused(&["none"], folder.path());
    assert_eq!(code, 2);
    assert!(
        words.starts_with("error: there is no folder called none\n"),
        "{words}"
    );
    let (code, words) = refused(&["a.txt"], folder.path());
    assert_eq!(code, 2);
    assert!(
        words.contains("a.txt is a file, and only folders can be shared"),
        "{words}"
    );
    let (code, _) = refused(&[".", "--port", "0"], folder.path());
    assert_eq!(code, 2);
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let (code, words) = refused(&[".", "--port", &port], folder.path());
    assert_eq!(code, 1);
    assert!(
        words.starts_with(&format!("error: port {port} is taken by another program\n")),
        "{words}"
    );
}
