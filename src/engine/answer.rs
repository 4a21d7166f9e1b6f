//! The answer to a request that is refused: what is wrong, in words, with its place.

use crate::check::Finding;
use crate::pencil::hand::Refused;
use crate::routine::{Fault, source::row_and_column};
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

    /// The faults of a text.
    pub fn faults(r#in: In, text: &str, faults: &[Fault]) -> Vec<Self> {
        let one = |fault: &Fault| {
            Self::new(r#in, &fault.message)
                .with_hint(fault.hint.clone())
                .at(text, fault.span.start)
        };
        faults.iter().map(one).collect()
    }

    /// What the checker found in a pencil's text. `of` is the line in the teacher's routine that it is about.
    pub fn finding(text: &str, finding: &Finding, of: Option<usize>) -> Self {
        Self {
            severity: finding.severity.word(),
            of,
            ..Self::new(In::Pencil, &finding.message)
                .with_hint(finding.hint.clone())
                .at(text, finding.span.start)
        }
    }

    /// Why a mark could not be written into `text`.
    pub fn refused(text: &str, refused: Refused) -> Vec<Self> {
        let (message, hint) = match refused {
            Refused::Faults(faults) => return Self::faults(In::Pencil, text, &faults),
            Refused::Taken { message, new } => (
                message,
                Some(format!("take that back first: both cannot be ({new})")),
            ),
            Refused::Said { message, hint, .. } => (message, hint),
        };
        vec![Self::new(In::Request, message).with_hint(hint)]
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
