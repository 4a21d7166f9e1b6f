//! Edits that may mend a problem, by the rule that it breaks.

use super::{Mend, breaths, fingerings, meant, rests, walks};
use crate::edit::{Edit, Value, apply};
use crate::problem::Problem;
use crate::routine::{self, Routine};
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

/// A problem of a routine that can be read.
pub struct At<'t> {
    pub text: &'t str,
    pub routine: &'t Routine,
    pub problem: &'t Problem,
}

impl At<'_> {
    /// Edits, one after the other, as one mend; `None` if one of them cannot be made, or nothing is changed.
    pub fn mend(&self, says: String, edits: &[Edit]) -> Option<Mend> {
        let mut text = self.text.to_owned();
        for edit in edits {
            text = apply(&text, edit).ok()?.text;
        }
        (text != self.text).then_some(Mend { says, text })
    }

    /// Entries of a line, written as in the file.
    pub fn entries(&self, line: usize, entries: &[(&str, Value)]) -> Option<Mend> {
        let edits: Vec<Edit> = entries
            .iter()
            .map(|(key, value)| Edit::Set {
                line: Some(line),
                key: (*key).to_owned(),
                value: value.clone(),
            })
            .collect();
        let written: Vec<String> = entries
            .iter()
            .map(|(key, value)| format!("{key} = {}", value.written()))
            .collect();
        let says = say::mend_entry(self.routine.words_in, written.join(", "));
        self.mend(says, &edits)
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
