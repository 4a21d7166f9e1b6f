//! What is wrong with something a person wrote or asked for, in the one shape in which it reaches that person.
//!
//! Readers give `Fault`s and the checker gives `Finding`s, which know less: which text they are about is decided by
//! whoever read it. Both convert into a [`Problem`]; everything else that can be refused is a [`Problem`] from the start.
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

    /// True if the byte lies in it, or right behind it.
    pub fn holds(self, byte: usize) -> bool {
        (self.start..=self.end).contains(&byte)
    }

    /// From the start of this to the end of `other`.
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

/// How much a problem matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth a thought.
    Advice,
    /// Should be changed.
    Warning,
    /// Cannot be played as written, or done as asked.
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
    /// The list of a class.
    ClassList,
}

/// A place in one of the texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Place {
    /// Which text.
    pub text: Text,
    /// Where in it.
    pub span: Span,
}

/// Another place that belongs to a problem, such as where a slur was opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Also {
    /// Where, in the same text.
    pub span: Span,
    /// What stands there.
    pub message: String,
}

/// One thing that is wrong, or worth saying. Plain data: how it is shown is for whoever shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// How much it matters.
    pub severity: Severity,
    /// Which rule of the checker it breaks, as a word for scripts; none where no rule is meant.
    pub rule: Option<&'static str>,
    /// Index of the routine's line that it is about; none for a whole text.
    pub line: Option<usize>,
    /// What is wrong, in a musician's words; no capital, no full stop.
    pub message: String,
    /// What would be right.
    pub hint: Option<String>,
    /// Where; none for what has no place in a text, such as an option.
    pub place: Option<Place>,
    /// A short word at the place itself.
    pub label: Option<String>,
    /// Another place that belongs to it.
    pub also: Option<Also>,
}

impl Problem {
    /// An error without a place.
    pub fn error(message: impl Into<String>) -> Self {
        Self::new(Severity::Error, message)
    }

    /// A warning without a place.
    pub fn warning(message: impl Into<String>) -> Self {
        Self::new(Severity::Warning, message)
    }

    fn new(severity: Severity, message: impl Into<String>) -> Self {
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

    /// The same with what would be right.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same with its place.
    pub fn at(mut self, text: Text, span: Span) -> Self {
        self.place = Some(Place { text, span });
        self
    }

    /// Where it stands in its text; the very beginning for what has no place.
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
