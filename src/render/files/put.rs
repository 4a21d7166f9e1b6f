//! Writes a small file atomically, and only if its content changes.

use super::growing::Growing;
use super::passing;
use crate::render::failure::RenderFailure;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// What was done to put a file in place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Put {
    /// It was written.
    Written,
    /// Nothing: the file exists with these bytes and keeps its time stamp.
    Same,
}

/// Writes a file into a folder, replacing any file of this name.
///
/// # Errors
/// If the system reports an error, or a folder has the name.
pub fn put(folder: &Path, name: &str, bytes: &[u8]) -> Result<Put, RenderFailure> {
    put_over(folder, name, bytes, |_| true)
}

/// Writes a file into a folder, replacing a file of this name only if `ours` recognises its bytes.
///
/// # Errors
/// If the system reports an error, or a foreign file or a folder has the name.
pub fn put_over(
    folder: &Path,
    name: &str,
    bytes: &[u8],
    ours: impl FnOnce(&[u8]) -> bool,
) -> Result<Put, RenderFailure> {
    let path = folder.join(name);
    match fs::read(&path) {
        Ok(there) if there == bytes => return Ok(Put::Same),
        Ok(there) if !ours(&there) => return Err(RenderFailure::NotOurs(path)),
        Err(_) if path.is_dir() => return Err(RenderFailure::FolderInTheWay(path)),
        _ => {}
    }
    let written = replace(folder, &path, bytes);
    written.map_err(RenderFailure::at(&path))?;
    Ok(Put::Written)
}

/// Writes a file, replacing any existing one, in a folder that was not prepared.
///
/// # Errors
/// If the system reports an error.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<Put> {
    if fs::read(path).is_ok_and(|there| there == bytes) {
        return Ok(Put::Same);
    }
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    passing::clear(folder);
    replace(folder, path, bytes)?;
    Ok(Put::Written)
}

/// Writes a file anew, keeping its permissions.
fn replace(folder: &Path, path: &Path, bytes: &[u8]) -> io::Result<()> {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_written_where_it_is_not_there_as_it_should_be() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        let put = |bytes: &[u8]| put(folder.path(), "a.txt", bytes).unwrap();
        assert_eq!(put(b"one"), Put::Written);
        let written = fs::metadata(&path).unwrap().modified().unwrap();
        assert_eq!(put(b"one"), Put::Same);
        assert_eq!(fs::metadata(&path).unwrap().modified().unwrap(), written);
        assert_eq!(put(b"two"), Put::Written);
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(write(&path, b"two").unwrap(), Put::Same);
        assert_eq!(write(&path, b"three").unwrap(), Put::Written);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn what_is_not_ours_stays() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("a.txt"), "theirs").unwrap();
        fs::create_dir(folder.path().join("b.txt")).unwrap();
        let ours = |there: &[u8]| there.starts_with(b"ours");
        let put = |name, bytes: &[u8]| put_over(folder.path(), name, bytes, ours);
        let said = put("a.txt", b"ours").unwrap_err();
        assert!(matches!(said, RenderFailure::NotOurs(_)), "{said}");
        assert_eq!(fs::read(folder.path().join("a.txt")).unwrap(), b"theirs");
        let said = put("b.txt", b"ours").unwrap_err();
        assert!(matches!(said, RenderFailure::FolderInTheWay(_)), "{said}");
        assert_eq!(put("c.txt", b"ours, 1").unwrap(), Put::Written);
        assert_eq!(put("c.txt", b"ours, 2").unwrap(), Put::Written);
    }

    #[cfg(unix)]
    #[test]
    fn who_may_read_a_file_stays() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        fs::write(&path, "one").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
        put(folder.path(), "a.txt", b"two").unwrap();
        let mode = fs::metadata(&path).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
}
