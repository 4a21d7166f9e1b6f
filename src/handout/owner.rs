//! Whose a player's folder is, so that it stays that player's whoever joins the class.

use crate::render::RenderFailure;
use crate::render::files::{self, folder::OWN};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Its name among what leadpipe keeps for itself in the folder.
const NAME: &str = "player";

/// Bytes of the longest nickname that is read.
const LONGEST: u64 = 4096;

/// The player whose folder it is, where that is recorded.
pub fn of(folder: &Path) -> Option<String> {
    let path = place(folder);
    let small = fs::metadata(&path).is_ok_and(|m| m.is_file() && m.len() <= LONGEST);
    let name = small.then(|| fs::read_to_string(&path).ok())??;
    Some(name.trim_end_matches('\n').to_owned())
}

/// Records that the folder is this player's.
///
/// # Errors
/// Where the system refuses.
pub fn record(folder: &Path, player: &str) -> Result<(), RenderFailure> {
    let path = place(folder);
    let put = || -> io::Result<()> {
        fs::create_dir_all(folder.join(OWN))?;
        files::write(&path, format!("{player}\n").as_bytes())?;
        Ok(())
    };
    put().map_err(RenderFailure::at(&path))
}

/// The folders in `out` that are somebody's: their names, and whose they are.
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
