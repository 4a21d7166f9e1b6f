//! What there is to say of a routine at a take: one file per family of rules.

pub mod finding;
pub mod summary;

pub use finding::{Finding, Severity};
pub use summary::{LineSummary, Summary};

use crate::brass::AgeBand;
use crate::score::Score;

/// What a check takes into account beside the score.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Whose breath it is; an adult's where nothing is said.
    pub age: Option<AgeBand>,
}

/// All there is to say of a score.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// Findings in order of their place in the file.
    pub findings: Vec<Finding>,
    /// The routine in figures.
    pub summary: Summary,
}

impl Report {
    /// How many findings of this severity there are.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings
            .iter()
            .filter(|f| f.severity == severity)
            .count()
    }

    /// True if something cannot be played as written.
    pub fn has_errors(&self) -> bool {
        self.count(Severity::Error) > 0
    }
}

/// Checks a score.
pub fn check(score: &Score<'_>, _options: &Options) -> Report {
    Report {
        findings: vec![],
        summary: summary::summarise(score),
    }
}
