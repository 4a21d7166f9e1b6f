//! What is wrong with a routine file, and where.

/// A byte range of the teacher's file, `start..end`.
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

/// One thing that keeps a file from being a routine.
///
/// Plain data: how it is shown is the command's affair.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where in the file.
    pub span: Span,
    /// What is wrong, in a musician's words; no capital, no full stop.
    pub message: String,
    /// A short word at the place itself.
    pub label: Option<String>,
    /// What would be right.
    pub hint: Option<String>,
    /// Another place that belongs to it, such as where a slur was opened.
    pub also: Option<(Span, String)>,
}

impl Fault {
    /// A fault at `span`.
    pub fn new(span: Span, message: impl Into<String>) -> Self {
        Self {
            span,
            message: message.into(),
            label: None,
            hint: None,
            also: None,
        }
    }

    /// The same with what would be right.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same with a short word at the place.
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = Some(label.into());
        self
    }

    /// The same with a second place.
    pub fn also(mut self, span: Span, what: impl Into<String>) -> Self {
        self.also = Some((span, what.into()));
        self
    }
}
