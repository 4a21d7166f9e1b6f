//! How many problems there are, in words.

use crate::problem::{Problem, Severity};
use crate::words::{Words, count, tell};

/// `1 error, 2 warnings`; severities without problems are omitted.
pub fn tally<'a>(problems: impl Iterator<Item = &'a Problem> + Clone) -> Words {
    let number = |severity| problems.clone().filter(|f| f.severity == severity).count();
    let (errors, warnings) = (number(Severity::Error), number(Severity::Warning));
    let advice = number(Severity::Advice);
    let all = [
        (errors, count::errors(errors)),
        (warnings, count::warnings(warnings)),
        (advice, count::advice(advice)),
    ];
    let some = all.into_iter().filter(|(n, _)| *n > 0);
    let some: Vec<Words> = some.map(|(_, said)| said).collect();
    match some.is_empty() {
        true => tell::no_problems(),
        false => Words::joined(&some, ", "),
    }
}
