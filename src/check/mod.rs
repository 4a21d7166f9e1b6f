//! What there is to say of a routine at a take: one file per family of rules.

use crate::score::Score;
pub mod finding;
pub use finding::{Finding, Severity};

/// What a check takes into account beside the score.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {}

/// Every finding of a score, in order of place.
pub fn check(_score: &Score<'_>, _options: &Options) -> Vec<Finding> {
    vec![]
}
