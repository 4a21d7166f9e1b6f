//! Rest that a player's pencil takes away, reported at the mark that does it.

use super::{Finding, Report, Severity};
use crate::pencil::{Laid, Pencil};
use crate::words::{Words, tell};

/// Finds marks that shorten rest so much that a line, or the whole routine, rests for less time than it plays and
/// did not before. The places of these warnings are in the pencil. `plain` is the report on the teacher's version.
pub fn check(
    pencil: &Pencil,
    laid: &Laid,
    report: &Report,
    plain: Option<&Report>,
) -> Vec<Finding> {
    let already_short = |rule: &str, line: Option<usize>| {
        plain.is_some_and(|p| p.findings.iter().any(|f| f.rule == rule && f.line == line))
    };
    let mut findings: Vec<Finding> = Vec::new();
    // A finding about a line is more precise than one about the whole routine.
    let mut ordered: Vec<&Finding> = report.findings.iter().collect();
    ordered.sort_by_key(|finding| finding.line.is_none());
    for finding in ordered {
        let (marks, whose): (Vec<usize>, Words) = match (finding.rule, finding.line) {
            ("short-rest", Some(index)) => {
                let line = &laid.lines[index];
                if already_short(finding.rule, Some(line.of)) {
                    continue;
                }
                let name = &laid.routine.lines[index].name;
                (line.marks.clone(), tell::in_quotes(name))
            }
            ("short-rest-whole", _) => {
                if already_short(finding.rule, None) {
                    continue;
                }
                let mut marks: Vec<usize> = laid
                    .lines
                    .iter()
                    .flat_map(|line| line.marks.clone())
                    .collect();
                marks.sort_unstable();
                marks.dedup();
                (marks, tell::the_routine())
            }
            _ => continue,
        };
        for mark in marks
            .into_iter()
            .filter(|mark| pencil.marks[*mark].change.may_cut_rest())
        {
            let mark = &pencil.marks[mark];
            if findings.iter().any(|f| f.span == mark.span) {
                continue;
            }
            let message = tell::pencil_cuts_rest(&whose);
            findings.push(
                Finding::of_routine(Severity::Warning, "pencil-cuts-rest", mark.span, message)
                    .hint(tell::take_the_mark_back()),
            );
        }
    }
    findings.sort_by_key(|f| f.span.start);
    findings
}
