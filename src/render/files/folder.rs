//! The folder that files are written to.

use super::own::OWN;
use super::{passing, written};
use crate::render::failure::RenderFailure;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// Creates the folder if it does not exist, removes what killed runs left in it, and returns how many files
/// that were.
///
/// # Errors
/// If the path is a file, or the system reports an error.
pub fn prepare(folder: &Path) -> Result<usize, RenderFailure> {
    if let Err(error) = fs::create_dir_all(folder) {
        return Err(match error.kind() {
            ErrorKind::AlreadyExists | ErrorKind::NotADirectory => {
                // Without a slash at the end, which a file cannot have.
                let folder: PathBuf = folder.components().collect();
                match folder.ancestors().find(|part| part.is_file()) {
                    Some(file) => RenderFailure::NotAFolder(file.to_owned()),
                    // The system does not say what is there.
                    None => {
                        let error = fs::metadata(&folder).err().unwrap_or(error);
                        RenderFailure::at(&folder)(error)
                    }
                }
            }
            _ => RenderFailure::at(folder)(error),
        });
    }
    let own = folder.join(OWN);
    let cleared = passing::clear(folder) + passing::clear(&own);
    written::shorten(folder);
    Ok(cleared)
}
