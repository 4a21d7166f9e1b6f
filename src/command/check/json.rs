//! Problems and figures as JSON, for scripts.

use super::said::{Said, said};
use crate::check::LineSummary;
use crate::command::edition::LoadedEdition;
use crate::command::source::SourceText;
use crate::command::takes;
use crate::edition::{Plan, PlannedTake};
use crate::music::WrittenPitch;
use crate::problem::{Problem, Span, Text};
use serde_json::{Value, json};

/// The report on a routine that is not understood.
pub fn unreadable(source: &SourceText, problems: &[Problem]) -> Value {
    json!({ "routine": source.name, "faults": faults(source, problems) })
}

/// The report on a routine that was checked.
pub fn checked(opened: &LoadedEdition, plan: &Plan<'_>) -> Value {
    let routine = opened.edition.played();
    let findings = said(opened, plan, Text::Routine);
    let findings = findings.iter().map(|said| finding(opened, said));
    let mut shown = json!({
        "routine": opened.routine.name,
        "title": routine.title,
        "instrument": routine.instrument.name,
        "findings": findings.collect::<Vec<_>>(),
        "takes": plan.takes.iter().map(take).collect::<Vec<_>>(),
    });
    if let Some(pencil) = &opened.pencil {
        let cut = said(opened, plan, Text::Pencil);
        let cut = cut.iter().map(|(_, problem)| of_pencil(pencil, problem));
        shown["pencil"] = json!({
            "file": pencil.name,
            "player": opened.edition.pencil().and_then(|p| p.player.clone()),
            "marks": opened.edition.marks().len(),
            "faults": faults(pencil, opened.edition.left_out()),
            "findings": cut.collect::<Vec<_>>(),
        });
    }
    shown
}

fn faults(source: &SourceText, problems: &[Problem]) -> Vec<Value> {
    let fault = |problem: &Problem| {
        let (line, column, bytes) = place(source, problem);
        json!({
            "line": line,
            "column": column,
            "bytes": bytes,
            "message": problem.message,
            "label": problem.label,
            "hint": problem.hint,
        })
    };
    problems.iter().map(fault).collect()
}

fn finding(opened: &LoadedEdition, (at, problem): &Said<'_>) -> Value {
    let (line, column, bytes) = place(&opened.routine, problem);
    let lines = &opened.edition.played().lines;
    json!({
        "severity": problem.severity.word(),
        "rule": problem.rule,
        "at": at,
        "routine_line": problem.line.map(|index| index + 1),
        "name": problem.line.map(|index| &lines[index].name),
        "line": line,
        "column": column,
        "bytes": bytes,
        "message": problem.message,
        "hint": problem.hint,
    })
}

fn of_pencil(pencil: &SourceText, problem: &Problem) -> Value {
    let (line, column, bytes) = place(pencil, problem);
    json!({
        "severity": problem.severity.word(),
        "rule": problem.rule,
        "line": line,
        "column": column,
        "bytes": bytes,
        "message": problem.message,
        "hint": problem.hint,
    })
}

/// Line and column, both from 1, and the bytes of a problem's place.
fn place(source: &SourceText, problem: &Problem) -> (usize, usize, [usize; 2]) {
    let span = problem.place.map_or(Span::new(0, 0), |place| place.span);
    let (line, column) = source.line_and_column(span.start);
    (line, column, [span.start, span.end])
}

fn take(planned: &PlannedTake<'_>) -> Value {
    let (take, summary) = (&planned.take, &planned.report.summary);
    let notices = planned.notices.iter().map(takes::notice);
    json!({
        "tempo": take.tempo.to_string(),
        "clicks_a_minute": summary.tempo.as_f64(),
        "key": take.key,
        "guide": take.guide.word(),
        "seconds": summary.seconds,
        "playing_seconds": summary.playing_seconds,
        "rest_seconds": summary.rest_seconds,
        "final_seconds": summary.final_seconds,
        "rest_to_playing": summary.ratio(),
        "lowest": note(summary.lowest),
        "highest": note(summary.highest),
        "breaths": summary.breaths,
        "notices": notices.collect::<Vec<_>>(),
        "lines": summary.lines.iter().map(line).collect::<Vec<_>>(),
    })
}

fn line(line: &LineSummary) -> Value {
    json!({
        "routine_line": line.line + 1,
        "name": line.name,
        "clicks_a_minute": line.tempo.as_f64(),
        "passes": line.passes,
        "seconds": line.seconds,
        "playing_seconds": line.playing_seconds,
        "rest_seconds": line.rest_seconds,
        "lowest": note(line.lowest),
        "highest": note(line.highest),
        "breaths": line.breaths,
    })
}

fn note(pitch: Option<WrittenPitch>) -> Option<String> {
    pitch.map(|pitch| pitch.to_string())
}
