//! Checks a routine at a take, with one file for each family of rules.
//!
//! ```
//! use leadpipe::check::{self, Options};
//!
//! # const TEXT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/second-steps.toml"));
//! # let routine = leadpipe::routine::read(TEXT).unwrap();
//! # let score = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default()).unwrap();
//! let report = check::check(&score, &Options::default());
//! assert!(report.findings.is_empty(), "the built-in routines have none");
//! assert!(report.summary.ratio() > Some(0.99), "and rest as long as they play");
//! ```

mod breath;
mod comfort;
mod compass;
mod course;
mod fingering;
mod leaps;
mod options;
mod place;
mod rests;
mod shape;
mod slide;

pub mod finding;
pub mod pencilled;
pub mod summary;

pub use finding::{Finding, Severity};
pub use options::Options;
pub use summary::{LineSummary, Summary};

use crate::score::Score;

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

    /// What cannot be played as it is written.
    pub fn errors(&self) -> impl Iterator<Item = &Finding> {
        let findings = self.findings.iter();
        findings.filter(|finding| finding.severity == Severity::Error)
    }

    /// True if something cannot be played as it is written.
    pub fn has_errors(&self) -> bool {
        self.count(Severity::Error) > 0
    }
}

/// Checks a score: all findings in order of place, and the routine in figures.
pub fn check(score: &Score<'_>, options: &Options) -> Report {
    let course = course::Course::new(score, options);
    let mut findings = fingering::check(&course);
    findings.extend(compass::check(score.routine));
    findings.extend(comfort::check(&course));
    findings.extend(leaps::check(&course));
    findings.extend(breath::check(&course, options));
    findings.extend(rests::check(&course));
    findings.extend(shape::check(&course));
    findings.extend(slide::check(&course, options));
    findings.sort_by_key(|f| (f.span.start, std::cmp::Reverse(f.severity), f.rule));
    Report {
        findings,
        summary: summary::summarise(score),
    }
}
