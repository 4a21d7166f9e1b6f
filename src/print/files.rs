//! Pages into a folder: each file whole or not at all.

use crate::render::RenderFailure;
use crate::render::growing::Growing;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

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
