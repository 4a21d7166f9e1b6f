//! What a check takes into account beside the score.

use crate::brass::AgeBand;

/// What a check takes into account beside the score.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Whose breath it is; an adult's where nothing is said.
    pub age: Option<AgeBand>,
}
