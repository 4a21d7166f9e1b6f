//! The result for a track.

use std::path::PathBuf;

/// A track that is finished.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finished {
    /// Its number in the batch.
    pub track: usize,
    /// Its length.
    pub frames: u64,
    /// Its files, the track itself first.
    pub files: Vec<FinishedFile>,
    /// What had to be done.
    pub made: TrackOutcome,
    /// How many lines it has.
    pub lines: usize,
    /// How many of them were rendered; the others existed or were copied.
    pub rendered: usize,
}

/// A file of a finished track.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FinishedFile {
    /// Where it is.
    pub path: PathBuf,
    /// Its length in bytes.
    pub bytes: u64,
    /// False if it existed and was up to date.
    pub written: bool,
    /// Whether its sound was encoded for it; `None` for a kind of file that is not encoded.
    pub packed: Option<bool>,
}

/// What had to be done for a track.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrackOutcome {
    /// Nothing: it was up to date.
    Unchanged,
    /// All of it, because it did not exist.
    New,
    /// It existed, but was not up to date.
    Again {
        /// Lines that were rendered; the others were copied from the existing track.
        rendered: usize,
        /// Lines of the track.
        lines: usize,
        /// True if a file differed from its record.
        altered: bool,
    },
}
