//! What goes wrong in a file before it is TOML: curly quotes, missing quotes, missing brackets.

use super::fault::{Fault, Span};

const OPENING: [char; 6] = ['“', '”', '„', '‟', '«', '»'];
const APOSTROPHES: [char; 3] = ['‘', '’', '‚'];

fn is_curly(c: char) -> bool {
    OPENING.contains(&c) || APOSTROPHES.contains(&c)
}

/// Replaces curly quotes that stand where straight ones should by straight ones, blank-filled so that
/// every other byte keeps its place, and tells each pair. Curly quotes inside straight ones are text
/// and stay.
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
                c if is_curly(c) => {
                    out.push_str(&" ".repeat(width - 1));
                    out.push('"');
                    let line_end = rest.find('\n').unwrap_or(rest.len());
                    let close = rest[width..line_end].find(|c| is_curly(c) || c == '"');
                    let end = close.map_or(line_end, |i| width + i);
                    let close_width = rest[end..]
                        .chars()
                        .next()
                        .filter(|c| *c != '\n')
                        .map_or(0, char::len_utf8);
                    let inside = &rest[width..end];
                    faults.push(
                        Fault::new(Span::new(at, at + end + close_width), "curly quotes")
                            .hint(format!("write straight ones: \"{}\"", inside.trim())),
                    );
                    out.push_str(&inside.replace('\\', "/"));
                    if close_width > 0 {
                        out.push('"');
                        out.push_str(&" ".repeat(close_width - 1));
                    } else {
                        // Nothing closes it: close it in place of its last character, if it has one.
                        close_in_place(&mut out);
                    }
                    used = end + close_width;
                }
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
                    // A string opened straight and closed curly.
                    if let Some(curly) = last_curly_of_line(&out) {
                        let width = out[curly..].chars().next().map_or(1, char::len_utf8);
                        faults.push(
                            Fault::new(Span::new(curly, curly + width), "a curly quote")
                                .hint("close the text with a straight one: \""),
                        );
                        let straight = format!("{quote}{}", " ".repeat(width - 1));
                        out.replace_range(curly..curly + width, &straight);
                    }
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

enum State {
    Outside,
    Comment,
    Inside { quote: char, long: bool },
}

/// Puts a straight quote in place of the last character, blanks before it.
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

/// Turns what the TOML parser says into faults, one a row of the file.
pub fn tell(source: &str, errors: &[toml::de::Error], faults: &mut Vec<Fault>) {
    let mut told_rows: Vec<usize> = faults
        .iter()
        .map(|f| row_start(source, f.span.start))
        .collect();
    for error in errors {
        let span = error.span().map_or(Span::new(0, 0), Span::from);
        let span = Span::new(span.start.min(source.len()), span.end.min(source.len()));
        let row = row_start(source, span.start);
        if told_rows.contains(&row) {
            continue;
        }
        told_rows.push(row);
        faults.push(explain(source, row, span, error.message()));
    }
}

fn row_start(source: &str, at: usize) -> usize {
    source[..floor(source, at)].rfind('\n').map_or(0, |i| i + 1)
}

/// `at`, or the start of the character it falls into.
fn floor(source: &str, at: usize) -> usize {
    let mut at = at.min(source.len());
    while !source.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn explain(source: &str, row_at: usize, span: Span, message: &str) -> Fault {
    let row_end = source[row_at..]
        .find('\n')
        .map_or(source.len(), |i| row_at + i);
    let row = source[row_at..row_end].trim_end();
    let whole_row = Span::new(row_at, row_at + row.len());
    let (key, value) = match row.split_once('=') {
        Some((key, value)) => (key.trim(), Some(value.trim())),
        None => (row.trim(), None),
    };
    if message.contains("duplicate key") {
        return Fault::new(span, format!("{key} is written twice"))
            .hint("keep one; under each [[line]] every name may stand once");
    }
    match value {
        None if key.starts_with('[') => Fault::new(whole_row, "this row is not understood")
            .hint("a line is opened by [[line]] in a row of its own"),
        None => Fault::new(whole_row, "this row is not understood").hint(
            "every row is a name, an equals sign and a value: tempo = 72; a remark starts with #",
        ),
        Some("") => Fault::new(whole_row, format!("{key} has no value"))
            .hint(format!("write it after the equals sign: {key} = \"…\"")),
        Some(value) if value.starts_with(['"', '\'']) && message.contains("invalid") => Fault::new(
            span_or(span, whole_row),
            "this text is not closed where it should be",
        )
        .hint("it starts and ends with one straight quote, in one row: \"…\""),
        Some(value) if value.starts_with(char::is_alphabetic) => {
            let bare = value.split('#').next().unwrap_or(value).trim();
            let start = row_at + row.find(value).unwrap_or(0);
            Fault::new(
                Span::new(start, start + bare.len()),
                "words stand in straight quotes",
            )
            .hint(format!("write {key} = \"{bare}\""))
        }
        Some(_) => Fault::new(span_or(span, whole_row), "this value is not understood").hint(
            format!("text stands in straight quotes, numbers stand alone ({message})"),
        ),
    }
}

fn span_or(span: Span, row: Span) -> Span {
    if span.start < span.end { span } else { row }
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
