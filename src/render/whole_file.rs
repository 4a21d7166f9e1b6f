//! A small file, written whole or not at all.

use super::cut_short;
use super::growing::Growing;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// Writes a file under a passing name and then gives it its own; permissions stay as they were.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    cut_short::clear(folder);
    let permissions = fs::metadata(path).ok().map(|m| m.permissions());
    let mut file = Growing::begin(folder, Vec::new())?;
    file.sink().write_all(bytes)?;
    file.complete(b"")?;
    file.finish(path)?;
    if let Some(permissions) = permissions {
        fs::set_permissions(path, permissions)?;
    }
    Ok(())
}
