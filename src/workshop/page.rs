//! The pupil's page as one file, which holds the engine, the lines and the text of the routine.

use super::request::PageRequest;
use crate::edition::{Edition, Judge};
use crate::engine::answer::{In, ProblemAnswer};
use crate::engine::opened::refused;
use crate::handout::{HandoutPage, PageTake};
use crate::problem::{Problem, Severity};
use crate::score::spoken;
use crate::words::Language;
use serde::Serialize;

/// What stands before and behind the letters of the page's engine. Whoever asks has these already.
#[derive(Debug, Serialize)]
pub struct MadePage {
    ok: bool,
    before: String,
    after: String,
}

/// Makes the page. A routine that the checker finds errors in is refused, as on the command line.
pub fn page(request: &PageRequest) -> Result<MadePage, Vec<ProblemAnswer>> {
    let (take, _) = request.take.take()?;
    let text = &request.routine;
    let told =
        |problems: &[Problem]| ProblemAnswer::problems(Language::En, In::Routine, text, problems);
    let edition = Edition::read(text, None).map_err(|problems| told(&problems))?;
    let plan = edition
        .plan(&[take], &Judge::default())
        .map_err(|unplayable| refused(Language::En, unplayable))?;
    let planned = &plan.takes[0];
    let errors = planned.problems.iter();
    let errors: Vec<Problem> = errors
        .filter(|problem| problem.severity == Severity::Error)
        .cloned()
        .collect();
    if !errors.is_empty() {
        return Err(told(&errors));
    }
    let played = edition.played();
    let of = edition.line_origins();
    let player = request.player.as_deref().map(str::trim);
    let page = HandoutPage {
        edition: &edition,
        text,
        pencil_text: None,
        whose: player.filter(|player| !player.is_empty()),
        takes: vec![PageTake {
            title: spoken::facts(played.words_in, &take, played),
            file: String::new(),
            score: &planned.score,
            state: String::new(),
            of: &of,
        }],
        sheets: vec![],
        list: None,
    };
    let [before, after] = page.around_engine();
    Ok(MadePage {
        ok: true,
        before,
        after,
    })
}
