//! The routines of a folder: listed, read and written. Nothing outside the folder is.

use super::answers::{data, plain, said};
use crate::handout::share::{Answer, Folder, Found};
use crate::render::failure::system_words;
use crate::render::files::kept::{self, NotReplaced};
use crate::render::reading;
use crate::routine::bounds::LARGEST_FILE;
use hyper::{Response, StatusCode};
use serde::Serialize;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

/// The most files that are listed.
const MOST: usize = 1000;
/// How deep folders are looked into.
const DEPTH: usize = 4;

/// The files of a folder.
#[derive(Clone)]
pub struct Files {
    folder: Folder,
}

/// A file in the list.
#[derive(Serialize)]
pub struct Listed {
    /// Its path below the folder, with slashes.
    name: String,
    bytes: u64,
    /// Milliseconds since 1970.
    changed: u64,
}

/// What reading or writing came to.
pub enum Done {
    /// The text of a file.
    Text(String),
    /// It is written.
    Written,
    /// The file holds another text than the one that was changed; `None` if it is gone, or is no text.
    Changed(Option<String>),
    /// There is no such file that may be touched.
    Nothing,
    /// It failed, in words.
    Failed(String),
}

impl Done {
    /// As an answer.
    pub fn answer(&self) -> Response<Answer> {
        #[derive(Serialize)]
        struct Said<'a> {
            ok: bool,
            #[serde(skip_serializing_if = "Option::is_none")]
            text: Option<&'a str>,
            #[serde(skip_serializing_if = "Option::is_none")]
            message: Option<&'a str>,
        }
        let ok = |text| Said {
            ok: true,
            text,
            message: None,
        };
        match self {
            Done::Text(text) => data(&ok(Some(text))),
            Done::Written => data(&ok(None)),
            Done::Changed(now) => {
                let now = Said {
                    ok: false,
                    text: now.as_deref(),
                    message: None,
                };
                said(StatusCode::CONFLICT, &now)
            }
            Done::Nothing => plain(StatusCode::NOT_FOUND, "There is nothing of that name here."),
            Done::Failed(words) => {
                let failed = Said {
                    ok: false,
                    text: None,
                    message: Some(words),
                };
                said(StatusCode::INTERNAL_SERVER_ERROR, &failed)
            }
        }
    }
}

impl Files {
    pub fn new(folder: Folder) -> Self {
        Self { folder }
    }

    /// The routines and pencils, by name.
    pub fn list(&self) -> Vec<Listed> {
        let mut list = vec![];
        gather(self.folder.root(), "", DEPTH, &mut list);
        list.sort_by(|a, b| a.name.cmp(&b.name));
        list
    }

    /// The text at a path of a request.
    pub fn read(&self, request: &str) -> Done {
        match self.existing(request) {
            Some(path) => match text_of(&path) {
                Ok(text) => Done::Text(text),
                Err(words) => Done::Failed(words),
            },
            None => Done::Nothing,
        }
    }

    /// Writes a text in the place of the one that it was made from.
    pub fn write(&self, request: &str, before: Option<&str>, text: &str) -> Done {
        if text.len() > LARGEST_FILE {
            return Done::Failed("a routine is no larger than 1 MiB".to_owned());
        }
        let path = match (self.existing(request), before) {
            (Some(path), _) => path,
            // It was there when it was read.
            (None, Some(_)) => return Done::Changed(None),
            (None, None) => match self.new_path(request) {
                Some(path) => path,
                None => return Done::Nothing,
            },
        };
        let failed = |error: &io::Error| Done::Failed(system_words(error));
        let _turn = match kept::turn(&path) {
            Ok(turn) => turn,
            Err(error) => return failed(&error),
        };
        match kept::replace(&path, before.map(str::as_bytes), text.as_bytes()) {
            Ok(()) => Done::Written,
            Err(NotReplaced::Changed) => Done::Changed(text_of(&path).ok()),
            Err(NotReplaced::System(error)) => failed(&error),
        }
    }

    fn existing(&self, request: &str) -> Option<PathBuf> {
        match self.folder.find(request) {
            Found::File { path, .. } if is_text(&path) => Some(path),
            _ => None,
        }
    }

    /// The path of a file that is not there yet, in a folder that is.
    fn new_path(&self, request: &str) -> Option<PathBuf> {
        let (folder, name) = request.rsplit_once('/')?;
        let Found::Folder(folder) = self.folder.find(&format!("{folder}/")) else {
            return None;
        };
        let path = folder.join(Folder::plain_name(name)?);
        // A link that leads nowhere would be followed when it is written to.
        let is_new = fs::symlink_metadata(&path).is_err();
        (is_text(&path) && is_new).then_some(path)
    }
}

fn text_of(path: &Path) -> Result<String, String> {
    let bytes = reading::found(path, LARGEST_FILE as u64).map_err(|unread| match unread {
        reading::Unread::TooLarge => "it is larger than any routine".to_owned(),
        reading::Unread::System(error) => system_words(&error),
    })?;
    String::from_utf8(bytes).map_err(|_| "it is not a text in UTF-8".to_owned())
}

fn is_text(path: &Path) -> bool {
    path.extension().is_some_and(|end| end == "toml")
}

/// Adds the files below a folder. Links are not listed, so that none leads around in a circle.
fn gather(folder: &Path, before: &str, depth: usize, list: &mut Vec<Listed>) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let Some(name) = name.to_str().filter(|name| Folder::is_plain(name)) else {
            continue;
        };
        let name = format!("{before}{name}");
        let Ok(kind) = entry.file_type() else {
            continue;
        };
        if list.len() >= MOST {
            return;
        }
        if kind.is_dir() && depth > 1 {
            gather(&entry.path(), &format!("{name}/"), depth - 1, list);
        } else if kind.is_file() && is_text(&entry.path()) {
            let Ok(metadata) = entry.metadata() else {
                continue;
            };
            let changed = metadata.modified().unwrap_or(UNIX_EPOCH);
            let changed = changed.duration_since(UNIX_EPOCH).unwrap_or_default();
            list.push(Listed {
                name,
                bytes: metadata.len(),
                changed: u64::try_from(changed.as_millis()).unwrap_or(u64::MAX),
            });
        }
    }
}
