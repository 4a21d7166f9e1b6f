//! The forms of an answer.

use crate::handout::share::Answer;
use hyper::body::Bytes;
use hyper::header::{self, HeaderName, HeaderValue};
use hyper::{Response, StatusCode};
use serde::Serialize;

/// Header fields of every response: nothing is guessed, kept, framed, or told to another server. The page has a policy of its
/// own on top of this one.
const ALWAYS: [(HeaderName, &str); 7] = [
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (
        header::CONTENT_SECURITY_POLICY,
        "frame-ancestors 'none'; base-uri 'none'; form-action 'none'; object-src 'none'",
    ),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::CACHE_CONTROL, "no-store"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
    (
        HeaderName::from_static("cross-origin-opener-policy"),
        "same-origin",
    ),
];

/// Adds what every response has.
pub fn always(response: &mut Response<Answer>) {
    for (name, value) in ALWAYS {
        response
            .headers_mut()
            .insert(name, HeaderValue::from_static(value));
    }
}

/// The page.
pub fn page(html: Bytes) -> Response<Answer> {
    of(StatusCode::OK, "text/html; charset=utf-8", html)
}

/// A few words.
pub fn plain(status: StatusCode, words: &'static str) -> Response<Answer> {
    of(status, "text/plain; charset=utf-8", format!("{words}\n"))
}

/// Data for the page's script.
pub fn data(value: &impl Serialize) -> Response<Answer> {
    said(StatusCode::OK, value)
}

/// The same with another status.
pub fn said(status: StatusCode, value: &impl Serialize) -> Response<Answer> {
    let json = serde_json::to_string(value).expect("texts and numbers can be written");
    of(status, "application/json", json)
}

fn of(status: StatusCode, kind: &'static str, body: impl Into<Bytes>) -> Response<Answer> {
    let mut response = Response::new(Answer::words(body));
    *response.status_mut() = status;
    let kind = HeaderValue::from_static(kind);
    response.headers_mut().insert(header::CONTENT_TYPE, kind);
    response
}
