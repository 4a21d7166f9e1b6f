//! What is answered where something is wrong, and in which words.

use crate::pencil::hand::Refused;
use crate::problem::{Problem, Text};
use crate::routine::{Fault, Span, source::row_and_column};
use serde::Serialize;

/// Which text something is said of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub enum In {
    /// The routine's.
    Routine,
    /// The pencil's.
    Pencil,
    /// The take as it was asked for.
    Take,
    /// The request.
    Request,
}

/// One thing that is wrong.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Said {
    r#in: In,
    row: Option<usize>,
    column: Option<usize>,
    message: String,
    label: Option<String>,
    hint: Option<String>,
    also: Option<Also>,
}

/// Another place that belongs to it.
#[derive(Clone, Debug, Serialize)]
struct Also {
    row: usize,
    column: usize,
    message: String,
}

impl Said {
    /// Something without a place.
    pub fn of(r#in: In, message: impl Into<String>) -> Self {
        Self {
            r#in,
            row: None,
            column: None,
            message: message.into(),
            label: None,
            hint: None,
            also: None,
        }
    }

    /// The same with what would be right.
    pub fn with_hint(mut self, hint: Option<String>) -> Self {
        self.hint = hint;
        self
    }

    /// A fault of a text.
    pub fn fault(r#in: In, text: &str, fault: &Fault) -> Self {
        let place = |span: Span| row_and_column(text, span.start);
        let (row, column) = place(fault.span);
        Self {
            r#in,
            row: Some(row),
            column: Some(column),
            message: fault.message.clone(),
            label: fault.label.clone(),
            hint: fault.hint.clone(),
            also: fault.also.as_ref().map(|(span, message)| {
                let (row, column) = place(*span);
                Also {
                    row,
                    column,
                    message: message.clone(),
                }
            }),
        }
    }

    /// All faults of a text.
    pub fn faults(r#in: In, text: &str, faults: &[Fault]) -> Vec<Self> {
        let said = faults.iter().map(|fault| Self::fault(r#in, text, fault));
        said.collect()
    }

    /// A problem, of the request where it has no place in a text; `text` is the one it has a place in.
    pub fn problem(r#in: In, text: &str, problem: Problem) -> Self {
        let place = |span: Span| row_and_column(text, span.start);
        let at = problem.place.map(|at| place(at.span));
        Self {
            r#in: match problem.place.map(|place| place.text) {
                Some(Text::Routine) => In::Routine,
                Some(Text::Pencil) => In::Pencil,
                _ => r#in,
            },
            row: at.map(|(row, _)| row),
            column: at.map(|(_, column)| column),
            message: problem.message,
            label: problem.label,
            hint: problem.hint,
            also: problem.also.map(|also| {
                let (row, column) = place(also.span);
                Also {
                    row,
                    column,
                    message: also.message,
                }
            }),
        }
    }

    /// Why a mark could not be written into `text`.
    pub fn refused(text: &str, refused: Refused) -> Vec<Self> {
        let problems = refused.problems().into_iter();
        let said = problems.map(|problem| Self::problem(In::Request, text, problem));
        said.collect()
    }
}

/// An answer that is none.
#[derive(Debug, Serialize)]
pub struct Faulty {
    ok: bool,
    faults: Vec<Said>,
}

impl From<Vec<Said>> for Faulty {
    fn from(faults: Vec<Said>) -> Self {
        Self { ok: false, faults }
    }
}

impl From<Said> for Vec<Said> {
    fn from(said: Said) -> Self {
        vec![said]
    }
}
