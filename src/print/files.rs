//! Pages into a folder: each file whole or not at all.

use crate::render::growing::Growing;
use crate::render::{RenderFailure, cut_short};
use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Makes the folder where there is none, and clears away what killed runs left in it.
///
/// # Errors
/// Where it cannot be made, or is a file.
pub fn prepare(folder: &Path) -> Result<(), RenderFailure> {
    fs::create_dir_all(folder).map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists | ErrorKind::NotADirectory => {
            let file = folder.ancestors().find(|part| part.is_file());
            RenderFailure::NotAFolder(file.unwrap_or(folder).to_owned())
        }
        _ => RenderFailure::at(folder)(error),
    })?;
    cut_short::clear(folder);
    Ok(())
}

/// Puts a file into a folder, in place of any that has its name, and says where it is.
///
/// # Errors
/// Where the system refuses, or a folder has the name.
pub fn put(folder: &Path, name: &str, content: &[u8]) -> Result<PathBuf, RenderFailure> {
    let path = folder.join(name);
    if path.is_dir() {
        return Err(RenderFailure::FolderInTheWay(path));
    }
    let write = || -> io::Result<()> {
        let mut growing = Growing::begin(folder, vec![])?;
        growing.sink().write_all(content)?;
        growing.complete(&[])?;
        growing.finish(&path)?;
        Ok(())
    };
    write().map_err(RenderFailure::at(&path))?;
    Ok(path)
}
