//! Who is let in: tests beside the guard go through its cases; here it stands before every path.

use super::*;

#[test]
fn the_page_is_there_for_its_address_alone() {
    let served = Served::new();
    let page = served.get("/");
    assert_eq!(page.status, 200);
    assert!(page.body.contains("<main id=\"desk\">"));
    for field in [
        "no-store",
        "nosniff",
        "no-referrer",
        "frame-ancestors 'none'",
    ] {
        assert!(page.head.contains(field), "{field}: {}", page.head);
    }
    for path in ["/", "/files", &format!("/{}/", "0".repeat(32))] {
        assert_eq!(served.ask("GET", path, &[&served.host()], "").status, 404);
    }
}

#[test]
fn foreign_pages_and_names_are_not_let_in() {
    let served = Served::new();
    let port = served.address.port();
    let evil = format!("Host: evil.example:{port}");
    let (host, origin) = (served.host(), "Origin: http://evil.example".to_owned());
    let body = "{\"before\":null,\"text\":\"x\"}";
    for (method, path) in [
        ("GET", "/"),
        ("GET", "/files"),
        ("GET", "/file/anna.toml"),
        ("PUT", "/file/new.toml"),
    ] {
        let path = format!("/{SECRET}{path}");
        assert_eq!(
            served.ask(method, &path, &[&evil], body).status,
            421,
            "{path}"
        );
        let fields = [host.as_str(), origin.as_str()];
        assert_eq!(
            served.ask(method, &path, &fields, body).status,
            403,
            "{path}"
        );
    }
    // A form of a foreign page writes without an origin only where no browser is.
    let path = format!("/{SECRET}/file/new.toml");
    assert_eq!(served.ask("PUT", &path, &[&host], body).status, 403);
    assert!(!served.path("new.toml").exists());
}

#[test]
fn other_methods_do_nothing() {
    let served = Served::new();
    let path = format!("/{SECRET}/file/anna.toml");
    for method in ["POST", "DELETE", "PATCH"] {
        let fields = [&*served.host(), &*served.origin()];
        assert_eq!(
            served.ask(method, &path, &fields, "").status,
            405,
            "{method}"
        );
    }
    assert!(served.path("anna.toml").exists());
}
