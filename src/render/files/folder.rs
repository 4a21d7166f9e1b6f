//! The folder that files go to.

use super::passing;
use crate::render::failure::RenderFailure;
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// What the program keeps for itself in a folder of tracks.
pub const OWN: &str = ".leadpipe";

/// Makes the folder where there is none, and clears away what killed runs left in it; says how many files.
///
/// # Errors
/// Where a file stands in its place, or the system refuses.
pub fn prepare(folder: &Path) -> Result<usize, RenderFailure> {
    if let Err(error) = fs::create_dir_all(folder) {
        return Err(match error.kind() {
            ErrorKind::AlreadyExists | ErrorKind::NotADirectory => {
                let file = folder.ancestors().find(|part| part.is_file());
                RenderFailure::NotAFolder(file.unwrap_or(folder).to_owned())
            }
            _ => RenderFailure::at(folder)(error),
        });
    }
    Ok(passing::clear(folder) + passing::clear(&folder.join(OWN)))
}
