//! What the checker has to say of a routine at some takes, for a page on which it is written.

use super::request::JudgeRequest;
use crate::brass::AgeBand;
use crate::check::Options;
use crate::edition::{Edition, Judge};
use crate::engine::answer::{In, ProblemAnswer};
use crate::engine::opened::refused;
use crate::score::Take;
use crate::words::Language;
use serde::Serialize;

/// The findings, and what the routine amounts to as written.
#[derive(Debug, Serialize)]
pub struct Judged {
    ok: bool,
    findings: Vec<ProblemAnswer>,
    seconds: f64,
    playing: f64,
    lowest: Option<String>,
    highest: Option<String>,
}

/// Judges a routine. A finding that several takes have is told once.
pub fn judge(request: &JudgeRequest) -> Result<Judged, Vec<ProblemAnswer>> {
    let takes = takes(request)?;
    let text = &request.routine;
    let edition = Edition::read(text, None)
        .map_err(|problems| ProblemAnswer::problems(Language::En, In::Routine, text, &problems))?;
    let plan = edition
        .plan(&takes, &judged_for(request)?)
        .map_err(|unplayable| refused(Language::En, unplayable))?;
    let lines = &edition.teacher().lines;
    let findings = plan.takes.iter().flat_map(|planned| &planned.problems);
    let findings = findings.map(|problem| {
        let at = problem.place.map(|place| place.span.start);
        let of = at.and_then(|at| lines.iter().rposition(|line| line.span.start <= at));
        ProblemAnswer::problem(Language::En, In::Routine, text, problem).of(of)
    });
    let summary = &plan.takes[0].report.summary;
    Ok(Judged {
        ok: true,
        findings: findings.collect(),
        seconds: summary.seconds,
        playing: summary.playing_seconds,
        lowest: summary.lowest.map(|note| note.to_string()),
        highest: summary.highest.map(|note| note.to_string()),
    })
}

/// The takes of a request; as written if there are none.
pub fn takes(request: &JudgeRequest) -> Result<Vec<Take>, Vec<ProblemAnswer>> {
    let takes = request.takes.iter().map(|take| Ok(take.take()?.0));
    let takes = takes.collect::<Result<Vec<Take>, Vec<ProblemAnswer>>>()?;
    Ok(match takes.is_empty() {
        true => vec![Take::default()],
        false => takes,
    })
}

/// For whom a request has a routine checked.
pub fn judged_for(request: &JudgeRequest) -> Result<Judge, Vec<ProblemAnswer>> {
    Ok(Judge {
        options: Options {
            age: request.age.as_deref().map(age).transpose()?,
            ..Options::default()
        },
        ..Judge::default()
    })
}

/// Reads an age.
pub fn age(text: &str) -> Result<AgeBand, Vec<ProblemAnswer>> {
    let band = AgeBand::WORDS.iter().find(|(word, _)| *word == text);
    band.map(|(_, band)| *band)
        .ok_or_else(|| ProblemAnswer::new(In::Request, format!("“{text}” is not an age")).into())
}
