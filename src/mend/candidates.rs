//! Edits that may mend a problem, by the rule that it breaks.

use super::place::{At, Mend};
use super::{breaths, fingerings, meant, rests, walks};
use crate::edit::Edit;
use crate::problem::Problem;
use crate::routine;
use crate::words::say;

/// What may mend a problem, the plainest first. Nothing of it has been tried.
pub fn of(text: &str, problem: &Problem) -> Vec<Mend> {
    let Some(rule) = problem.rule else {
        let meant = meant::of(text, problem).into_iter();
        return meant.chain(meant::unbent(text, problem)).collect();
    };
    let Ok(routine) = routine::read(text) else {
        return vec![];
    };
    let place = At {
        text,
        routine: &routine,
        problem,
    };
    match (rule, problem.line) {
        ("short-rest" | "long-playing", Some(line)) => rests::of_line(&place, line),
        ("short-rest-whole", _) => rests::everywhere(&place).into_iter().collect(),
        ("silent-fingering" | "seventh-partial", Some(line)) => fingerings::of(&place, line),
        ("bend-from-nothing" | "bend-size", Some(line)) => fingerings::unbent(&place, line),
        ("long-breath", Some(line)) => breaths::of(&place, line),
        ("off-compass", Some(line)) => walks::of(&place, line),
        ("early-stretch", Some(line)) => later(&place, line),
        _ => vec![],
    }
}

/// The line further back.
fn later(place: &At<'_>, line: usize) -> Vec<Mend> {
    let count = place.routine.lines.len();
    let moves = (line + 1..count).filter_map(|to| {
        let says = say::mend_later(place.routine.words_in, to + 1);
        place.mend(says, &[Edit::MoveLine { line, to }])
    });
    moves.collect()
}
