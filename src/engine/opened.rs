//! A routine that is open at a take: its edition and its timeline.

use super::answer::{In, ProblemAnswer};
use super::described::{Described, Opened};
use super::request::{self, OpenRequest};
use crate::edition::{Edition, Judge, PlannedTake, Unplayable};
use crate::pencil::lay;
use crate::problem::{Problem, Text};
use crate::score::Take;
use crate::timeline::{Settings, Timeline, compile};
use crate::words::Language;

/// An open routine.
pub struct Open {
    /// The player's version of the routine.
    pub edition: Edition,
    /// The take.
    pub take: Take,
    /// The timeline of that take.
    pub timeline: Timeline,
}

/// Opens a routine and gives it a number.
pub fn open(request: OpenRequest, id: u32) -> Result<(Open, Opened), Vec<ProblemAnswer>> {
    let (take, signs) = request.take.take()?;
    let sample_rate = request::rate(request.sample_rate)?;
    let pencil_text = request.pencil.as_deref();
    let asked = request.language.as_deref().and_then(Language::of);
    let edition = Edition::read(&request.routine, pencil_text).map_err(|problems| {
        let problems = problems.iter();
        let of_text = |text| match text {
            Text::Pencil => pencil_text.unwrap_or_default(),
            Text::Routine | Text::ClassList => &request.routine,
        };
        let answer = |problem: &Problem| {
            let text = problem.place.map_or("", |place| of_text(place.text));
            ProblemAnswer::problem(asked.unwrap_or_default(), In::Request, text, problem)
        };
        problems.map(answer).collect::<Vec<_>>()
    })?;
    let edition = match asked {
        Some(language) => edition.in_language(language),
        None => edition,
    };
    let language = edition.teacher().words_in;
    let (timeline, answer) = {
        let plan = edition
            .plan(&[take], &Judge::default())
            .map_err(|unplayable| refused(language, unplayable))?;
        let planned = &plan.takes[0];
        let timeline = compile(&planned.score, &Settings { sample_rate, signs });
        let text = pencil_text.unwrap_or_default();
        let answer = Described {
            id,
            edition: &edition,
            score: &planned.score,
            timeline: &timeline,
            left_out: ProblemAnswer::problems(language, In::Pencil, text, edition.left_out()),
            advice: advice(&edition, planned, text),
        }
        .answer();
        (timeline, answer)
    };
    let open = Open {
        edition,
        take,
        timeline,
    };
    Ok((open, answer))
}

/// Findings of the checker about the pencil's marks, each at the line of its mark.
fn advice(edition: &Edition, planned: &PlannedTake<'_>, text: &str) -> Vec<ProblemAnswer> {
    let line_of = |problem: &Problem| {
        let span = problem.place?.span;
        let mut marks = edition.marks().iter();
        let mark = marks.find(|mark| mark.span == span)?;
        lay::find_line(&mark.target, edition.teacher()).ok()?
    };
    let problems = planned.problems.iter();
    let of_pencil = problems.filter(|p| p.place.is_some_and(|place| place.text == Text::Pencil));
    of_pencil
        .map(|problem| {
            let language = edition.teacher().words_in;
            ProblemAnswer::problem(language, In::Pencil, text, problem).of(line_of(problem))
        })
        .collect()
}

/// Why a take of this routine cannot be played.
pub fn refused(language: Language, unplayable: Unplayable) -> Vec<ProblemAnswer> {
    vec![ProblemAnswer::problem(
        language,
        In::Take,
        "",
        &unplayable.problem,
    )]
}
