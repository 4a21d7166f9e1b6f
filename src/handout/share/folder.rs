//! From the path of a request to a file of the folder, and to nothing outside it.

use std::fs::{self, File, Metadata};
use std::io;
use std::path::{Path, PathBuf};

/// A folder that is shared.
#[derive(Clone, Debug)]
pub struct Folder {
    /// Without links and dots, so that what lies in it begins with it.
    root: PathBuf,
}

/// What a path leads to.
pub enum Found {
    /// A file, opened.
    File {
        /// Where it is.
        path: PathBuf,
        /// To read it.
        file: File,
        /// Its length and time.
        metadata: Metadata,
    },
    /// A folder.
    Folder(PathBuf),
    /// A folder that was asked for as if it were a file.
    FolderWithoutSlash,
    /// Nothing that is shared.
    Nothing,
}

impl Folder {
    /// The folder at `path`.
    ///
    /// # Errors
    /// Where there is none.
    pub fn new(path: &Path) -> io::Result<Self> {
        let root = fs::canonicalize(path)?;
        if !root.is_dir() {
            return Err(io::ErrorKind::NotADirectory.into());
        }
        Ok(Self { root })
    }

    /// Where it is.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// What the path of a request leads to.
    ///
    /// Names that begin with a dot are not shared: records of what was rendered, and what else a folder
    /// hides. Links are followed as long as they stay within the folder.
    pub fn find(&self, request: &str) -> Found {
        let Some(names) = names(request) else {
            return Found::Nothing;
        };
        let mut path = self.root.clone();
        path.extend(&names);
        // Whatever links there are on the way, what counts is where they end.
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
        // A pipe or a device would keep whoever opens it waiting.
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

    /// True for what lies in the folder and is not hidden.
    fn shares(&self, path: &Path) -> bool {
        let Ok(within) = path.strip_prefix(&self.root) else {
            return false;
        };
        within
            .iter()
            .all(|name| name.to_str().is_some_and(|name| !name.starts_with('.')))
    }

    /// Files that can be asked for, in it and in the folders in it, counted up to `most`.
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

/// The names of a request's path, decoded; none where one of them is no plain name.
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
            let plain = !name.is_empty()
                && !name.starts_with('.')
                && !name.contains(['/', '\\', ':', '\0'])
                && !name.chars().any(char::is_control);
            plain.then_some(name)
        })
        .collect()
}

/// Percents decoded, once (RFC 3986, section 2.1); none where that gives no text.
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
        // Decoded once: what is left is a name like any other.
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
            "/c:",
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
