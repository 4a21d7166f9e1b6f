//! Findings: what the checker reports.

use crate::problem::{Place, Problem, Span, Text};
use crate::words::Words;

pub use crate::problem::Severity;

/// One thing that the checker reports.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// The rule as a word that scripts can rely on. Its meaning never changes.
    pub rule: &'static str,
    /// Index of the line in the routine; `None` for the routine as a whole.
    pub line: Option<usize>,
    /// Where in the file.
    pub span: Span,
    /// What is wrong, in a musician's words.
    pub message: Words,
    /// What to do.
    pub hint: Option<Words>,
}

impl Finding {
    /// A finding about a line, at `span`.
    pub fn of_line(
        severity: Severity,
        rule: &'static str,
        line: usize,
        span: Span,
        message: impl Into<Words>,
    ) -> Self {
        Self {
            severity,
            rule,
            line: Some(line),
            span,
            message: message.into(),
            hint: None,
        }
    }

    /// A finding about the routine as a whole, at `span`.
    pub fn of_routine(
        severity: Severity,
        rule: &'static str,
        span: Span,
        message: impl Into<Words>,
    ) -> Self {
        Self {
            severity,
            rule,
            line: None,
            span,
            message: message.into(),
            hint: None,
        }
    }

    /// Adds what to do.
    pub fn hint(mut self, hint: impl Into<Words>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same as a problem of `text`.
    pub fn in_text(self, text: Text) -> Problem {
        Problem {
            severity: self.severity,
            rule: Some(self.rule),
            line: self.line,
            message: self.message,
            hint: self.hint,
            place: Some(Place {
                text,
                span: self.span,
            }),
            label: None,
            also: None,
        }
    }
}
