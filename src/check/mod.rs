//! Checks a routine at a take, with one file for each family of rules.

mod breath;
mod comfort;
mod compass;
mod course;
mod fingering;
mod leaps;
mod place;
mod rests;
mod shape;

pub mod finding;
pub mod pencilled;
pub mod summary;

pub use finding::{Finding, Severity};
pub use summary::{LineSummary, Summary};

use crate::brass::AgeBand;
use crate::score::Score;

/// What a check depends on besides the score.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// The player's age, which decides how long a breath lasts. `None` means an adult.
    pub age: Option<AgeBand>,
}

/// The result of a check.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// Findings, sorted by their place in the file.
    pub findings: Vec<Finding>,
    /// The routine in figures.
    pub summary: Summary,
}

impl Report {
    /// The number of findings with this severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings
            .iter()
            .filter(|f| f.severity == severity)
            .count()
    }

    /// True if something cannot be played as it is written.
    pub fn has_errors(&self) -> bool {
        self.count(Severity::Error) > 0
    }
}

/// Checks a score: all findings in order of place, and the routine in figures.
pub fn check(score: &Score<'_>, options: &Options) -> Report {
    let course = course::Course::new(score);
    let mut findings = fingering::check(&course);
    findings.extend(compass::check(score.routine));
    findings.extend(comfort::check(&course));
    findings.extend(leaps::check(&course));
    findings.extend(breath::check(&course, options));
    findings.extend(rests::check(&course));
    findings.extend(shape::check(&course));
    findings.sort_by_key(|f| (f.span.start, std::cmp::Reverse(f.severity), f.rule));
    Report {
        findings,
        summary: summary::summarise(score),
    }
}
