//! Writes a mark into the text of a pencil, or removes one. Everything else stays byte for byte.
//!
//! Rows are inserted and removed as text, at places that come from the parser. The rest is never printed again, so
//! blanks, comments, order and line ends stay as they are.

use super::mark::{Change, Mark};
use super::spoken::Row;
use crate::routine::Span;
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// The text of a pencil without marks.
pub fn empty(player: Option<&str>) -> String {
    let mut text =
        "# Pencil marks over a routine, which itself stays as it is.\nformat = 1\n".to_owned();
    if let Some(player) = player {
        text += &format!("player = {}\n", super::spoken::quoted(player));
    }
    text
}

/// The text with one more mark at its end. `line` is a number or a name in TOML, `None` for the whole routine.
pub fn add(text: &str, line: Option<&str>, row: &Row, date: Option<&str>) -> String {
    let end = line_end(text);
    let mut rows = vec!["[[mark]]".to_owned()];
    rows.extend(line.map(|line| format!("line = {line}")));
    rows.extend(date.map(|date| format!("date = {date}")));
    rows.push(format!("{} = {}", row.kind, row.value));
    let block = rows.join(end);
    // If the last row has no line end, the new one gets none either, so that taking the mark back restores the text.
    if text.is_empty() || text.ends_with('\n') {
        format!("{text}{end}{block}{end}")
    } else {
        format!("{text}{end}{end}{block}")
    }
}

fn line_end(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

/// The text without this mark, which was read from it. `None` if it is written in a form that cannot be removed
/// safely.
pub fn erase(text: &str, mark: &Mark) -> Option<String> {
    let root = DeTable::parse(text).ok()?;
    let (_, marks) = root.get_ref().get_key_value("mark")?;
    let DeValue::Array(marks) = marks.get_ref() else {
        return None;
    };
    let table = marks.get(mark.table)?;
    let header = Span::from(table.span());
    if !text[header.start..].starts_with("[[") {
        return None;
    }
    let DeValue::Table(entries) = table.get_ref() else {
        return None;
    };
    let (_, value) = entries.get_key_value(mark.change.kind())?;
    if let (Change::BreathAfter(note), DeValue::Array(list)) = (&mark.change, value.get_ref())
        && list.len() > 1
    {
        return without_note(text, value.span(), *note);
    }
    let rows = |key: &str| -> Option<Range<usize>> {
        let (name, value) = entries.get_key_value(key)?;
        Some(row_start(text, name.span().start)..row_end(text, value.span().end))
    };
    let others = entries
        .keys()
        .map(|key| key.get_ref().as_ref())
        .any(|key| !["line", "date", mark.change.kind()].contains(&key));
    let mut out: Vec<Range<usize>> = if others {
        vec![rows(mark.change.kind())?]
    } else {
        // The empty row before the heading is removed with it.
        let start = row_start(text, header.start);
        let before = &text[..start];
        let blank = ["\r\n", "\n"].iter().find(|end| {
            before
                .strip_suffix(**end)
                .is_some_and(|b| b.is_empty() || b.ends_with('\n'))
        });
        let heading = start - blank.map_or(0, |end| end.len())..row_end(text, header.start);
        let entries = ["line", "date", mark.change.kind()];
        std::iter::once(heading)
            .chain(entries.iter().filter_map(|key| rows(key)))
            .collect()
    };
    out.sort_by_key(|range| range.start);
    let mut left = String::with_capacity(text.len());
    let mut at = 0;
    for range in &out {
        left.push_str(text.get(at..range.start)?);
        at = range.end;
    }
    left.push_str(&text[at..]);
    // The last row had no line end, so the new last row gets none.
    if at == text.len() && !text.ends_with('\n') {
        let bare = left
            .strip_suffix('\n')
            .map(|l| l.strip_suffix('\r').unwrap_or(l));
        left = bare.unwrap_or(&left).to_owned();
    }
    Some(left)
}

/// The text without this note in the list at `list`.
fn without_note(text: &str, list: Range<usize>, note: usize) -> Option<String> {
    let inside = text[list.clone()].strip_prefix('[')?.strip_suffix(']')?;
    let numbers: Vec<&str> = inside
        .split(',')
        .map(str::trim)
        .filter(|n| !n.is_empty())
        .collect();
    let mut left = numbers.clone();
    left.remove(numbers.iter().position(|n| *n == note.to_string())?);
    Some(format!(
        "{}[{}]{}",
        &text[..list.start],
        left.join(", "),
        &text[list.end..]
    ))
}

fn row_start(text: &str, at: usize) -> usize {
    text[..at].rfind('\n').map_or(0, |i| i + 1)
}

/// The start of the row after the one that contains `at`, or the end of the text.
fn row_end(text: &str, at: usize) -> usize {
    text[at..].find('\n').map_or(text.len(), |i| at + i + 1)
}
