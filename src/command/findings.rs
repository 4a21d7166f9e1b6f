//! How many problems there are, in words.

use crate::problem::{Problem, Severity};
use crate::words::count;

/// `1 error, 2 warnings`; severities without problems are omitted.
pub fn tally<'a>(problems: impl Iterator<Item = &'a Problem> + Clone) -> String {
    let number = |severity| problems.clone().filter(|f| f.severity == severity).count();
    let parts: Vec<String> = [
        (Severity::Error, "error", "errors"),
        (Severity::Warning, "warning", "warnings"),
        (Severity::Advice, "piece of advice", "pieces of advice"),
    ]
    .into_iter()
    .filter_map(|(severity, one, many)| match number(severity) {
        0 => None,
        n => Some(count(n, one, many)),
    })
    .collect();
    if parts.is_empty() {
        "no problems found".to_owned()
    } else {
        parts.join(", ")
    }
}
