//! Finds a text in three quotes that is never closed, or closed only by the quotes that open another one.

use super::broken_row::Dialect;
use super::fault::{Fault, Span};
use crate::words::tell;

/// The first text that swallows what stands behind it.
pub fn find(source: &str, dialect: &Dialect) -> Option<Fault> {
    let mut at = 0;
    while let Some((start, quotes)) = next_opening(source, at) {
        let inside = start + quotes.len();
        let end = source[inside..].find(quotes).map(|i| inside + i);
        let text = &source[inside..end.unwrap_or(source.len())];
        let swallows = text.lines().skip(1).any(|row| opens(row, dialect));
        let Some(end) = end.filter(|_| !swallows) else {
            return Some(
                Fault::new(Span::new(start, inside), tell::quotes_never_closed(quotes))
                    .hint(tell::quotes_once_more(quotes)),
            );
        };
        at = end + quotes.len();
    }
    None
}

/// The next three quotes that are outside other texts and comments, from `at` on.
fn next_opening(source: &str, at: usize) -> Option<(usize, &'static str)> {
    let mut at = at;
    while let Some(found) = source[at..].find(['"', '\'', '#']) {
        at += found;
        let rest = &source[at..];
        for quotes in ["\"\"\"", "'''"] {
            if rest.starts_with(quotes) {
                return Some((at, quotes));
            }
        }
        let row_end = rest.find('\n').unwrap_or(rest.len());
        at += match rest.as_bytes()[0] {
            b'#' => row_end,
            quote => one_row(&rest[..row_end], char::from(quote)),
        };
    }
    None
}

/// The length of a text in single quotes at the start of `row`, as far as the row goes.
fn one_row(row: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, c) in row.char_indices().skip(1) {
        match c {
            _ if escaped => escaped = false,
            '\\' if quote == '"' => escaped = true,
            c if c == quote => return at + 1,
            _ => {}
        }
    }
    row.len()
}

/// True for a row that opens a table or gives a value to a known name.
fn opens(row: &str, dialect: &Dialect) -> bool {
    let row = row.trim_start();
    row.starts_with(dialect.opens)
        || row
            .split_once('=')
            .is_some_and(|(key, _)| dialect.knows(key.trim()))
}
