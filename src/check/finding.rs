//! What the checker has to say.

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
