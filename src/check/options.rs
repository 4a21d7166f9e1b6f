//! What a check takes into account beside the score.

use crate::brass::AgeBand;
use crate::music::WrittenPitch;

/// What a check takes into account beside the score.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Whose breath it is; where nothing is said, that of the age the routine is meant for, else an adult's.
    pub age: Option<AgeBand>,
    /// The highest open note that the player plays with ease; what the routine says where nothing is said.
    pub comfortable_top: Option<WrittenPitch>,
}
