//! Requests that are not answered with a file, and what they hear.

use super::*;

#[test]
fn it_can_only_be_read() {
    let shared = Shared::new();
    for method in ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"] {
        let answer = shared.ask(method, "/a%201.mp3", &["Content-Length: 0"]);
        assert_eq!(answer.status, 405, "{method}");
        assert_eq!(answer.field("allow"), "GET, HEAD");
    }
    let answer = shared
        .raw("CONNECT example.org:80 HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
    assert_eq!(answer.status, 405);
    let put = "PUT /new.txt HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Length: 3\r\n\r\nnew";
    assert_eq!(shared.raw(put).status, 405);
    assert!(!exists(&shared.folder().join("new.txt")));
    // What follows a body that nobody reads is not taken for a request.
    let body = "GET /a%201.mp3 HTTP/1.1\r\nHost: localhost\r\n\r\n";
    let smuggled = format!(
        "POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{body}",
        body.len()
    );
    assert!(!shared.raw(smuggled).text().contains("0123456789"));
}

#[test]
fn heads_are_bounded() {
    let shared = Shared::new();
    let long = "x".repeat(100_000);
    let many: Vec<String> = (0..200).map(|n| format!("X-{n}: y")).collect();
    let many: Vec<&str> = many.iter().map(String::as_str).collect();
    let field = format!("X-Long: {long}");
    for answer in [
        shared.ask("GET", "/", &[&field]),
        shared.ask("GET", "/", &many),
        shared.ask("GET", &format!("/{long}"), &[]),
    ] {
        assert!([414, 431].contains(&answer.status), "{}", answer.status);
    }
    assert_eq!(shared.get("/").status, 200);
}

#[test]
fn what_is_no_request_ends_the_connection() {
    let shared = Shared::new();
    for bytes in [
        &b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03"[..],
        b"hello\r\n\r\n",
        b"GET / HTTP/9.9\r\nHost: localhost\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nBad Name: x\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n",
    ] {
        let mut stream = shared.connect();
        let _ = stream.write_all(bytes);
        let mut said = vec![];
        let _ = stream.read_to_end(&mut said);
        let said = String::from_utf8_lossy(&said);
        assert!(
            said.is_empty() || said.starts_with("HTTP/1.1 400 "),
            "{said}"
        );
    }
    assert_eq!(shared.get("/").status, 200);
}
