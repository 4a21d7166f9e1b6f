//! A mark of a pupil's pencil, taken into the routine.

use super::request::TakeMarkRequest;
use crate::edit::take_mark;
use crate::engine::answer::{In, ProblemAnswer};
use crate::pencil;
use crate::words::Language;
use serde::Serialize;

/// The routine with the mark in it.
#[derive(Debug, Serialize)]
pub struct TakenMark {
    ok: bool,
    text: String,
}

/// Writes a mark into a routine.
pub fn take(request: &TakeMarkRequest) -> Result<TakenMark, Vec<ProblemAnswer>> {
    let read = pencil::read(&request.pencil).pencil;
    let read = read.ok_or_else(|| ProblemAnswer::new(In::Pencil, "it is no pencil"))?;
    let taken = take_mark(&request.routine, &read, &request.pencil, request.index);
    match taken {
        Ok(text) => Ok(TakenMark { ok: true, text }),
        Err(problem) => Err(ProblemAnswer::problem(Language::En, In::Request, "", &problem).into()),
    }
}
