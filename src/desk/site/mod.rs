//! The desk with the files of a folder: what a browser on this computer gets from `leadpipe desk FOLDER`.
//!
//! Three things keep others out. The server listens on the loopback address alone; its address holds a secret, which pages
//! elsewhere cannot guess; and a request must name this server as its host and, if it comes from a page, as that page's
//! origin, so that neither a foreign page nor a foreign name for this computer gets anywhere.

mod answers;
mod body;
mod files;
mod guard;
mod secret;

pub use secret::secret;

use crate::handout::share::{Answer, Folder, Readers, Site};
use answers::{data, page, plain};
use files::Files;
use guard::Guard;
use hyper::body::{Bytes, Incoming};
use hyper::{Method, Request, Response, StatusCode};
use serde::Deserialize;
use std::net::SocketAddr;
use std::sync::Arc;

/// The desk and the files of a folder.
pub struct DeskSite {
    guard: Guard,
    files: Files,
    html: Bytes,
}

/// A text to be written in the place of another; `before` is `None` for a new file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Save {
    before: Option<String>,
    text: String,
}

impl DeskSite {
    /// Serves `html` and the routines in `folder` to those who know `secret`, at `address`.
    pub fn new(folder: Folder, address: SocketAddr, secret: &str, html: String) -> Self {
        Self {
            guard: Guard::new(address, secret),
            files: Files::new(folder),
            html: html.into(),
        }
    }

    async fn route(&self, request: Request<Incoming>, readers: &Arc<Readers>) -> Response<Answer> {
        let rest = match self.guard.admits(&request) {
            Ok(rest) => rest,
            Err(refused) => return plain(refused.status(), refused.words()),
        };
        let files = self.files.clone();
        let method = request.method().clone();
        let answered = match (method, rest.as_str()) {
            (Method::GET | Method::HEAD, "/") => return page(self.html.clone()),
            (Method::GET, "/files") => readers.run(move || data(&files.list())).await,
            (Method::GET, path) if path.starts_with("/file/") => {
                let path = path["/file".len()..].to_owned();
                readers.run(move || files.read(&path).answer()).await
            }
            (Method::PUT, path) if path.starts_with("/file/") => {
                let path = path["/file".len()..].to_owned();
                let Some(body) = body::whole(request.into_body()).await else {
                    return plain(
                        StatusCode::PAYLOAD_TOO_LARGE,
                        "That is too large for a routine.",
                    );
                };
                let Ok(Save { before, text }) = serde_json::from_slice(&body) else {
                    return plain(StatusCode::BAD_REQUEST, "That is not understood.");
                };
                let write = move || files.write(&path, before.as_deref(), &text).answer();
                readers.run(write).await
            }
            (Method::GET | Method::HEAD, _) => {
                return plain(StatusCode::NOT_FOUND, "There is nothing of that name here.");
            }
            _ => return plain(StatusCode::METHOD_NOT_ALLOWED, "That cannot be done here."),
        };
        answered.unwrap_or_else(|_| {
            plain(
                StatusCode::INTERNAL_SERVER_ERROR,
                "That went wrong here; the file is as it was.",
            )
        })
    }
}

impl Site for DeskSite {
    async fn answer(&self, request: Request<Incoming>, readers: &Arc<Readers>) -> Response<Answer> {
        let head = request.method() == Method::HEAD;
        let mut response = self.route(request, readers).await;
        answers::always(&mut response);
        if head {
            *response.body_mut() = Answer::nothing();
        }
        response
    }
}
