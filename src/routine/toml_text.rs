//! Repairs and explains mistakes that keep a file from being TOML: curly quotes, missing quotes, missing
//! brackets.

use super::bounds::MOST_FAULTS;
use super::broken_row::{Dialect, explain};
use super::fault::{Fault, Span};
use crate::words::tell;
use std::collections::BTreeSet;

const OPENING: [char; 6] = ['“', '”', '„', '‟', '«', '»'];
const APOSTROPHES: [char; 3] = ['‘', '’', '‚'];

fn is_curly(c: char) -> bool {
    OPENING.contains(&c) || APOSTROPHES.contains(&c)
}

/// Replaces curly quotes that should be straight, padded with spaces so that every other byte keeps its place,
/// and reports each pair. Curly quotes inside straight ones are text and stay.
pub fn repair(text: &str) -> (String, Vec<Fault>) {
    let mut faults = Vec::new();
    if !text.contains(is_curly) {
        return (text.to_owned(), faults);
    }
    let mut out = String::with_capacity(text.len());
    let mut state = State::Outside;
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        let width = c.len_utf8();
        let mut used = width;
        match state {
            State::Outside => match c {
                '#' => {
                    state = State::Comment;
                    out.push(c);
                }
                '"' | '\'' => {
                    let triple = [c; 3].iter().collect::<String>();
                    let long = rest.starts_with(&triple);
                    used = if long { 3 } else { 1 };
                    out.push_str(&rest[..used]);
                    state = State::Inside { quote: c, long };
                }
                c if is_curly(c) => used = curly_text(rest, at, &mut out, &mut faults),
                c => out.push(c),
            },
            State::Comment => {
                if c == '\n' {
                    state = State::Outside;
                }
                out.push(c);
            }
            State::Inside { quote, long } => {
                let close = if long {
                    [quote; 3].iter().collect()
                } else {
                    quote.to_string()
                };
                if c == '\\' && quote == '"' {
                    used = width + rest[1..].chars().next().map_or(0, char::len_utf8);
                    out.push_str(&rest[..used]);
                } else if rest.starts_with(&close) {
                    used = close.len();
                    out.push_str(&close);
                    state = State::Outside;
                } else if c == '\n' && !long {
                    // A string with a straight opening and a curly closing quote.
                    straighten_last(quote, &mut out, &mut faults);
                    out.push(c);
                    state = State::Outside;
                } else {
                    out.push_str(&rest[..used]);
                }
            }
        }
        at += used;
    }
    (out, faults)
}

/// Writes a text in curly quotes, at the start of `rest`, in straight ones; returns its length in bytes.
fn curly_text(rest: &str, at: usize, out: &mut String, faults: &mut Vec<Fault>) -> usize {
    let width = rest.chars().next().map_or(0, char::len_utf8);
    out.push_str(&" ".repeat(width - 1));
    out.push('"');
    let close = rest[width..].find(|c| is_curly(c) || matches!(c, '"' | '\n'));
    let end = close.map_or(rest.len(), |i| width + i);
    let close_width = rest[end..]
        .chars()
        .next()
        .filter(|c| *c != '\n')
        .map_or(0, char::len_utf8);
    let inside = &rest[width..end];
    faults.push(
        Fault::new(Span::new(at, at + end + close_width), tell::curly_quotes())
            .hint(tell::write_straight(inside.trim())),
    );
    out.push_str(&inside.replace('\\', "/"));
    if close_width > 0 {
        out.push('"');
        out.push_str(&" ".repeat(close_width - 1));
    } else {
        // It has no closing quote: close it in place of its last character, if it has one.
        close_in_place(out);
    }
    end + close_width
}

/// Replaces the last curly quote of the row at the end of `out` by a straight one.
fn straighten_last(quote: char, out: &mut String, faults: &mut Vec<Fault>) {
    let Some(curly) = last_curly_of_line(out) else {
        return;
    };
    let width = out[curly..].chars().next().map_or(1, char::len_utf8);
    faults.push(
        Fault::new(Span::new(curly, curly + width), tell::a_curly_quote())
            .hint(tell::close_straight()),
    );
    let straight = format!("{quote}{}", " ".repeat(width - 1));
    out.replace_range(curly..curly + width, &straight);
}

enum State {
    Outside,
    Comment,
    Inside { quote: char, long: bool },
}

/// Replaces the last character by a straight quote, padded with spaces.
fn close_in_place(out: &mut String) {
    if let Some(last) = out.pop() {
        out.push_str(&" ".repeat(last.len_utf8() - 1));
        out.push('"');
    }
}

fn last_curly_of_line(out: &str) -> Option<usize> {
    let start = out.rfind('\n').map_or(0, |i| i + 1);
    out[start..].rfind(is_curly).map(|i| start + i)
}

/// Turns parser errors into faults, at most one for each row and no more than will be shown, and returns these
/// rows.
pub fn tell(
    source: &str,
    errors: &[toml::de::Error],
    dialect: &Dialect,
    faults: &mut Vec<Fault>,
) -> Vec<Span> {
    let repaired = rows_of(source, faults);
    let mut told: Vec<Span> = Vec::new();
    // The parser does not report in order of rows, and a row can explain those after it.
    let ends: Vec<usize> = source.match_indices('\n').map(|(at, _)| at).collect();
    let row = |at: usize| ends.partition_point(|end| *end < at);
    let mut errors: Vec<&toml::de::Error> = errors.iter().collect();
    errors.sort_by_key(|error| error.span().map(|span| row(span.start)));
    for error in errors {
        if told.len() == MOST_FAULTS {
            break;
        }
        let deep = error.message().contains("recurs");
        let span = match error.span() {
            Some(span) => Span::from(span),
            // If the nesting is too deep, the parser does not say where.
            None if deep => crowded(source),
            None => Span::new(0, 0),
        };
        let span = Span::new(span.start.min(source.len()), span.end.min(source.len()));
        if told.iter().any(|row| row.holds(span.start)) {
            continue;
        }
        let row = row_of(source, row_start(source, span.start));
        if repaired.contains(&row.start) {
            continue;
        }
        if let Some(list) = unclosed_list(&source[..row.end], dialect) {
            faults.push(Fault::new(list, tell::list_not_closed()).hint(tell::list_ends()));
            // From here on, all errors are about rows that were taken for the rest of the list.
            told.push(Span::new(list.start, source.len()));
            break;
        }
        told.push(if opens_over_rows(source, row) {
            // The rows up to the next name are the rest of this text.
            Span::new(row.start, next_entry(source, row.end, dialect))
        } else {
            row
        });
        faults.push(if deep {
            too_deep(row)
        } else {
            explain(source, row, span, error.message(), dialect)
        });
    }
    told
}

/// True for a row that gives a name a lone quote: a text that should go over several rows.
fn opens_over_rows(source: &str, row: Span) -> bool {
    source[row.start..row.end]
        .split_once('=')
        .is_some_and(|(_, value)| matches!(value.trim(), "\"" | "'"))
}

/// The end of the rows from `from` on that neither open a table nor begin with a name.
fn next_entry(source: &str, from: usize, dialect: &Dialect) -> usize {
    let mut at = from;
    for row in source[from..].split_inclusive('\n').skip(1) {
        let name = row.split_once('=').map(|(key, _)| key.trim());
        if row.trim_start().starts_with('[') || name.is_some_and(|key| dialect.knows(key)) {
            break;
        }
        at += row.len();
    }
    at.min(source.len())
}

/// The starts of the rows with faults, which are in order of place.
fn rows_of(source: &str, faults: &[Fault]) -> BTreeSet<usize> {
    let mut starts = BTreeSet::new();
    let mut last: Option<Span> = None;
    for fault in faults {
        let at = fault.span.start;
        if !last.is_some_and(|row| row.holds(at)) {
            let row = row_of(source, row_start(source, at));
            starts.insert(row.start);
            last = Some(row);
        }
    }
    starts
}

/// The start of the row that contains `at`.
fn row_start(source: &str, at: usize) -> usize {
    source[..floor(source, at)].rfind('\n').map_or(0, |i| i + 1)
}

/// `at`, or the start of the character that contains it.
fn floor(source: &str, at: usize) -> usize {
    let mut at = at.min(source.len());
    while !source.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The row that starts at `row_at`, without trailing spaces.
fn row_of(source: &str, row_at: usize) -> Span {
    let row = source[row_at..].split('\n').next().unwrap_or_default();
    Span::new(row_at, row_at + row.trim_end().len())
}

/// The row with the most brackets or points.
fn crowded(source: &str) -> Span {
    let mut at = 0;
    let rows = source.split_inclusive('\n').map(|row| {
        at += row.len();
        (row.matches(['[', '{', '.']).count(), at - row.len())
    });
    let (_, at) = rows.max_by_key(|(crowd, _)| *crowd).unwrap_or_default();
    row_of(source, at)
}

/// The row that opens a list in which, before the list ends, `text` has a row that opens a line or begins with
/// a name.
fn unclosed_list(text: &str, dialect: &Dialect) -> Option<Span> {
    let (mut depth, mut opened, mut at) = (0i32, 0, 0);
    for row in text.split_inclusive('\n') {
        let row_at = at;
        at += row.len();
        let named = row
            .split_once('=')
            .filter(|(key, _)| dialect.knows(key.trim()));
        if depth > 0 && (named.is_some() || row.trim_start().starts_with("[[")) {
            return Some(row_of(text, opened));
        }
        let value = match named {
            Some((_, value)) => value,
            None if depth > 0 => row,
            None => continue,
        };
        if depth == 0 {
            opened = row_at;
        }
        depth += brackets_left_open(value);
    }
    None
}

/// Square brackets opened in a row and not closed in it, ignoring texts and comments.
fn brackets_left_open(row: &str) -> i32 {
    let (mut open, mut quote) = (0, None);
    for c in row.chars() {
        match (quote, c) {
            (Some(q), c) if q == c => quote = None,
            (None, '"' | '\'') => quote = Some(c),
            (None, '#') => break,
            (None, '[') => open += 1,
            (None, ']') => open -= 1,
            _ => {}
        }
    }
    open
}

fn too_deep(row: Span) -> Fault {
    Fault::new(row, tell::too_deep()).hint(tell::one_pair())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn curly_quotes_are_told_and_everything_keeps_its_place() {
        let text =
            "title = “Second steps”\nname = \"a “quoted” word\" # “no”\nx = \"half”\ny = ‘z\n";
        let (repaired, faults) = repair(text);
        assert_eq!(repaired.len(), text.len());
        assert_eq!(faults.len(), 3);
        assert!(repaired.contains("\"Second steps\""));
        assert!(repaired.contains("a “quoted” word"));
        assert!(repaired.contains("x = \"half\""));
        let (_, errors) = toml::de::DeTable::parse_recoverable(&repaired);
        assert!(errors.is_empty(), "{errors:?}");
    }
}
