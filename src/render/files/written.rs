//! Which files in a folder leadpipe wrote, and what they looked like then.
//!
//! The journal is a text file in leadpipe's own folder with a line for each file that was put in place: the BLAKE3 hash
//! of its bytes, its length, its time and its name. A line is appended before the file gets its name, so that a file is
//! known even if the run is killed in between. A file that matches any line of its name is as leadpipe wrote it;
//! everything else is somebody's own work and is not replaced.

use super::growing::Growing;
use super::look::{Look, hash_of, size_and_time};
use super::own::OWN;
use crate::render::reading::{self, Unread};
use std::collections::HashMap;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Name of the journal in leadpipe's own folder.
const NAME: &str = "written";

/// A longer journal is shortened when its folder is prepared, in bytes.
const LONG: u64 = 256 * 1024;

/// The longest journal that is read, in bytes.
const LONGEST: u64 = 64 * 1024 * 1024;

/// How many states of each file a shortened journal keeps: that of the file that is there, and of some that were about
/// to replace it when a run was killed.
const KEPT: usize = 4;

/// What a path holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nothing, or an empty file.
    Free,
    /// A file as leadpipe wrote it.
    Ours,
    /// A file that leadpipe wrote and somebody changed.
    Changed,
    /// A file, or something else, that leadpipe did not write.
    Foreign,
}

/// What the file called `name` in `folder` is.
///
/// # Errors
/// If the file or the journal cannot be read.
pub fn standing(folder: &Path, name: &str) -> io::Result<Standing> {
    let path = folder.join(name);
    let metadata = match fs::metadata(&path) {
        Ok(metadata) => metadata,
        Err(error) if error.kind() == ErrorKind::NotFound => {
            // A link to nothing is somebody's, too.
            let link = fs::symlink_metadata(&path).is_ok();
            return Ok(if link {
                Standing::Foreign
            } else {
                Standing::Free
            });
        }
        Err(error) => return Err(error),
    };
    if !metadata.is_file() {
        return Ok(Standing::Foreign);
    }
    if metadata.len() == 0 {
        return Ok(Standing::Free);
    }
    let text = read(&place(folder))?;
    let lines: Vec<Line<'_>> = lines(&text).filter(|line| line.name == name).collect();
    let (bytes, modified_ns) = size_and_time(&metadata);
    let mut alike = lines.iter().filter(|line| line.bytes == bytes).peekable();
    if alike.peek().is_some() {
        if alike.clone().any(|line| line.modified_ns == modified_ns) {
            return Ok(Standing::Ours);
        }
        // A copied folder has other times.
        let hash = hash_of(&path, &|| true)?;
        if alike.any(|line| line.blake3 == hash) {
            return Ok(Standing::Ours);
        }
    }
    Ok(match lines.is_empty() {
        true => Standing::Foreign,
        false => Standing::Changed,
    })
}

/// Records that a file of this name and look is leadpipe's.
///
/// # Errors
/// If the journal cannot be written.
pub fn note(folder: &Path, name: &str, look: &Look) -> io::Result<()> {
    let Look {
        bytes,
        modified_ns,
        blake3,
    } = look;
    // It begins with a line end, because the line before may have been cut off by a full disk.
    let line = format!("\n{blake3} {bytes} {modified_ns} {name}\n");
    let path = place(folder);
    loop {
        let file = open(&path)?;
        // Against shortening by another run. On a file system without locks nothing is shortened.
        let _ = file.lock_shared();
        if is_in_place(&file) {
            return (&file).write_all(line.as_bytes());
        }
    }
}

/// Shortens a long journal. What cannot be shortened stays long.
pub fn shorten(folder: &Path) {
    let path = place(folder);
    if fs::metadata(&path).is_ok_and(|metadata| metadata.len() > LONG) {
        let _ = shorten_file(&path);
    }
}

fn shorten_file(path: &Path) -> io::Result<()> {
    let file = File::open(path)?;
    if file.try_lock().is_err() || !is_in_place(&file) {
        return Ok(());
    }
    let text = read(path)?;
    let all: Vec<Line<'_>> = lines(&text).collect();
    let mut states = HashMap::<&str, Vec<&str>>::new();
    let mut kept: Vec<&Line<'_>> = vec![];
    for line in all.iter().rev() {
        let later = states.entry(line.name).or_default();
        if later.len() < KEPT && !later.contains(&line.blake3) {
            later.push(line.blake3);
            kept.push(line);
        }
    }
    let short: String = kept.iter().rev().map(|line| line.text()).collect();
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut short_file = Growing::begin(folder, Vec::new())?;
    short_file.sink().write_all(short.as_bytes())?;
    short_file.complete(b"")?;
    short_file.rename(path)?;
    Ok(())
}

fn open(path: &Path) -> io::Result<File> {
    let opened = OpenOptions::new().append(true).create(true).open(path);
    match opened {
        Err(error) if error.kind() == ErrorKind::NotFound => {
            fs::create_dir_all(path.parent().unwrap_or(Path::new(".")))?;
            OpenOptions::new().append(true).create(true).open(path)
        }
        opened => opened,
    }
}

/// False if another run has put a shorter journal in the place of this one.
#[cfg(unix)]
fn is_in_place(file: &File) -> bool {
    use std::os::unix::fs::MetadataExt;
    file.metadata()
        .map_or(true, |metadata| metadata.nlink() > 0)
}

/// An open file cannot be replaced.
#[cfg(not(unix))]
fn is_in_place(_: &File) -> bool {
    true
}

fn read(path: &Path) -> io::Result<String> {
    let bytes = match reading::found(path, LONGEST) {
        Err(Unread::System(error)) if error.kind() == ErrorKind::NotFound => {
            return Ok(String::new());
        }
        Err(Unread::System(error)) => return Err(error),
        Err(Unread::TooLarge) => return Err(ErrorKind::FileTooLarge.into()),
        Ok(bytes) => bytes,
    };
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

struct Line<'t> {
    blake3: &'t str,
    bytes: u64,
    modified_ns: u64,
    name: &'t str,
}

impl Line<'_> {
    fn text(&self) -> String {
        format!(
            "{} {} {} {}\n",
            self.blake3, self.bytes, self.modified_ns, self.name
        )
    }
}

/// Lines that are not understood are left out.
fn lines(text: &str) -> impl Iterator<Item = Line<'_>> {
    text.lines().filter_map(|line| {
        let mut parts = line.splitn(4, ' ');
        Some(Line {
            blake3: parts.next()?,
            bytes: parts.next()?.parse().ok()?,
            modified_ns: parts.next()?.parse().ok()?,
            name: parts.next()?,
        })
    })
}

fn place(folder: &Path) -> PathBuf {
    folder.join(OWN).join(NAME)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::{Duration, SystemTime};

    fn look(path: &Path) -> Look {
        let (bytes, modified_ns) = size_and_time(&fs::metadata(path).unwrap());
        let blake3 = hash_of(path, &|| true).unwrap();
        Look {
            bytes,
            modified_ns,
            blake3,
        }
    }

    #[test]
    fn a_file_is_ours_as_long_as_it_is_as_it_was_written() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a b.wav");
        let standing = || standing(folder.path(), "a b.wav").unwrap();
        assert_eq!(standing(), Standing::Free);
        fs::write(&path, "").unwrap();
        assert_eq!(standing(), Standing::Free);
        fs::write(&path, "ours").unwrap();
        assert_eq!(standing(), Standing::Foreign);
        note(folder.path(), "a b.wav", &look(&path)).unwrap();
        assert_eq!(standing(), Standing::Ours);
        // A copy has another time.
        let file = OpenOptions::new().append(true).open(&path).unwrap();
        file.set_modified(SystemTime::UNIX_EPOCH + Duration::from_secs(9))
            .unwrap();
        assert_eq!(standing(), Standing::Ours);
        // Of the same length.
        fs::write(&path, "mine").unwrap();
        assert_eq!(standing(), Standing::Changed);
        fs::write(&path, "longer").unwrap();
        assert_eq!(standing(), Standing::Changed);
    }

    #[test]
    fn a_line_that_was_cut_off_hides_no_other() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a");
        fs::write(&path, "ours").unwrap();
        fs::create_dir(folder.path().join(OWN)).unwrap();
        fs::write(place(folder.path()), "\n0123456789").unwrap();
        note(folder.path(), "a", &look(&path)).unwrap();
        assert_eq!(standing(folder.path(), "a").unwrap(), Standing::Ours);
    }

    #[test]
    fn a_long_journal_is_shortened_and_knows_its_files() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a");
        for n in 0..5000 {
            let look = Look {
                bytes: n,
                modified_ns: n,
                blake3: format!("{n:064}"),
            };
            note(folder.path(), &format!("{}.wav", n % 7), &look).unwrap();
        }
        fs::write(&path, "ours").unwrap();
        note(folder.path(), "a", &look(&path)).unwrap();
        let length = || fs::metadata(place(folder.path())).unwrap().len();
        let long = length();
        assert!(long > LONG);
        shorten(folder.path());
        assert!(length() < 4000, "{}", length());
        assert_eq!(standing(folder.path(), "a").unwrap(), Standing::Ours);
        note(folder.path(), "b", &look(&path)).unwrap();
        assert_eq!(
            lines(&read(&place(folder.path())).unwrap()).count(),
            7 * KEPT + 2
        );
    }

    #[cfg(unix)]
    #[test]
    fn links_and_devices_are_foreign() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        symlink("/nowhere", folder.path().join("a")).unwrap();
        symlink("/dev/zero", folder.path().join("b")).unwrap();
        for name in ["a", "b"] {
            assert_eq!(standing(folder.path(), name).unwrap(), Standing::Foreign);
        }
    }
}
