//! Requests to a shared folder.

use leadpipe::handout::share::{Folder, Found, Server};
use socket2::{Domain, Socket, Type};
use std::fs;
use std::io::{self, Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpStream};
use std::sync::LazyLock;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::Duration;
use tempfile::TempDir;

/// The content of the largest shared file, which holds no bytes of what is secret.
const TRACK: &[u8] = b"0123456789abcdefghijklmnopqrstuvwxyz";
const SECRET: &str = "SECRET";

/// A folder in another one; what is outside or hidden is secret.
static AROUND: LazyLock<TempDir> = LazyLock::new(|| {
    let around = tempfile::tempdir().expect("a folder can be made");
    let made = fs::create_dir_all(around.path().join("shared/in it/.hidden"))
        .and_then(|()| fs::create_dir_all(around.path().join("shared/.leadpipe")));
    made.expect("folders can be made");
    for (name, content) in [
        ("secret.txt", SECRET.as_bytes()),
        ("shared/.leadpipe/t.json", SECRET.as_bytes()),
        ("shared/in it/.hidden/a.txt", SECRET.as_bytes()),
        ("shared/a 1.mp3", TRACK),
        ("shared/c: d.txt", b"text"),
        ("shared/in it/index.html", b"<p>page"),
    ] {
        fs::write(around.path().join(name), content).expect("a file can be written");
    }
    #[cfg(unix)]
    std::os::unix::fs::symlink("../secret.txt", around.path().join("shared/link.txt"))
        .expect("a link can be made");
    around
});

fn folder() -> Folder {
    Folder::new(&AROUND.path().join("shared")).expect("it is a folder")
}

/// A path: what is found is in the folder and not hidden.
pub fn path(bytes: &[u8]) {
    static FOLDER: LazyLock<Folder> = LazyLock::new(folder);
    let Ok(request) = std::str::from_utf8(bytes) else {
        return;
    };
    let path = match FOLDER.find(request) {
        Found::File { path, .. } | Found::Folder(path) => path,
        Found::FolderWithoutSlash | Found::Nothing => return,
    };
    let within = path
        .strip_prefix(FOLDER.root())
        .expect("it is in the folder");
    assert!(
        within
            .iter()
            .all(|name| !name.to_string_lossy().starts_with('.')),
        "{within:?}"
    );
}

/// A server that runs for as long as the program does.
static ADDRESS: LazyLock<SocketAddr> = LazyLock::new(|| {
    let server = Server::open(folder(), (Ipv4Addr::LOCALHOST, 0).into()).expect("there is a port");
    let address = server.address().expect("it has an address");
    std::thread::spawn(|| {
        static NEVER: AtomicBool = AtomicBool::new(false);
        server.run(&NEVER)
    });
    address
});

/// A connection from another address of this machine each time, for one address does not have as many ports.
fn connected() -> io::Result<TcpStream> {
    static SENT: AtomicU32 = AtomicU32::new(0);
    let socket = Socket::new(Domain::IPV4, Type::STREAM, None)?;
    if cfg!(target_os = "linux") {
        let [_, b, c, d] = SENT.fetch_add(1, Ordering::Relaxed).to_be_bytes();
        socket.bind(&SocketAddr::from(([127, b | 1, c, d.clamp(1, 254)], 0)).into())?;
    }
    socket.connect(&(*ADDRESS).into())?;
    Ok(socket.into())
}

/// Sends these bytes, says that there are no more, and reads what comes back.
fn answers(request: &[u8]) -> Vec<u8> {
    let mut stream = loop {
        match connected() {
            // libFuzzer looks at the clock by signals.
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            connected => break connected.expect("the server runs"),
        }
    };
    stream
        .set_read_timeout(Some(Duration::from_secs(10)))
        .expect("it is no zero");
    // The server may have heard enough before all is sent.
    let _ = stream.write_all(request);
    let _ = stream.shutdown(std::net::Shutdown::Write);
    let mut answer = vec![];
    let _ = stream.read_to_end(&mut answer);
    answer
}

/// Bytes of any kind: nothing secret is said, and whatever is said is HTTP.
pub fn bytes(bytes: &[u8]) {
    let answer = answers(bytes);
    let text = String::from_utf8_lossy(&answer);
    assert!(answer.is_empty() || text.starts_with("HTTP/1."), "{text}");
    assert!(!text.contains(SECRET), "{text}");
}

/// A valid request with a target, a host and a range, one a row: a part of a file is the part that the answer says.
pub fn fields(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    let mut rows = text.lines();
    let [target, host, range] = [(); 3].map(|()| rows.next().unwrap_or_default());
    let request = format!(
        "GET {target} HTTP/1.1\r\nHost: {host}\r\nRange: {range}\r\nConnection: close\r\n\r\n"
    );
    let answer = answers(request.as_bytes());
    let text = String::from_utf8_lossy(&answer);
    assert!(!text.contains(SECRET), "{text}");
    let Some((head, body)) = text.split_once("\r\n\r\n") else {
        assert!(answer.is_empty(), "{text}");
        return;
    };
    let field = |name: &str| {
        let mut rows = head.lines().filter_map(|row| row.split_once(": "));
        let found = rows.find(|(one, _)| one.eq_ignore_ascii_case(name));
        found.map(|(_, value)| value)
    };
    let length = field("content-length").and_then(|length| length.parse().ok());
    assert_eq!(length, Some(body.len()), "{text}");
    if let (true, Some(part)) = (head.starts_with("HTTP/1.1 206 "), field("content-range")) {
        let (part, whole) = part
            .strip_prefix("bytes ")
            .and_then(|part| part.split_once('/'))
            .expect("a part says what it is of");
        let (from, to) = part.split_once('-').expect("a part is from and to");
        let [from, to, whole] = [from, to, whole].map(|n| n.parse().expect("it is a number"));
        if whole == TRACK.len() {
            assert_eq!(body.as_bytes(), &TRACK[from..=to], "{text}");
        }
        assert!(from <= to && to < whole, "{text}");
        assert_eq!(body.len(), to - from + 1, "{text}");
    }
}
