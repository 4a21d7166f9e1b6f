//! What a take adds to what there is to say of a routine.

use crate::check::{Finding, Severity};
use crate::words::count;

/// The findings of `take` that `before` has none like: the same rule at the same place is the same
/// finding, even where its figures differ.
pub fn added<'a>(before: &[Finding], take: &'a [Finding]) -> Vec<&'a Finding> {
    let like = |a: &Finding, b: &Finding| {
        (a.severity, a.rule, a.line, a.span) == (b.severity, b.rule, b.line, b.span)
    };
    take.iter()
        .filter(|finding| !before.iter().any(|other| like(finding, other)))
        .collect()
}

/// `1 error, 2 warnings, no advice` and so on, without what there is none of.
pub fn tally<'a>(findings: impl Iterator<Item = &'a Finding> + Clone) -> String {
    let number = |severity| findings.clone().filter(|f| f.severity == severity).count();
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
        "nothing to say against it".to_owned()
    } else {
        parts.join(", ")
    }
}

/// The word for a severity.
pub fn word(severity: Severity) -> &'static str {
    severity.word()
}
