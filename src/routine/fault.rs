//! What is wrong with a routine file, and where.

use crate::problem::{Also, Place, Problem, Severity, Text};
use crate::words::Words;

pub use crate::problem::Span;

/// One thing that keeps a file from being understood. The caller knows which file it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Its place in the file.
    pub span: Span,
    /// What is wrong, in a musician's words; no capital, no full stop.
    pub message: Words,
    /// A short label for the place itself.
    pub label: Option<Words>,
    /// What would be right.
    pub hint: Option<Words>,
    /// A related place, such as where a slur was opened.
    pub also: Option<(Span, Words)>,
}

impl Fault {
    /// A fault at `span`.
    pub fn new(span: Span, message: impl Into<Words>) -> Self {
        Self {
            span,
            message: message.into(),
            label: None,
            hint: None,
            also: None,
        }
    }

    /// A fault for a problem found at `span`.
    pub fn of(span: Span, problem: Problem) -> Self {
        Self {
            span,
            message: problem.message,
            label: problem.label,
            hint: problem.hint,
            also: problem.also.map(|also| (also.span, also.message)),
        }
    }

    /// Adds a hint.
    pub fn hint(mut self, hint: impl Into<Words>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// Adds a label for the place.
    pub fn label(mut self, label: impl Into<Words>) -> Self {
        self.label = Some(label.into());
        self
    }

    /// Adds a second place.
    pub fn also(mut self, span: Span, what: impl Into<Words>) -> Self {
        self.also = Some((span, what.into()));
        self
    }

    /// Converts it to a problem in `text`.
    pub fn in_text(self, text: Text) -> Problem {
        Problem {
            severity: Severity::Error,
            rule: None,
            line: None,
            message: self.message,
            hint: self.hint,
            place: Some(Place {
                text,
                span: self.span,
            }),
            label: self.label,
            also: self.also.map(|(span, message)| Also { span, message }),
        }
    }
}
