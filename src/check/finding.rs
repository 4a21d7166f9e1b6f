//! Findings: what the checker reports.

use crate::routine::Span;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth a thought.
    Advice,
    /// Should be changed.
    Warning,
    /// Cannot be played as written.
    Error,
}

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
    pub message: String,
    /// What to do.
    pub hint: Option<String>,
}

impl Severity {
    /// The severity as a word: "error", "warning", "advice".
    pub fn word(self) -> &'static str {
        match self {
            Severity::Advice => "advice",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

impl Finding {
    /// A finding about a line, at `span`.
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

    /// A finding about the routine as a whole, at `span`.
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

    /// Adds what to do.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}
