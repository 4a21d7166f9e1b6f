//! What came of a track.

use std::path::PathBuf;

/// A track that is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finished {
    /// Its number in the batch.
    pub track: usize,
    /// Its length.
    pub frames: u64,
    /// Its files, the track itself first.
    pub files: Vec<FinishedFile>,
    /// What had to be done.
    pub made: Made,
    /// Its lines.
    pub lines: usize,
    /// Those of them that were rendered; the others were there, or were copied.
    pub rendered: usize,
}

/// A file of a track that is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FinishedFile {
    /// Where it is.
    pub path: PathBuf,
    /// Its length in bytes.
    pub bytes: u64,
    /// False if it was there already, and as it should be.
    pub written: bool,
    /// Whether its sound was packed for it; none for a kind of file that holds it as it is.
    pub packed: Option<bool>,
}

/// What had to be done for a track.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// Nothing: it was there already.
    Unchanged,
    /// All of it, for the first time.
    New,
    /// It was there, but not like this.
    Again {
        /// Lines that were rendered; the others were copied from the track as it was.
        rendered: usize,
        /// Lines of the track.
        lines: usize,
        /// True if a file no longer was what its record said.
        altered: bool,
    },
}
