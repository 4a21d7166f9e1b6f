//! Puts an output file in place, unless that would replace somebody's own file.

use super::growing::Growing;
use super::look::Look;
use super::written::{self, Standing};
use crate::render::failure::{InTheWay, RenderFailure};
use std::fs;
use std::path::Path;

/// What a file may replace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// A file that leadpipe wrote and nobody has changed since.
    Own,
    /// Any file.
    Any,
}

impl Replace {
    /// `Any` if the user asks for it.
    pub fn forced(force: bool) -> Self {
        if force { Self::Any } else { Self::Own }
    }

    /// Checks that nothing is in the way of files with these names in `folder`.
    ///
    /// # Errors
    /// If something is, with all files that are in the way, or the system reports an error.
    pub fn allows_all<'n>(
        self,
        folder: &Path,
        names: impl IntoIterator<Item = &'n str>,
    ) -> Result<(), RenderFailure> {
        let refused = names
            .into_iter()
            .filter_map(|name| self.allows(folder, name).err());
        refused.reduce(RenderFailure::and).map_or(Ok(()), Err)
    }

    /// Checks that nothing is in the way of a file called `name` in `folder`.
    ///
    /// # Errors
    /// If something is, or the system reports an error.
    pub fn allows(self, folder: &Path, name: &str) -> Result<(), RenderFailure> {
        let path = folder.join(name);
        if path.is_dir() {
            return Err(RenderFailure::FolderInTheWay(path));
        }
        if self == Self::Any {
            return Ok(());
        }
        match written::standing(folder, name).map_err(RenderFailure::reading(&path))? {
            Standing::Free | Standing::Ours => Ok(()),
            standing => Err(RenderFailure::InTheWay(vec![InTheWay {
                path,
                changed: standing == Standing::Changed,
            }])),
        }
    }
}

impl Growing {
    /// Renames the completed file to its own name, unless that belongs to a file that must not be replaced.
    ///
    /// # Errors
    /// If the system reports an error, or something is in the way.
    pub fn finish(mut self, path: &Path, replace: Replace) -> Result<Look, RenderFailure> {
        let at = || RenderFailure::at(path);
        let folder = path.parent().unwrap_or(Path::new("."));
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        replace.allows(folder, &name)?;
        let look = self.closed().map_err(at())?;
        written::note(folder, &name, &look).map_err(at())?;
        fs::rename(self.path(), path).map_err(at())?;
        self.renamed();
        Ok(look)
    }
}
