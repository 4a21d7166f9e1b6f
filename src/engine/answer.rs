//! The error response: what is wrong with a request, in words and with its place.

use crate::problem::{Problem, Text};
use crate::routine::source::row_and_column;
use crate::words::Language;
use serde::Serialize;

/// Which part of a request a problem is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub enum In {
    /// The routine's text.
    Routine,
    /// The pencil's text.
    Pencil,
    /// The take that was asked for.
    Take,
    /// The request.
    Request,
}

/// A problem as it is written in a response.
#[derive(Clone, Debug, Serialize)]
pub struct ProblemAnswer {
    severity: &'static str,
    r#in: In,
    of: Option<usize>,
    row: Option<usize>,
    column: Option<usize>,
    message: String,
    hint: Option<String>,
}

impl ProblemAnswer {
    /// An error without a place.
    pub fn new(r#in: In, message: impl Into<String>) -> Self {
        Self {
            severity: "error",
            r#in,
            of: None,
            row: None,
            column: None,
            message: message.into(),
            hint: None,
        }
    }

    /// Adds a hint that says what would be right.
    pub fn with_hint(mut self, hint: impl Into<Option<String>>) -> Self {
        self.hint = hint.into();
        self
    }

    /// Converts a problem whose place is in `text`, with words in a language. A problem without a place is reported as being in `elsewhere`.
    pub fn problem(language: Language, elsewhere: In, text: &str, problem: &Problem) -> Self {
        let r#in = match problem.place.map(|place| place.text) {
            Some(Text::Routine) => In::Routine,
            Some(Text::Pencil) => In::Pencil,
            Some(Text::ClassList) | None => elsewhere,
        };
        let answer = Self {
            severity: problem.severity.word(),
            ..Self::new(r#in, problem.message.in_language(language)).with_hint(
                problem
                    .hint
                    .as_ref()
                    .map(|hint| hint.in_language(language).to_owned()),
            )
        };
        match problem.place {
            Some(place) => answer.at(text, place.span.start),
            None => answer,
        }
    }

    /// Converts all problems of a text.
    pub fn problems(
        language: Language,
        elsewhere: In,
        text: &str,
        problems: &[Problem],
    ) -> Vec<Self> {
        let problems = problems.iter();
        problems
            .map(|problem| Self::problem(language, elsewhere, text, problem))
            .collect()
    }

    /// Sets the line of the teacher's routine that the problem is about; `None` for the whole routine.
    pub fn of(self, line: Option<usize>) -> Self {
        Self { of: line, ..self }
    }

    fn at(self, text: &str, byte: usize) -> Self {
        let (row, column) = row_and_column(text, byte);
        Self {
            row: Some(row),
            column: Some(column),
            ..self
        }
    }
}

/// An error response.
#[derive(Debug, Serialize)]
pub struct Refusal {
    ok: bool,
    problems: Vec<ProblemAnswer>,
}

impl From<Vec<ProblemAnswer>> for Refusal {
    fn from(problems: Vec<ProblemAnswer>) -> Self {
        Self {
            ok: false,
            problems,
        }
    }
}

impl From<ProblemAnswer> for Vec<ProblemAnswer> {
    fn from(problem: ProblemAnswer) -> Self {
        vec![problem]
    }
}
