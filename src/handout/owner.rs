//! The owner of a player's folder. A folder keeps its owner when the class list changes.

use crate::render::RenderFailure;
use crate::render::files::{self, folder::OWN};
use crate::render::reading;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Name of the record among leadpipe's own files in the folder.
const NAME: &str = "player";

/// The most bytes of a record that are read.
const LONGEST: u64 = 4096;

/// The recorded owner of the folder.
pub fn of(folder: &Path) -> Option<String> {
    let bytes = reading::found(&place(folder), LONGEST).ok()?;
    let name = String::from_utf8(bytes).ok()?;
    Some(name.trim_end_matches('\n').to_owned())
}

/// Records this player as the owner of the folder.
///
/// # Errors
/// If the record cannot be written.
pub fn record(folder: &Path, player: &str) -> Result<(), RenderFailure> {
    let path = place(folder);
    let put = || -> io::Result<()> {
        fs::create_dir_all(folder.join(OWN))?;
        files::write(&path, format!("{player}\n").as_bytes())?;
        Ok(())
    };
    put().map_err(RenderFailure::at(&path))
}

/// The folders in `out` that have an owner: the folder's name and the owner's.
pub fn folders(out: &Path) -> Vec<(String, String)> {
    let Ok(entries) = fs::read_dir(out) else {
        return vec![];
    };
    let owned = entries.flatten().filter_map(|entry| {
        let name = entry.file_name().into_string().ok()?;
        let player = of(&entry.path())?;
        Some((name, player))
    });
    let mut owned: Vec<(String, String)> = owned.collect();
    owned.sort();
    owned
}

fn place(folder: &Path) -> PathBuf {
    folder.join(OWN).join(NAME)
}
