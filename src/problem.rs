//! What is wrong with something a person wrote or asked for, in the one form that is shown to that person.
//!
//! Readers return `Fault`s and the checker returns `Finding`s, which do not know which text they are about; the
//! caller does. Both convert into a [`Problem`]; everything else that can be refused is a [`Problem`] from the
//! start.
//!
//! ```
//! use leadpipe::problem::{Problem, Severity, Span, Text};
//!
//! let problem = Problem::error("there is no line 9 in “Second steps”")
//!     .hint("it has 7 lines; name the line by its name")
//!     .at(Text::Pencil, Span::new(24, 32));
//! assert_eq!(problem.severity, Severity::Error);
//! assert_eq!(problem.to_string(), "there is no line 9 in “Second steps”");
//! ```

use crate::words::Words;
use std::fmt;

/// A byte range of a text, `start..end`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// The range `start..end`.
    pub fn new(start: usize, end: usize) -> Self {
        Self { start, end }
    }

    /// True if the byte is in it, or right behind it.
    pub fn holds(self, byte: usize) -> bool {
        (self.start..=self.end).contains(&byte)
    }

    /// From the start of this span to the end of `other`.
    pub fn to(self, other: Span) -> Span {
        Span {
            start: self.start,
            end: other.end.max(self.end),
        }
    }
}

impl From<std::ops::Range<usize>> for Span {
    fn from(range: std::ops::Range<usize>) -> Self {
        Self {
            start: range.start,
            end: range.end,
        }
    }
}

/// The severity of a problem.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Advice: worth considering.
    Advice,
    /// A warning: should be changed.
    Warning,
    /// An error: cannot be played as written, or done as asked.
    Error,
}

impl Severity {
    /// Its word: "error", "warning", "advice".
    pub fn word(self) -> &'static str {
        match self {
            Severity::Advice => "advice",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

/// Which text a problem is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Text {
    /// The routine's file.
    Routine,
    /// A player's pencil.
    Pencil,
    /// A class list.
    ClassList,
}

/// A place in one of the texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Place {
    /// Which text.
    pub text: Text,
    /// The place in it.
    pub span: Span,
}

/// A second place that belongs to a problem, such as where a slur was opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Also {
    /// The place, in the same text.
    pub span: Span,
    /// A short label for it.
    pub message: Words,
}

/// One problem or remark. Plain data: the caller decides how to show it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Its severity.
    pub severity: Severity,
    /// The rule of the checker that it breaks, as a word for scripts; `None` if it breaks no rule.
    pub rule: Option<&'static str>,
    /// Index of the routine's line that it is about; `None` for a whole text.
    pub line: Option<usize>,
    /// What is wrong, in a musician's words; no capital, no full stop.
    pub message: Words,
    /// What would be right.
    pub hint: Option<Words>,
    /// Its place; `None` for what is not in a text, such as an option.
    pub place: Option<Place>,
    /// A short label for the place itself.
    pub label: Option<Words>,
    /// A second place.
    pub also: Option<Also>,
}

impl Problem {
    /// An error without a place.
    pub fn error(message: impl Into<Words>) -> Self {
        Self::new(Severity::Error, message)
    }

    /// A warning without a place.
    pub fn warning(message: impl Into<Words>) -> Self {
        Self::new(Severity::Warning, message)
    }

    fn new(severity: Severity, message: impl Into<Words>) -> Self {
        Self {
            severity,
            rule: None,
            line: None,
            message: message.into(),
            hint: None,
            place: None,
            label: None,
            also: None,
        }
    }

    /// Adds a hint.
    pub fn hint(mut self, hint: impl Into<Words>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// Adds its place.
    pub fn at(mut self, text: Text, span: Span) -> Self {
        self.place = Some(Place { text, span });
        self
    }

    /// Its place in its text; the very beginning if it has none.
    pub fn start(&self) -> usize {
        self.place.map_or(0, |place| place.span.start)
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Problem {}
