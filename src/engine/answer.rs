//! The answer to a request that is refused: what is wrong, in words, with its place.

use crate::problem::{Problem, Text};
use crate::routine::source::row_and_column;
use serde::Serialize;

/// What a problem is in.
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

/// A problem as answers carry it.
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

    /// The same problem with what would be right.
    pub fn with_hint(mut self, hint: impl Into<Option<String>>) -> Self {
        self.hint = hint.into();
        self
    }

    /// A problem. It is in what `elsewhere` says where it has no place in a text; `text` is the one that it has its place
    /// in.
    pub fn problem(elsewhere: In, text: &str, problem: &Problem) -> Self {
        let r#in = match problem.place.map(|place| place.text) {
            Some(Text::Routine) => In::Routine,
            Some(Text::Pencil) => In::Pencil,
            Some(Text::ClassList) | None => elsewhere,
        };
        let answer = Self {
            severity: problem.severity.word(),
            ..Self::new(r#in, &problem.message).with_hint(problem.hint.clone())
        };
        match problem.place {
            Some(place) => answer.at(text, place.span.start),
            None => answer,
        }
    }

    /// The problems of a text.
    pub fn problems(elsewhere: In, text: &str, problems: &[Problem]) -> Vec<Self> {
        let problems = problems.iter();
        problems
            .map(|problem| Self::problem(elsewhere, text, problem))
            .collect()
    }

    /// The same about a line of the teacher's routine, or about the whole of it.
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

/// The answer to a request that is refused.
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
