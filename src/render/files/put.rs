//! Writes a small file atomically, and only if its content changes.

use super::growing::Growing;
use super::look::{Look, size_and_time};
use super::passing;
use super::replace::Replace;
use super::written::{self, Standing};
use crate::render::failure::RenderFailure;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

/// What was done to put a file in place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Put {
    /// It was written.
    Written,
    /// Nothing: the file exists with these bytes and keeps its time stamp.
    Same,
}

/// Writes an output file into a folder.
///
/// # Errors
/// If the system reports an error, a folder has the name, or a file has it that must not be replaced.
pub fn put(
    folder: &Path,
    name: &str,
    bytes: &[u8],
    replace: Replace,
) -> Result<Put, RenderFailure> {
    let path = folder.join(name);
    if holds(&path, bytes).map_err(RenderFailure::reading(&path))? {
        claim(folder, name, bytes).map_err(RenderFailure::at(&path))?;
        return Ok(Put::Same);
    }
    let grown = Growing::whole(folder, &path, bytes).map_err(RenderFailure::at(&path))?;
    grown.finish(&path, replace)?;
    Ok(Put::Written)
}

/// Writes output files into a folder, in this order. If one of them must not be replaced, none is written.
///
/// # Errors
/// As for [`put`], with all files that are in the way.
pub fn put_all<'f>(
    folder: &Path,
    files: impl IntoIterator<Item = (&'f str, &'f [u8])> + Clone,
    replace: Replace,
) -> Result<(), RenderFailure> {
    let mut refused: Option<RenderFailure> = None;
    for (name, bytes) in files.clone() {
        let path = folder.join(name);
        if !holds(&path, bytes).map_err(RenderFailure::reading(&path))?
            && let Err(failure) = replace.allows(folder, name)
        {
            refused = Some(match refused {
                Some(before) => before.and(failure),
                None => failure,
            });
        }
    }
    if let Some(refused) = refused {
        return Err(refused);
    }
    files
        .into_iter()
        .try_for_each(|(name, bytes)| put(folder, name, bytes, replace).map(drop))
}

/// Writes a file of leadpipe's own folder, which nobody else has a use for.
///
/// # Errors
/// If the system reports an error.
pub fn put_record(path: &Path, bytes: &[u8]) -> io::Result<Put> {
    // A record that cannot be read is replaced.
    if holds(path, bytes).unwrap_or(false) {
        return Ok(Put::Same);
    }
    let folder = path.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder)?;
    passing::clear(folder);
    Growing::whole(folder, path, bytes)?.rename(path)?;
    Ok(Put::Written)
}

/// True if the file exists and has these bytes. Nothing else than a file of this length is read.
fn holds(path: &Path, bytes: &[u8]) -> io::Result<bool> {
    match fs::metadata(path) {
        Ok(metadata) if metadata.is_file() && metadata.len() == bytes.len() as u64 => {
            Ok(fs::read(path)? == bytes)
        }
        Ok(_) => Ok(false),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

/// Makes a file that is as leadpipe would write it known as leadpipe's. It loses nothing when it is replaced: it can be
/// made again.
fn claim(folder: &Path, name: &str, bytes: &[u8]) -> io::Result<()> {
    if written::standing(folder, name)? == Standing::Ours {
        return Ok(());
    }
    let (length, modified_ns) = size_and_time(&fs::metadata(folder.join(name))?);
    let look = Look {
        bytes: length,
        modified_ns,
        blake3: blake3::hash(bytes).to_hex().to_string(),
    };
    written::note(folder, name, &look)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> usize {
        fs::read_dir(folder).unwrap().count()
    }

    #[test]
    fn a_file_is_written_where_it_is_not_there_as_it_should_be() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        let put = |bytes: &[u8]| put(folder.path(), "a.txt", bytes, Replace::Own).unwrap();
        assert_eq!(put(b"one"), Put::Written);
        let written = fs::metadata(&path).unwrap().modified().unwrap();
        assert_eq!(put(b"one"), Put::Same);
        assert_eq!(fs::metadata(&path).unwrap().modified().unwrap(), written);
        assert_eq!(put(b"two"), Put::Written);
        assert_eq!(fs::read(&path).unwrap(), b"two");
        // The file, and leadpipe's own folder.
        assert_eq!(names(folder.path()), 2);
    }

    #[test]
    fn what_is_not_ours_stays_unless_it_is_to_be_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        fs::write(&path, "theirs").unwrap();
        fs::create_dir(folder.path().join("b.txt")).unwrap();
        let put = |name, bytes: &[u8], replace| put(folder.path(), name, bytes, replace);
        let said = put("a.txt", b"ours", Replace::Own).unwrap_err();
        assert!(matches!(said, RenderFailure::InTheWay(_)), "{said}");
        assert!(
            said.to_string()
                .contains("a.txt was not written by leadpipe"),
            "{said}"
        );
        assert_eq!(fs::read(&path).unwrap(), b"theirs");
        for replace in [Replace::Own, Replace::Any] {
            let said = put("b.txt", b"ours", replace).unwrap_err();
            assert!(matches!(said, RenderFailure::FolderInTheWay(_)), "{said}");
        }
        assert_eq!(put("a.txt", b"ours", Replace::Any).unwrap(), Put::Written);
        assert_eq!(
            put("a.txt", b"ours, again", Replace::Own).unwrap(),
            Put::Written
        );
        fs::write(&path, "ours, and theirs").unwrap();
        let said = put("a.txt", b"ours", Replace::Own).unwrap_err();
        assert!(
            said.to_string()
                .contains("was changed after leadpipe wrote it"),
            "{said}"
        );
        assert_eq!(fs::read(&path).unwrap(), b"ours, and theirs");
        assert_eq!(names(folder.path()), 3);
    }

    #[test]
    fn of_files_that_belong_together_all_are_written_or_none() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["b", "d"] {
            fs::write(folder.path().join(name), "mine").unwrap();
        }
        let files = ["a", "b", "c", "d"].map(|name| (name, &b"ours"[..]));
        let refused = put_all(folder.path(), files, Replace::Own).unwrap_err();
        let RenderFailure::InTheWay(refused) = refused else {
            panic!("{refused}");
        };
        let refused: Vec<_> = refused.iter().map(|file| file.path.file_name()).collect();
        assert_eq!(refused, [Some("b".as_ref()), Some("d".as_ref())]);
        assert_eq!(names(folder.path()), 2);
        put_all(folder.path(), files, Replace::Any).unwrap();
        assert_eq!(fs::read(folder.path().join("d")).unwrap(), b"ours");
    }

    #[test]
    fn a_file_with_the_bytes_that_would_be_written_becomes_ours() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("a.txt"), "one").unwrap();
        let put = |bytes: &[u8]| put(folder.path(), "a.txt", bytes, Replace::Own).unwrap();
        assert_eq!(put(b"one"), Put::Same);
        assert_eq!(put(b"two"), Put::Written);
    }

    #[test]
    fn a_record_is_replaced_whatever_it_holds() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join(".own/a.json");
        assert_eq!(put_record(&path, b"one").unwrap(), Put::Written);
        fs::write(&path, "damaged").unwrap();
        assert_eq!(put_record(&path, b"one").unwrap(), Put::Written);
        assert_eq!(put_record(&path, b"one").unwrap(), Put::Same);
        assert_eq!(names(&folder.path().join(".own")), 1);
    }

    #[cfg(unix)]
    #[test]
    fn who_may_read_a_file_stays() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        put(folder.path(), "a.txt", b"one", Replace::Own).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
        put(folder.path(), "a.txt", b"two", Replace::Own).unwrap();
        let mode = fs::metadata(&path).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
}
