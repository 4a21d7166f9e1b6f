//! What the other instrument's player cannot play, or not with ease, is left out.

use super::model::{CarryError, LeftOutLine};
use super::replacements::Replacements;
use crate::brass::Instrument;
use crate::check::{self, Finding, Options, Severity};
use crate::problem::Problem;
use crate::routine::{self, Fault, Routine};
use crate::score::{Take, unroll};
use std::ops::Range;
use toml::de::DeTable;

/// Removes from the text the lines in `left_out`, and those in which the checker or the reader finds what it does not find in
/// the routine that was carried; the latter are returned.
pub fn without_unfit(
    original: &Routine,
    text: &str,
    to: &'static Instrument,
    left_out: &[LeftOutLine],
) -> Result<(String, Vec<LeftOutLine>), CarryError> {
    let gone: Vec<usize> = left_out.iter().map(|line| line.number).collect();
    // The numbers of the lines that are still in the text.
    let there: Vec<usize> = (1..=original.lines.len())
        .filter(|number| !gone.contains(number))
        .collect();
    let shorter = remove(text, original.lines.len(), &gone)?;
    if there.is_empty() {
        return Err(CarryError::NothingLeft(left_out.to_vec()));
    }
    let unfit: Vec<(usize, Problem)> = match routine::read(&shorter) {
        Ok(carried) => findings(original, &carried, &there),
        Err(faults) => faulty(&shorter, &there, faults, to)?,
    };
    let unfit: Vec<LeftOutLine> = unfit
        .into_iter()
        .map(|(number, problem)| LeftOutLine {
            number,
            name: original.lines[number - 1].name.clone(),
            problem,
        })
        .collect();
    let text = if unfit.is_empty() {
        shorter
    } else {
        text.to_owned()
    };
    Ok((text, unfit))
}

/// The lines with warnings and errors that they did not have, each with the first of them.
fn findings(original: &Routine, carried: &Routine, there: &[usize]) -> Vec<(usize, Problem)> {
    let before = judged(original);
    let mut unfit: Vec<(usize, Problem)> = vec![];
    for finding in judged(carried) {
        let Some(number) = finding.line.and_then(|line| there.get(line)).copied() else {
            continue;
        };
        let known = |old: &Finding| old.rule == finding.rule && old.line == Some(number - 1);
        if before.iter().any(known) || unfit.iter().any(|(n, _)| *n == number) {
            continue;
        }
        // The line is named where it is told that it is left out.
        let name = format!("“{}”: ", carried.lines[finding.line.unwrap_or(0)].name);
        let message = finding.message.replacen(&name, "", 1);
        let mut problem = Problem::error(message);
        if let Some(hint) = finding.hint {
            problem = problem.hint(hint);
        }
        unfit.push((number, problem));
    }
    unfit
}

/// The warnings and errors of a routine as written.
fn judged(routine: &Routine) -> Vec<Finding> {
    let Ok(score) = unroll(routine, &Take::default()) else {
        return vec![];
    };
    let report = check::check(&score, &Options::default());
    let serious = report.findings.into_iter();
    serious
        .filter(|finding| finding.severity > Severity::Advice)
        .collect()
}

/// The lines in which the reader finds a fault, each with the first of them.
fn faulty(
    text: &str,
    there: &[usize],
    faults: Vec<Fault>,
    to: &Instrument,
) -> Result<Vec<(usize, Problem)>, CarryError> {
    let places = lines(text, there.len())?;
    let mut unfit: Vec<(usize, Problem)> = vec![];
    for fault in faults {
        let holds = |range: &Range<usize>| range.contains(&fault.span.start);
        let Some(index) = places.iter().position(holds) else {
            let why = format!(
                "it cannot be written for the {}: {}",
                to.name, fault.message
            );
            return Err(CarryError::Untouchable(Problem::error(why)));
        };
        if unfit.iter().any(|(number, _)| *number == there[index]) {
            continue;
        }
        let problem = Problem::error(fault.message);
        unfit.push((
            there[index],
            match fault.hint {
                Some(hint) => problem.hint(hint),
                None => problem,
            },
        ));
    }
    Ok(unfit)
}

/// The text without some of its lines, counted from 1.
fn remove(text: &str, count: usize, gone: &[usize]) -> Result<String, CarryError> {
    let mut replacements = Replacements::default();
    if !gone.is_empty() {
        let places = lines(text, count)?;
        for number in gone {
            replacements.replace(places[number - 1].clone(), "");
        }
    }
    Ok(replacements.apply(text))
}

/// Where each line stands in the text, from the comment over its header to that of the next one.
pub fn lines(text: &str, count: usize) -> Result<Vec<Range<usize>>, CarryError> {
    let untouchable = || {
        let why = "its lines are not written as [[line]] tables, so none of them can be left out";
        CarryError::Untouchable(
            Problem::error(why).hint("write every line under a [[line]] of its own"),
        )
    };
    let (root, _) = DeTable::parse_recoverable(text);
    let tables = root.get_ref().get("line").map(|lines| lines.get_ref());
    let tables = tables.and_then(|lines| lines.as_array());
    let tables = tables.filter(|tables| tables.len() == count);
    let tables = tables.ok_or_else(untouchable)?;
    let mut starts = vec![];
    for table in tables {
        let table = table.get_ref().as_table().ok_or_else(untouchable)?;
        let first = table.keys().map(|key| key.span().start).min();
        let header = first.and_then(|first| text[..first].rfind("[[line]]"));
        starts.push(over(text, header.ok_or_else(untouchable)?));
    }
    let ends = starts.iter().skip(1).copied().chain([text.len()]);
    let ranges: Vec<Range<usize>> = starts
        .iter()
        .copied()
        .zip(ends)
        .map(|(a, b)| a..b)
        .collect();
    match ranges.iter().all(|range| range.start < range.end) {
        true => Ok(ranges),
        false => Err(untouchable()),
    }
}

/// The start of the comment right over a header, or of the header's row.
fn over(text: &str, header: usize) -> usize {
    let mut start = text[..header].rfind('\n').map_or(0, |at| at + 1);
    while start > 0 {
        let above = text[..start - 1].rfind('\n').map_or(0, |at| at + 1);
        if !text[above..start].starts_with('#') {
            break;
        }
        start = above;
    }
    start
}
