//! Entries of the head and of lines.

use super::model::{Selection, Splice, Value};
use super::splices::splice;
use super::structure::Structure;
use crate::problem::Problem;
use crate::routine::line_reader::LINE_KEYS;
use crate::routine::reader::HEAD_KEYS;
use crate::words::list;

/// Splices, and what is selected after them.
pub type Change = (Vec<Splice>, Option<Selection>);

/// Entries without which there is no routine, or no line.
const NEEDED: [&str; 6] = [
    "format",
    "title",
    "instrument",
    "comfortable_top",
    "tempo",
    "name",
];

/// Sets an entry.
pub fn set(
    structure: &Structure<'_>,
    line: Option<usize>,
    key: &str,
    value: &Value,
) -> Result<Change, Problem> {
    known(line, key)?;
    let written = written(value)?;
    if let Some((_, old)) = structure.entry(line, key)? {
        return Ok((vec![splice(old.span(), written)], selected(line)));
    }
    let at = structure.end_of_entries(line)?;
    let end = structure.row_break();
    let row = if structure.text[..at].ends_with('\n') || at == 0 {
        format!("{key} = {written}{end}")
    } else {
        format!("{end}{key} = {written}")
    };
    Ok((vec![splice(at..at, row)], selected(line)))
}

/// Removes an entry; a comment behind it stays.
pub fn remove(
    structure: &Structure<'_>,
    line: Option<usize>,
    key: &str,
) -> Result<Change, Problem> {
    known(line, key)?;
    // A line's own tempo can go, the routine's cannot.
    if NEEDED.contains(&key) && !(line.is_some() && key == "tempo") {
        let of = if line.is_some() { "line" } else { "routine" };
        return Err(
            Problem::error(format!("a {of} cannot be without its {key}"))
                .hint("write another value instead"),
        );
    }
    let Some((name, value)) = structure.entry(line, key)? else {
        return Ok((vec![], selected(line)));
    };
    let start = structure.row_start(name.start);
    let end = structure.row_end(value.span().end);
    let behind = &structure.text[value.span().end..end];
    let range = match behind.find('#') {
        Some(comment) => name.start..value.span().end + comment,
        None => start..end,
    };
    Ok((vec![splice(range, "")], selected(line)))
}

fn selected(line: Option<usize>) -> Option<Selection> {
    line.map(|line| Selection { line, signs: None })
}

fn known(line: Option<usize>, key: &str) -> Result<(), Problem> {
    let keys: &[&str] = if line.is_some() {
        &LINE_KEYS
    } else {
        &HEAD_KEYS
    };
    if keys.contains(&key) && key != "line" {
        return Ok(());
    }
    let of = if line.is_some() { "line" } else { "routine" };
    let keys: Vec<&str> = keys.iter().copied().filter(|key| *key != "line").collect();
    Err(Problem::error(format!("a {of} has no “{key}”"))
        .hint(format!("it has {}", list::and(&keys))))
}

/// A value as it is written in the file.
pub fn written(value: &Value) -> Result<String, Problem> {
    let finite = |value: &Value| !matches!(value, Value::Number(number) if !number.is_finite());
    let all = match value {
        Value::List(values) => values.iter().all(finite),
        one => finite(one),
    };
    match all {
        true => Ok(value.written()),
        false => Err(Problem::error("that is no number")),
    }
}
