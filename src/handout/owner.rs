//! The owner of a player's folder. A folder keeps its owner when the class list changes.

use crate::render::RenderFailure;
use crate::render::files::{self, OWN};
use crate::render::reading::{self, Unread};
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Name of the record among leadpipe's own files in the folder.
const NAME: &str = "player";

/// The most bytes of a record that are read.
const LONGEST: u64 = 4096;

/// The recorded owner of the folder.
///
/// # Errors
/// If there is a record that cannot be read: the folder must not be given to somebody else.
pub fn of(folder: &Path) -> Result<Option<String>, RenderFailure> {
    let path = place(folder);
    let name = match reading::found(&path, LONGEST) {
        Ok(bytes) => String::from_utf8(bytes).ok(),
        // No player has such a name.
        Err(Unread::TooLarge) => None,
        Err(Unread::System(error)) if is_absent(&error) => None,
        Err(Unread::System(error)) => return Err(RenderFailure::reading(&path)(error)),
    };
    Ok(name.map(|name| name.trim_end_matches('\n').to_owned()))
}

fn is_absent(error: &io::Error) -> bool {
    matches!(error.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory)
}

/// Records this player as the owner of the folder.
///
/// # Errors
/// If the record cannot be written.
pub fn record(folder: &Path, player: &str) -> Result<(), RenderFailure> {
    let path = place(folder);
    let put = files::put_record(&path, format!("{player}\n").as_bytes());
    put.map(drop).map_err(RenderFailure::at(&path))
}

/// The folders in `out` that have an owner: the folder's name and the owner's.
///
/// # Errors
/// If `out` or a record in it cannot be read.
pub fn folders(out: &Path) -> Result<Vec<(String, String)>, RenderFailure> {
    let entries = match fs::read_dir(out) {
        Err(error) if is_absent(&error) => return Ok(vec![]),
        entries => entries.map_err(RenderFailure::reading(out))?,
    };
    let mut owned = vec![];
    for entry in entries {
        let entry = entry.map_err(RenderFailure::reading(out))?;
        let Ok(name) = entry.file_name().into_string() else {
            continue;
        };
        if let Some(player) = of(&entry.path())? {
            owned.push((name, player));
        }
    }
    owned.sort();
    Ok(owned)
}

fn place(folder: &Path) -> PathBuf {
    folder.join(OWN).join(NAME)
}
