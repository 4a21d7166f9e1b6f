//! What would mend each problem of a routine, by one touch.

use super::judged::{judged_for, takes};
use super::request::JudgeRequest;
use crate::engine::answer::{In, ProblemAnswer};
use crate::mend::mends;
use crate::words::Language;
use serde::Serialize;

/// The problems that can be mended so.
#[derive(Debug, Serialize)]
pub struct MendedAnswer {
    ok: bool,
    mended: Vec<One>,
}

#[derive(Debug, Serialize)]
struct One {
    problem: ProblemAnswer,
    mends: Vec<MendAnswer>,
}

#[derive(Debug, Serialize)]
struct MendAnswer {
    says: String,
    text: String,
}

/// Finds edits that mend problems.
pub fn mend(request: &JudgeRequest) -> Result<MendedAnswer, Vec<ProblemAnswer>> {
    let text = &request.routine;
    let found = mends(text, &takes(request)?, &judged_for(request)?);
    let found = found.into_iter().filter(|mended| !mended.mends.is_empty());
    let one = |mended: crate::mend::Mended| One {
        problem: ProblemAnswer::problem(Language::En, In::Routine, text, &mended.problem),
        mends: mended
            .mends
            .into_iter()
            .map(|mend| MendAnswer {
                says: mend.says,
                text: mend.text,
            })
            .collect(),
    };
    Ok(MendedAnswer {
        ok: true,
        mended: found.map(one).collect(),
    })
}
