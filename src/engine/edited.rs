//! A routine's text, edited.

use super::answer::{In, ProblemAnswer};
use crate::edit::{self, Edit, Splice};
use serde::{Deserialize, Serialize};

/// Edit a text.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EditRequest {
    text: String,
    edit: Edit,
}

/// The text afterwards. Places are counted in UTF-16 units, as a page counts them.
#[derive(Debug, Serialize)]
pub struct Edited {
    ok: bool,
    text: String,
    splices: Vec<SpliceAnswer>,
    inverse: Vec<SpliceAnswer>,
    selection: Option<SelectionAnswer>,
}

#[derive(Debug, Serialize)]
struct SpliceAnswer {
    start: usize,
    end: usize,
    with: String,
}

#[derive(Debug, Serialize)]
struct SelectionAnswer {
    line: usize,
    signs: Option<(usize, usize)>,
}

/// Edits the text of a request.
pub fn answer(request: &EditRequest) -> Result<Edited, Vec<ProblemAnswer>> {
    let edited = edit::apply(&request.text, &request.edit)
        .map_err(|problem| vec![ProblemAnswer::problem(In::Request, &request.text, &problem)])?;
    Ok(Edited {
        ok: true,
        splices: in_units(&request.text, edited.splices),
        inverse: in_units(&edited.text, edited.inverse),
        text: edited.text,
        selection: edited.selection.map(|selection| SelectionAnswer {
            line: selection.line,
            signs: selection.signs,
        }),
    })
}

/// Splices with places in UTF-16 units; they are in order.
fn in_units(text: &str, splices: Vec<Splice>) -> Vec<SpliceAnswer> {
    let (mut at, mut units) = (0, 0);
    let mut count = |to: usize| {
        units += text[at..to].encode_utf16().count();
        at = to;
        units
    };
    let splices = splices.into_iter();
    splices
        .map(|splice| SpliceAnswer {
            start: count(splice.start),
            end: count(splice.end),
            with: splice.with,
        })
        .collect()
}
