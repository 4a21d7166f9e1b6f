//! Answers a request (RFC 9110).

use super::body::{Answer, BodyPiece, Source};
use super::folder::{Folder, Found};
use super::range::{self, RequestedRange};
use super::readers::Readers;
use super::{host, kind, listing, packed};
use crate::handout::page;
use host::Misaddressed;
use hyper::body::Incoming;
use hyper::header::{self, HeaderName, HeaderValue};
use hyper::{Method, Request, Response, StatusCode};
use std::fs::{File, Metadata};
use std::path::Path;
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

/// The boundary between the parts of a multipart response: at most 70 characters, and in none of our files.
const BOUNDARY: &str = "leadpipe-6f1d0c52b7a94e3d";

/// Header fields of every response: no guessing of media types, no content from other servers, no frames, no referrer.
const ALWAYS: [(HeaderName, &str); 6] = [
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'self' 'unsafe-inline' 'wasm-unsafe-eval' data: blob:; base-uri 'none'; form-action 'none'; \
         frame-ancestors 'none'; object-src 'none'",
    ),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "no-referrer"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
    // A cached file is revalidated before use, because a handout may be written again.
    (header::CACHE_CONTROL, "no-cache"),
];

/// The response to a request.
pub async fn to(
    request: &Request<Incoming>,
    folder: &Folder,
    readers: &Arc<Readers>,
) -> Response<Answer> {
    let mut response = answer(request, folder, readers).await;
    let head = request.method() == Method::HEAD;
    let length = response.body().length();
    let fields = response.headers_mut();
    for (name, value) in ALWAYS {
        fields.insert(name, HeaderValue::from_static(value));
    }
    if head {
        // The length of the body, but no body.
        fields.insert(header::CONTENT_LENGTH, length.into());
        *response.body_mut() = Answer::nothing();
    }
    response
}

async fn answer(
    request: &Request<Incoming>,
    folder: &Folder,
    readers: &Arc<Readers>,
) -> Response<Answer> {
    let host = match host::of_fields(request.headers(), request.version()) {
        Ok(host) => host,
        Err(why) => return misaddressed(why),
    };
    if !matches!(*request.method(), Method::GET | Method::HEAD) {
        let mut response = words(
            StatusCode::METHOD_NOT_ALLOWED,
            "This folder can be read and nothing else.",
        );
        let allowed = HeaderValue::from_static("GET, HEAD");
        response.headers_mut().insert(header::ALLOW, allowed);
        return response;
    }
    let path = match host::path(request.uri(), host.as_ref()) {
        Ok(path) => path,
        Err(why) => return misaddressed(why),
    };
    // Looking for a file may block.
    let search = {
        let folder = folder.clone();
        let path = path.clone();
        move || look(&folder, &path)
    };
    let Ok(found) = readers.run(search).await else {
        return words(StatusCode::INTERNAL_SERVER_ERROR, "That went wrong here.");
    };
    match found {
        Looked::File(path, file, metadata) => {
            let source = Source {
                file: Arc::new(file),
                readers: Arc::clone(readers),
            };
            of_file(request, &path, source, &metadata).await
        }
        Looked::Page(html) => {
            let mut response = Response::new(Answer::words(html));
            let kind = HeaderValue::from_static("text/html; charset=utf-8");
            response.headers_mut().insert(header::CONTENT_TYPE, kind);
            response
        }
        Looked::WithSlash => {
            let mut response = words(StatusCode::PERMANENT_REDIRECT, "It is a folder.");
            // A relative address, so that it cannot lead to another server: the last name and a slash.
            let last = path.rsplit('/').next().unwrap_or_default();
            if let Ok(place) = HeaderValue::from_str(&format!("./{last}/")) {
                response.headers_mut().insert(header::LOCATION, place);
            }
            response
        }
        Looked::Nothing => words(StatusCode::NOT_FOUND, "There is nothing of that name here."),
    }
}

fn misaddressed(why: Misaddressed) -> Response<Answer> {
    match why {
        Misaddressed::Invalid(why) => words(StatusCode::BAD_REQUEST, why),
        Misaddressed::Elsewhere => words(
            StatusCode::MISDIRECTED_REQUEST,
            "Open this by the address that leadpipe shows.",
        ),
    }
}

enum Looked {
    File(std::path::PathBuf, File, Metadata),
    Page(String),
    WithSlash,
    Nothing,
}

fn look(folder: &Folder, path: &str) -> Looked {
    match folder.find(path) {
        Found::File {
            path,
            file,
            metadata,
        } => Looked::File(path, file, metadata),
        Found::Folder(at) => match folder.find(&format!("{path}{}", page::NAME)) {
            Found::File {
                path,
                file,
                metadata,
            } => Looked::File(path, file, metadata),
            _ => Looked::Page(listing::page(&at, at == folder.root())),
        },
        Found::FolderWithoutSlash => Looked::WithSlash,
        Found::Nothing => Looked::Nothing,
    }
}

async fn of_file(
    request: &Request<Incoming>,
    path: &Path,
    source: Source,
    metadata: &Metadata,
) -> Response<Answer> {
    let length = metadata.len();
    let modified = metadata.modified().unwrap_or(UNIX_EPOCH);
    let pays = packed::pays(kind::of(path), length);
    // Ranges are those of the file as it is.
    let pack = pays
        && !request.headers().contains_key(header::RANGE)
        && packed::accepted(request.headers());
    let tag = tag(length, modified, pack);
    // HTTP dates have whole seconds.
    let date = httpdate::fmt_http_date(modified);
    let mut response = Response::new(Answer::nothing());
    let fields = response.headers_mut();
    fields.insert(header::ACCEPT_RANGES, HeaderValue::from_static("bytes"));
    insert(fields, header::ETAG, &tag);
    insert(fields, header::LAST_MODIFIED, &date);
    if pays {
        fields.insert(header::VARY, HeaderValue::from_static("Accept-Encoding"));
    }
    if is_known(request, &tag, modified) {
        *response.status_mut() = StatusCode::NOT_MODIFIED;
        return response;
    }
    fields.insert(
        header::CONTENT_TYPE,
        HeaderValue::from_static(kind::of(path)),
    );
    if pack {
        let file = Arc::clone(&source.file);
        let packed = source.readers.run(move || packed::pack(&file, length));
        let Ok(Ok(packed)) = packed.await else {
            return words(StatusCode::INTERNAL_SERVER_ERROR, "That went wrong here.");
        };
        fields.insert(header::CONTENT_ENCODING, HeaderValue::from_static("gzip"));
        *response.body_mut() = Answer::words(packed);
        return response;
    }
    match asked(request, &tag, &date, length) {
        RequestedRange::All => {
            let pieces = vec![BodyPiece::FileRange(0, length)];
            *response.body_mut() = Answer::new(pieces, Some(source));
        }
        RequestedRange::Unsatisfiable => return beyond(length),
        RequestedRange::Parts(parts) => in_parts(&mut response, &parts, length, path, source),
    }
    response
}

fn beyond(length: u64) -> Response<Answer> {
    let beyond = format!("bytes */{length}");
    let mut response = words(
        StatusCode::RANGE_NOT_SATISFIABLE,
        "The file is not that long.",
    );
    insert(response.headers_mut(), header::CONTENT_RANGE, &beyond);
    response
}

fn in_parts(
    response: &mut Response<Answer>,
    parts: &[(u64, u64)],
    length: u64,
    path: &Path,
    source: Source,
) {
    *response.status_mut() = StatusCode::PARTIAL_CONTENT;
    if let [(from, to)] = *parts {
        let range = content_range(from, to, length);
        insert(response.headers_mut(), header::CONTENT_RANGE, &range);
        *response.body_mut() = Answer::new(vec![BodyPiece::FileRange(from, to)], Some(source));
    } else {
        let pieces = several(parts, length, kind::of(path));
        *response.body_mut() = Answer::new(pieces, Some(source));
        let kind = format!("multipart/byteranges; boundary={BOUNDARY}");
        insert(response.headers_mut(), header::CONTENT_TYPE, &kind);
    }
}

/// A multipart body (section 14.6): each range with its own header, between boundaries.
fn several(parts: &[(u64, u64)], length: u64, kind: &str) -> Vec<BodyPiece> {
    let mut pieces = vec![];
    for (from, to) in parts {
        let head = format!(
            "\r\n--{BOUNDARY}\r\nContent-Type: {kind}\r\nContent-Range: {}\r\n\r\n",
            content_range(*from, *to, length)
        );
        pieces.push(BodyPiece::Text(head.into()));
        pieces.push(BodyPiece::FileRange(*from, *to));
    }
    pieces.push(BodyPiece::Text(format!("\r\n--{BOUNDARY}--\r\n").into()));
    pieces
}

fn content_range(from: u64, to: u64, length: u64) -> String {
    format!("bytes {from}-{}/{length}", to - 1)
}

/// The requested part of the file: the whole file if it is no longer the one that the client has a part of (section
/// 13.1.5).
fn asked(request: &Request<Incoming>, tag: &str, date: &str, length: u64) -> RequestedRange {
    let fields = request.headers();
    let text = |name: HeaderName| fields.get(name).and_then(|v| v.to_str().ok());
    // Ranges apply only to GET (section 14.2).
    let Some(range) = text(header::RANGE).filter(|_| request.method() == Method::GET) else {
        return RequestedRange::All;
    };
    match fields.get(header::IF_RANGE).map(HeaderValue::to_str) {
        Some(Ok(known)) if known != tag && known != date => RequestedRange::All,
        Some(Err(_)) => RequestedRange::All,
        _ => range::parse(range, length),
    }
}

/// True if the client already has this version of the file (sections 13.1.2 and 13.1.3).
fn is_known(request: &Request<Incoming>, tag: &str, modified: SystemTime) -> bool {
    let fields = request.headers();
    let text = |name: HeaderName| fields.get(name).and_then(|v| v.to_str().ok());
    if fields.contains_key(header::IF_NONE_MATCH) {
        let known = text(header::IF_NONE_MATCH).unwrap_or_default();
        let same = |one: &str| one.trim().trim_start_matches("W/") == tag;
        return known.trim() == "*" || known.split(',').any(same);
    }
    let since =
        text(header::IF_MODIFIED_SINCE).and_then(|date| httpdate::parse_http_date(date).ok());
    // Compared in whole seconds, as in an HTTP date.
    let seconds = |time: SystemTime| time.duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
    since.is_some_and(|since| seconds(modified) <= seconds(since))
}

/// The entity tag. Tracks are replaced as a whole, so length and time identify a version; a packed one is another (section 8.8.3.3).
fn tag(length: u64, modified: SystemTime, packed: bool) -> String {
    let since = modified.duration_since(UNIX_EPOCH).unwrap_or_default();
    let packed = if packed { "-gzip" } else { "" };
    format!("\"{length:x}-{:x}{packed}\"", since.as_nanos())
}

fn insert(fields: &mut hyper::HeaderMap, name: HeaderName, value: &str) {
    if let Ok(value) = HeaderValue::from_str(value) {
        fields.insert(name, value);
    }
}

fn words(status: StatusCode, words: &'static str) -> Response<Answer> {
    let mut response = Response::new(Answer::words(format!("{words}\n")));
    *response.status_mut() = status;
    let kind = HeaderValue::from_static("text/plain; charset=utf-8");
    response.headers_mut().insert(header::CONTENT_TYPE, kind);
    response
}
