//! Who is let in.

use hyper::header::{self, HeaderName};
use hyper::{HeaderMap, Method, Request, StatusCode};
use std::net::SocketAddr;

/// Says where a request comes from (W3C, Fetch Metadata); browsers set it, and no page can.
const FROM: HeaderName = HeaderName::from_static("sec-fetch-site");

/// Knows the names and the secret of a desk.
pub struct Guard {
    /// The hosts that a request may name.
    hosts: [String; 2],
    secret: String,
}

/// Why somebody is not let in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// The request is for another host.
    Elsewhere,
    /// It comes from another page.
    Foreign,
    /// It does not know the secret.
    Unknown,
}

impl Refused {
    pub fn status(self) -> StatusCode {
        match self {
            Refused::Elsewhere => StatusCode::MISDIRECTED_REQUEST,
            Refused::Foreign => StatusCode::FORBIDDEN,
            Refused::Unknown => StatusCode::NOT_FOUND,
        }
    }

    pub fn words(self) -> &'static str {
        match self {
            Refused::Foreign => "Only the desk itself may ask this.",
            _ => "Open the desk by the address that leadpipe shows.",
        }
    }
}

impl Guard {
    pub fn new(address: SocketAddr, secret: &str) -> Self {
        let port = address.port();
        Self {
            hosts: [format!("127.0.0.1:{port}"), format!("localhost:{port}")],
            secret: secret.to_owned(),
        }
    }

    /// The path after the secret.
    pub fn admits<B>(&self, request: &Request<B>) -> Result<String, Refused> {
        let fields = request.headers();
        let host = only(fields, &header::HOST).ok_or(Refused::Elsewhere)?;
        let named = request.uri().authority().map(|a| a.as_str());
        if !self.hosts.iter().any(|own| own.eq_ignore_ascii_case(host))
            || named.is_some_and(|named| named != host)
        {
            return Err(Refused::Elsewhere);
        }
        let writes = !matches!(*request.method(), Method::GET | Method::HEAD);
        match only(fields, &header::ORIGIN) {
            Some(origin) if origin.eq_ignore_ascii_case(&format!("http://{host}")) => {}
            Some(_) => return Err(Refused::Foreign),
            // A browser names the origin of everything that writes.
            None if writes || fields.contains_key(header::ORIGIN) => return Err(Refused::Foreign),
            None => {}
        }
        match only(fields, &FROM) {
            None if fields.contains_key(&FROM) => return Err(Refused::Foreign),
            None | Some("same-origin" | "none") => {}
            // A link elsewhere may open the page, if it knows the way; it learns nothing by that.
            Some(_) => return Err(Refused::Foreign),
        }
        let path = request.uri().path();
        let rest = path
            .strip_prefix('/')
            .and_then(|path| path.split_at_checked(self.secret.len()))
            .filter(|(secret, _)| same(secret, &self.secret));
        match rest {
            Some((_, rest)) if rest.starts_with('/') => Ok(rest.to_owned()),
            _ => Err(Refused::Unknown),
        }
    }
}

/// The value of a field that stands there once.
fn only<'h>(fields: &'h HeaderMap, name: &HeaderName) -> Option<&'h str> {
    let mut values = fields.get_all(name).iter();
    match (values.next(), values.next()) {
        (Some(value), None) => value.to_str().ok(),
        _ => None,
    }
}

/// Compares without telling by its time how much is right.
fn same(one: &str, other: &str) -> bool {
    one.len() == other.len()
        && one
            .bytes()
            .zip(other.bytes())
            .fold(0, |d, (a, b)| d | (a ^ b))
            == 0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn admits(method: &str, path: &str, fields: &[(&str, &str)]) -> Result<String, Refused> {
        let guard = Guard::new("127.0.0.1:8080".parse().unwrap(), "s3cret");
        let mut request = Request::builder().method(method).uri(path);
        for (name, value) in fields {
            request = request.header(*name, *value);
        }
        guard.admits(&request.body(()).unwrap())
    }

    const HOST: (&str, &str) = ("host", "127.0.0.1:8080");
    const OWN: (&str, &str) = ("origin", "http://127.0.0.1:8080");

    #[test]
    fn the_page_itself_is_let_in() {
        assert_eq!(admits("GET", "/s3cret/", &[HOST]), Ok("/".to_owned()));
        let site = ("sec-fetch-site", "same-origin");
        assert_eq!(
            admits("PUT", "/s3cret/file/a.toml", &[HOST, OWN, site]),
            Ok("/file/a.toml".to_owned())
        );
        let local = [
            ("host", "LocalHost:8080"),
            ("origin", "http://localhost:8080"),
        ];
        assert!(admits("PUT", "/s3cret/file/a.toml", &local).is_ok());
    }

    #[test]
    fn others_are_not() {
        use Refused::{Elsewhere, Foreign, Unknown};
        let evil = ("origin", "http://evil.example");
        for (method, path, fields, refused) in [
            ("GET", "/s3cret/", vec![], Elsewhere),
            (
                "GET",
                "/s3cret/",
                vec![("host", "evil.example:8080")],
                Elsewhere,
            ),
            ("GET", "/s3cret/", vec![("host", "127.0.0.1")], Elsewhere),
            ("GET", "/s3cret/", vec![HOST, HOST], Elsewhere),
            ("GET", "http://evil.example/s3cret/", vec![HOST], Elsewhere),
            ("GET", "/s3cret/", vec![HOST, evil], Foreign),
            (
                "GET",
                "/s3cret/files",
                vec![HOST, ("origin", "null")],
                Foreign,
            ),
            ("GET", "/s3cret/files", vec![HOST, OWN, evil], Foreign),
            ("PUT", "/s3cret/file/a.toml", vec![HOST], Foreign),
            ("PUT", "/s3cret/file/a.toml", vec![HOST, evil], Foreign),
            (
                "GET",
                "/s3cret/",
                vec![HOST, ("sec-fetch-site", "cross-site")],
                Foreign,
            ),
            (
                "GET",
                "/s3cret/",
                vec![HOST, ("sec-fetch-site", "same-site")],
                Foreign,
            ),
            ("GET", "/", vec![HOST], Unknown),
            ("GET", "/s3cres/", vec![HOST], Unknown),
            ("GET", "/s3cret", vec![HOST], Unknown),
            ("GET", "/s3cretfiles", vec![HOST], Unknown),
            ("GET", "/%73%33cret/", vec![HOST], Unknown),
        ] {
            assert_eq!(
                admits(method, path, &fields),
                Err(refused),
                "{method} {path} {fields:?}"
            );
        }
    }
}
