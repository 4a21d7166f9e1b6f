//! Which host a request is for. Each check names its section of RFC 9112 or RFC 9110.

use super::*;

/// The status for this first line with these fields.
fn status(shared: &Shared, first: &str, fields: &[&str]) -> u16 {
    let fields: String = fields.iter().map(|f| format!("{f}\r\n")).collect();
    let request = format!("{first}\r\n{fields}Connection: close\r\n\r\n");
    shared.raw(request).status
}

/// A page elsewhere could have its own name point to this machine, and read what only this network should.
#[test]
fn only_names_of_this_network_are_answered() {
    let shared = Shared::new();
    for (field, expected) in [
        // RFC 9110, section 7.4: not the host's own name.
        ("Host: example.org", 421),
        ("Host: 127.0.0.1.example.org:80", 421),
        ("Host: local,host", 421),
        ("Host: localhost%00", 421),
        ("Host: studio.local:8642", 200),
        ("Host: STUDIO", 200),
        ("Host: [::1]:8642", 200),
        ("Host:   localhost  ", 200),
        // RFC 3986, section 3.2.3: a port may be empty.
        ("Host: localhost:", 200),
    ] {
        assert_eq!(
            status(&shared, "GET / HTTP/1.1", &[field]),
            expected,
            "{field}"
        );
    }
}

/// RFC 9112, section 3.2: 400 for no Host in HTTP/1.1, for more than one, and for one that is no host.
#[test]
fn a_request_has_one_valid_host() {
    let shared = Shared::new();
    let get = "GET / HTTP/1.1";
    assert_eq!(status(&shared, get, &[]), 400);
    for fields in [
        ["Host: localhost", "Host: example.org"],
        ["Host: example.org", "Host: localhost"],
        ["Host: localhost", "Host: localhost"],
        ["Host: localhost", "hOST:"],
    ] {
        assert_eq!(status(&shared, get, &fields), 400, "{fields:?}");
        let old = status(&shared, "GET / HTTP/1.0", &fields);
        assert_eq!(old, 400, "{fields:?}");
        let head = status(&shared, "HEAD / HTTP/1.1", &fields);
        assert_eq!(head, 400, "{fields:?}");
    }
    for field in [
        "Host: local host",
        "Host: localhost, example.org",
        "Host: localhost:80x",
        "Host: localhost:80:80",
        "Host: localhost/",
        "Host: me@localhost",
        "Host: http://localhost",
        "Host: [x]",
        "Host: [::1",
        "Host: [::1]80",
        // RFC 9110, section 4.2.1: an `http` address without a host is refused.
        "Host:",
        "Host: :80",
    ] {
        assert_eq!(status(&shared, get, &[field]), 400, "{field}");
    }
    // RFC 9112, section 3.2: only HTTP/1.1 requires it.
    assert_eq!(status(&shared, "GET / HTTP/1.0", &[]), 200);
    assert_eq!(
        status(&shared, "GET / HTTP/1.0", &["Host: example.org"]),
        421
    );
}

/// RFC 9112, section 3.2.2: a server accepts the absolute form, and the target's host is the one that counts. Section 3.2:
/// a client sends the same host in Host.
#[test]
fn a_target_in_absolute_form_agrees_with_host() {
    let shared = Shared::new();
    let port = shared.address.port();
    let here = format!("127.0.0.1:{port}");
    for (target, host, expected) in [
        (format!("http://{here}/a%201.mp3"), here.as_str(), 200),
        ("http://localhost/a%201.mp3".into(), "localhost", 200),
        ("http://LOCALHOST/a%201.mp3".into(), "localhost", 200),
        ("HTTP://localhost/a%201.mp3".into(), "localhost", 200),
        // RFC 9110, section 4.2.3: the default port is 80, and an absent path is "/".
        ("http://localhost:80/a%201.mp3".into(), "localhost", 200),
        ("http://localhost:/a%201.mp3".into(), "localhost:80", 200),
        ("http://localhost".into(), "localhost", 200),
        ("http://localhost?x".into(), "localhost", 200),
        // The target's host counts.
        ("http://example.org/a%201.mp3".into(), "example.org", 421),
        ("http://example.org/a%201.mp3".into(), "localhost", 400),
        ("http://localhost/a%201.mp3".into(), "example.org", 400),
        ("http://localhost/a%201.mp3".into(), "127.0.0.1", 400),
        ("http://localhost:1/a%201.mp3".into(), "localhost:2", 400),
        // RFC 9110, section 4.2.4: an address with a user in it is refused.
        ("http://me@localhost/a%201.mp3".into(), "localhost", 400),
        // RFC 9110, section 7.4: another scheme is not what is served here.
        ("https://localhost/a%201.mp3".into(), "localhost", 421),
        ("ftp://localhost/a%201.mp3".into(), "localhost", 421),
    ] {
        let first = format!("GET {target} HTTP/1.1");
        let host = format!("Host: {host}");
        assert_eq!(
            status(&shared, &first, &[&host]),
            expected,
            "{first} {host}"
        );
    }
    let first = "GET http://localhost/a%201.mp3 HTTP/1.1";
    assert_eq!(status(&shared, first, &[]), 400, "Host is still required");
    // In HTTP/1.0 Host may be absent, and the target's host counts.
    for (host, expected) in [("localhost", 200), ("example.org", 421)] {
        let first = format!("GET http://{host}/ HTTP/1.0");
        assert_eq!(status(&shared, &first, &[]), expected, "{first}");
    }
}

/// RFC 9112, sections 3.2.3 and 3.2.4: the other two forms are for CONNECT and OPTIONS alone.
#[test]
fn a_file_is_asked_for_by_a_path() {
    let shared = Shared::new();
    for target in ["*", "localhost:80", "localhost", "a%201.mp3"] {
        let first = format!("GET {target} HTTP/1.1");
        assert_eq!(
            status(&shared, &first, &["Host: localhost"]),
            400,
            "{first}"
        );
    }
}
