//! Finds the file of a request's path in the shared folder, and nothing outside it.

use std::fs::{self, File, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// A shared folder.
#[derive(Clone, Debug)]
pub struct Folder {
    /// The canonical path, so that it is a prefix of every path in the folder.
    root: PathBuf,
}

/// What was found at a path.
pub enum Found {
    /// A file, opened.
    File {
        /// Its path.
        path: PathBuf,
        /// The open file.
        file: File,
        /// Its metadata, for length and time.
        metadata: Metadata,
    },
    /// A folder.
    Folder(PathBuf),
    /// A folder whose path was requested without a final slash.
    FolderWithoutSlash,
    /// Nothing that is shared is there.
    Nothing,
}

impl Folder {
    /// Shares the folder at `path`.
    ///
    /// # Errors
    /// If there is no folder.
    pub fn new(path: &Path) -> io::Result<Self> {
        let root = fs::canonicalize(path)?;
        if !root.is_dir() {
            return Err(io::ErrorKind::NotADirectory.into());
        }
        Ok(Self { root })
    }

    /// Its path.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// Finds what the path of a request names.
    ///
    /// Names that begin with a dot are not shared, such as the records of what was rendered. Links are followed if they
    /// stay within the folder.
    pub fn find(&self, request: &str) -> Found {
        let Some(names) = names(request) else {
            return Found::Nothing;
        };
        let mut path = self.root.clone();
        path.extend(&names);
        // Links on the way do not matter; the target decides.
        let Ok(path) = fs::canonicalize(path) else {
            return Found::Nothing;
        };
        if !self.shares(&path) {
            return Found::Nothing;
        }
        let Ok(metadata) = fs::metadata(&path) else {
            return Found::Nothing;
        };
        if metadata.is_dir() {
            return if request.ends_with('/') {
                Found::Folder(path)
            } else {
                Found::FolderWithoutSlash
            };
        }
        // Opening a pipe or a device could block.
        if !metadata.is_file() || request.ends_with('/') {
            return Found::Nothing;
        }
        match File::open(&path) {
            Ok(file) => match file.metadata() {
                Ok(metadata) if metadata.is_file() => Found::File {
                    path,
                    file,
                    metadata,
                },
                _ => Found::Nothing,
            },
            Err(_) => Found::Nothing,
        }
    }

    /// The decoded name of a step of a request's path, if it is a plain one.
    pub fn plain_name(step: &str) -> Option<String> {
        decoded(step).filter(|name| is_plain(name))
    }

    /// True for a name that is neither hidden nor read as a path by any system.
    pub fn is_plain(name: &str) -> bool {
        is_plain(name)
    }

    /// True if the path is in the folder and not hidden.
    fn shares(&self, path: &Path) -> bool {
        let Ok(within) = path.strip_prefix(&self.root) else {
            return false;
        };
        within
            .iter()
            .all(|name| name.to_str().is_some_and(is_plain))
    }

    /// The number of shared files in the folder and its subfolders, counted up to `most`.
    pub fn count(&self, most: usize) -> usize {
        let mut folders = vec![self.root.clone()];
        let mut files = 0;
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
                let hidden = entry.file_name().to_string_lossy().starts_with('.');
                match entry.file_type() {
                    Ok(kind) if kind.is_dir() && !hidden => folders.push(entry.path()),
                    Ok(kind) if kind.is_file() && !hidden => files += 1,
                    _ => {}
                }
                if files >= most {
                    return files;
                }
            }
        }
        files
    }
}

/// The decoded names of a request's path; `None` if one of them is not a plain name.
fn names(path: &str) -> Option<Vec<String>> {
    let path = path.strip_prefix('/')?;
    if path.is_empty() {
        return Some(vec![]);
    }
    let names = path.strip_suffix('/').unwrap_or(path);
    names
        .split('/')
        .map(|name| {
            let name = decoded(name)?;
            is_plain(&name).then_some(name)
        })
        .collect()
}

/// True for a name that is shared: one that is not hidden, and that no system reads as a path.
pub fn is_plain(name: &str) -> bool {
    // On Windows, `c:` is a drive and `a:b` a part of the file `a`.
    let system = if cfg!(windows) { ":" } else { "" };
    !name.is_empty()
        && !name.starts_with('.')
        && !name.contains(['/', '\\'])
        && !name.contains(|c: char| c.is_control() || system.contains(c))
}

/// Percent-decodes a name once (RFC 3986, section 2.1); `None` if the result is not UTF-8.
fn decoded(name: &str) -> Option<String> {
    let mut bytes = vec![];
    let mut rest = name.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let mut digit = || char::from(rest.next()?).to_digit(16);
        let (high, low) = (digit()?, digit()?);
        bytes.push((high * 16 + low) as u8);
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_names_are_looked_for() {
        let some = |names: &[&str]| Some(names.iter().map(|n| (*n).to_owned()).collect());
        assert_eq!(names("/"), some(&[]));
        assert_eq!(names("/a%20b.mp3"), some(&["a b.mp3"]));
        assert_eq!(names("/a/%E6%9C%9D/"), some(&["a", "朝"]));
        assert_eq!(
            names("/c:/61: slow.mp3"),
            (!cfg!(windows)).then(|| vec!["c:".to_owned(), "61: slow.mp3".to_owned()])
        );
        // Decoded only once: what is left is a plain name.
        assert_eq!(names("/%252e%252e"), some(&["%2e%2e"]));
        for path in [
            "",
            "a",
            "//",
            "//a",
            "/a//b",
            "/..",
            "/../a",
            "/%2e%2e/a",
            "/.%2e/a",
            "/a/..%2f..",
            "/..%5c..",
            "/a\\b",
            "/.leadpipe/t.json",
            "/%2Eleadpipe",
            "/a%00",
            "/a%0a",
            "/%ff",
            "/%",
            "/%4",
            "/%zz",
            "/.",
        ] {
            assert_eq!(names(path), None, "{path}");
        }
    }
}
