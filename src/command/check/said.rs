//! What is said of a routine: every problem once, with the take it was found at.

use crate::command::edition::LoadedEdition;
use crate::command::takes;
use crate::edition::Plan;
use crate::problem::{Problem, Text};
use crate::words::Words;

/// A problem, and the take it was found at where that is not the first.
pub type Said<'p> = (Option<Words>, &'p Problem);

/// Every problem of a text once: those of the first take, then what each further one adds, with where.
pub fn said<'p>(opened: &LoadedEdition, plan: &'p Plan<'_>, text: Text) -> Vec<Said<'p>> {
    let takes = plan.takes.iter().enumerate();
    let said = takes.flat_map(|(number, planned)| {
        let words = || takes::in_words(&planned.take, opened.edition.played());
        let at = (number > 0).then(words);
        let problems = planned.problems.iter();
        let of_text = problems.filter(move |p| p.place.is_some_and(|place| place.text == text));
        of_text.map(move |problem| (at.clone(), problem))
    });
    said.collect()
}
