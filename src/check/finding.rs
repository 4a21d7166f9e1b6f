//! What the checker has to say.

use crate::problem::{Place, Problem, Span, Text};

pub use crate::problem::Severity;

/// One thing the checker has to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// Which rule, as a word for scripts; never changes its meaning.
    pub rule: &'static str,
    /// Index of the line in the routine; none for the routine as a whole.
    pub line: Option<usize>,
    /// Where in the file.
    pub span: Span,
    /// What is the matter, in a musician's words.
    pub message: String,
    /// What to do.
    pub hint: Option<String>,
}

impl Finding {
    /// A finding of a line, at `span`.
    pub fn of_line(
        severity: Severity,
        rule: &'static str,
        line: usize,
        span: Span,
        message: String,
    ) -> Self {
        Self {
            severity,
            rule,
            line: Some(line),
            span,
            message,
            hint: None,
        }
    }

    /// A finding of the routine as a whole, at `span`.
    pub fn of_routine(severity: Severity, rule: &'static str, span: Span, message: String) -> Self {
        Self {
            severity,
            rule,
            line: None,
            span,
            message,
            hint: None,
        }
    }

    /// The same with what to do.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
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
