//! What the files of a handout were made from, so that a second run need not make them again to find them the same.
//!
//! The record in leadpipe's own folder holds a hash of all that decides the files, the program among it, and what each file
//! looked like when it was in place. Files are known to be unchanged only if all of that is as it was; in any other case
//! they are made again and compared, byte by byte.

use crate::render::RenderFailure;
use crate::render::files::{self, OWN, look};
use crate::render::reading;
use blake3::{Hash, Hasher};
use std::fmt::{self, Debug, Write};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// Name of the record among leadpipe's own files in the folder.
const NAME: &str = "handout";

/// The longest record that is read, in bytes.
const LONGEST: u64 = 64 * 1024;

/// The hash of the running program; `None` where it cannot be read.
static PROGRAM: LazyLock<Option<String>> = LazyLock::new(|| {
    // Under Linux that is what runs, even if another build has taken its place since.
    let running = Path::new("/proc/self/exe");
    let program = match running.exists() {
        true => running.to_owned(),
        false => std::env::current_exe().ok()?,
    };
    look::hash_of(&program, &|| true).ok()
});

/// What files are made from. Two are equal only if all of it is.
pub struct MadeFrom(Hasher);

impl MadeFrom {
    /// Made by this program from what is added; `None` if it is not known which program this is.
    pub fn this_program() -> Option<Self> {
        let mut made_from = Self(Hasher::new());
        made_from.add(PROGRAM.as_ref()?);
        Some(made_from)
    }

    /// Adds something that decides the files. Its `Debug` form tells every field, and where each ends.
    pub fn add(&mut self, what: &impl Debug) {
        let written = write!(self, "{what:?},");
        written.expect("a hash takes any text");
    }

    /// The hash of it all.
    pub fn hash(&self) -> Hash {
        self.0.finalize()
    }
}

impl Write for MadeFrom {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.0.update(text.as_bytes());
        Ok(())
    }
}

/// The names of the files in `folder`, if it is known that they were made from this and that nobody has changed them.
pub fn unchanged(folder: &Path, made_from: &Hash) -> Option<Vec<String>> {
    let bytes = reading::found(&place(folder), LONGEST).ok()?;
    let text = String::from_utf8(bytes).ok()?;
    let mut rows = text.lines();
    let same = rows.next()? == made_from.to_hex().as_str();
    let rows: Vec<&str> = rows.collect();
    let names = rows.iter().map(|row| row.splitn(3, ' ').nth(2));
    let names: Vec<&str> = names.collect::<Option<_>>()?;
    let unchanged = names
        .iter()
        .zip(&rows)
        .all(|(name, said)| row(folder, name).is_some_and(|row| row == *said));
    (same && unchanged).then(|| names.into_iter().map(str::to_owned).collect())
}

/// Records that the files with these names in `folder` were made from this. What cannot be recorded is made again.
///
/// # Errors
/// If the record cannot be written.
pub fn note<'n>(
    folder: &Path,
    made_from: &Hash,
    names: impl Iterator<Item = &'n str>,
) -> Result<(), RenderFailure> {
    let rows: Option<Vec<String>> = names.map(|name| row(folder, name)).collect();
    let Some(rows) = rows else {
        return Ok(());
    };
    let text = format!("{}\n{}\n", made_from.to_hex(), rows.join("\n"));
    let path = place(folder);
    let put = files::put_record(&path, text.as_bytes());
    put.map(drop).map_err(RenderFailure::at(&path))
}

/// Length, time and name of a file; `None` if it is no plain file or the system does not know its time.
fn row(folder: &Path, name: &str) -> Option<String> {
    let metadata = fs::symlink_metadata(folder.join(name)).ok()?;
    let (bytes, modified_ns) = look::size_and_time(&metadata);
    (metadata.is_file() && modified_ns > 0).then(|| format!("{bytes} {modified_ns} {name}"))
}

fn place(folder: &Path) -> PathBuf {
    folder.join(OWN).join(NAME)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::OpenOptions;
    use std::time::{Duration, SystemTime};

    fn hash(what: &str) -> Hash {
        let mut made_from = MadeFrom::this_program().unwrap();
        made_from.add(&what);
        made_from.hash()
    }

    #[test]
    fn files_are_unchanged_only_if_all_is_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let known = |what: &str| unchanged(folder.path(), &hash(what)).is_some();
        assert!(!known("a"));
        let path = folder.path().join("a b.txt");
        fs::write(&path, "one").unwrap();
        fs::write(folder.path().join("c"), "").unwrap();
        let note = || note(folder.path(), &hash("a"), ["a b.txt", "c"].into_iter()).unwrap();
        note();
        let names = unchanged(folder.path(), &hash("a")).unwrap();
        assert_eq!(names, ["a b.txt", "c"]);
        assert!(!known("b"), "made from something else");
        // Changed with its length kept.
        fs::write(&path, "two").unwrap();
        let file = OpenOptions::new().append(true).open(&path).unwrap();
        let later = SystemTime::now() + Duration::from_secs(3);
        file.set_modified(later).unwrap();
        assert!(!known("a"), "changed");
        note();
        assert!(known("a"));
        fs::remove_file(&path).unwrap();
        assert!(!known("a"), "gone");
        note();
        assert!(!known("a"), "what is not there is not recorded");
        fs::write(place(folder.path()), format!("{}\n1\n", hash("a").to_hex())).unwrap();
        assert!(!known("a"), "a record that is not understood");
    }

    #[test]
    fn what_stands_side_by_side_is_told_apart() {
        let hash = |parts: &[&str]| {
            let mut made_from = MadeFrom::this_program().unwrap();
            parts.iter().for_each(|part| made_from.add(part));
            made_from.hash()
        };
        assert_ne!(hash(&["a", "b"]), hash(&["ab"]));
        assert_ne!(hash(&["a", "b"]), hash(&["a\", \"b"]));
        assert_eq!(hash(&["a", "b"]), hash(&["a", "b"]));
    }
}
