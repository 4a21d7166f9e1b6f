//! What goes wrong in a file before it is TOML: curly quotes, missing quotes, missing brackets.

use super::fault::{Fault, Span};
use super::line_reader::LINE_KEYS;
use super::reader::HEAD_KEYS;

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

/// Turns what the TOML parser says into faults, one a row of the file, and gives back where these rows
/// start.
pub fn tell(source: &str, errors: &[toml::de::Error], faults: &mut Vec<Fault>) -> Vec<usize> {
    let repaired: Vec<usize> = faults
        .iter()
        .map(|f| row_start(source, f.span.start))
        .collect();
    let mut told_rows = Vec::new();
    for error in errors {
        let deep = error.message().contains("recurs");
        let span = match error.span() {
            Some(span) => Span::from(span),
            // Of what is nested too deeply the parser does not say where it is.
            None if deep => crowded(source),
            None => Span::new(0, 0),
        };
        let span = Span::new(span.start.min(source.len()), span.end.min(source.len()));
        let row = row_start(source, span.start);
        if told_rows.contains(&row) || repaired.contains(&row) {
            continue;
        }
        told_rows.push(row);
        faults.push(if deep {
            too_deep(row_of(source, row))
        } else {
            explain(source, row, span, error.message())
        });
    }
    told_rows
}

/// Where the row starts that `at` lies in.
pub fn row_start(source: &str, at: usize) -> usize {
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

/// The row that starts at `row_at`, without the blanks at its end.
fn row_of(source: &str, row_at: usize) -> Span {
    let row = source[row_at..].split('\n').next().unwrap_or_default();
    Span::new(row_at, row_at + row.trim_end().len())
}

/// The row in which most brackets or points stand.
fn crowded(source: &str) -> Span {
    let mut at = 0;
    let rows = source.split_inclusive('\n').map(|row| {
        at += row.len();
        (row.matches(['[', '{', '.']).count(), at - row.len())
    });
    let (_, at) = rows.max_by_key(|(crowd, _)| *crowd).unwrap_or_default();
    row_of(source, at)
}

fn too_deep(row: Span) -> Fault {
    Fault::new(
        row,
        "brackets or points inside one another, deeper than any routine goes",
    )
    .hint("a list is one pair of brackets: half_steps = [0, -1, -2]")
}

/// What a row looks like that is right.
const A_ROW: &str =
    "every row is a name, an equals sign and a value: tempo = 72; a remark starts with #";

fn explain(source: &str, row_at: usize, span: Span, message: &str) -> Fault {
    let whole_row = row_of(source, row_at);
    let row = &source[whole_row.start..whole_row.end];
    if let Some(fault) = unseen(row, row_at) {
        return fault;
    }
    let Some((key, value)) = row.split_once('=') else {
        return without_equals(row.trim(), whole_row);
    };
    let (key, value) = (key.trim(), value.trim());
    if message.contains("duplicate key") {
        return Fault::new(span, format!("{key} is written twice"))
            .hint("keep one; under each [[line]] every name may stand once");
    }
    let plain = |c: char| c.is_alphanumeric() || "_-.\"'".contains(c);
    if key.is_empty() || !key.chars().all(plain) {
        return odd_name(key, value, whole_row, source);
    }
    let at_value = row_at + row.find('=').map_or(0, |i| i + 1);
    let at_value = at_value + source[at_value..].len() - source[at_value..].trim_start().len();
    let value_span = Span::new(at_value.min(whole_row.end), whole_row.end);
    let place = span_or(span, whole_row);
    let bare = value.split('#').next().unwrap_or(value).trim();
    if value.is_empty() {
        return Fault::new(whole_row, format!("{key} has no value")).hint(format!(
            "write it after the equals sign: {key} = {}",
            example(key)
        ));
    }
    if value.starts_with(['"', '\'']) {
        return if let Some(backslash) = lone_backslash(value) {
            let at = at_value + backslash;
            Fault::new(
                Span::new(at, at + 1),
                "a backslash means something else here",
            )
            .hint("write it twice, \\\\, or write a slash: /")
        } else if message.contains("unexpected") {
            too_much(place)
        } else {
            Fault::new(place, "this text is not closed where it should be")
                .hint("it starts and ends with one straight quote, in one row: \"…\"")
        };
    }
    let bare_span = Span::new(value_span.start, value_span.start + bare.len());
    if bare.contains(['–', '—', '−']) {
        return Fault::new(bare_span, "this minus is a longer dash").hint(format!(
            "write the plain hyphen: {key} = {}",
            bare.replace(['–', '—', '−'], "-")
        ));
    }
    let decimal_comma = bare.split_once(',').is_some_and(|(whole, part)| {
        [whole, part]
            .iter()
            .all(|p| !p.is_empty() && p.bytes().all(|b| b.is_ascii_digit()))
    });
    if decimal_comma {
        return Fault::new(bare_span, "a number has a point, not a comma")
            .hint(format!("write {key} = {}", bare.replace(',', ".")));
    }
    if bare.contains('=') {
        return too_much(place);
    }
    let is_meter = bare.split_once('/').is_some_and(|(beats, unit)| {
        let digits = |t: &str| t.trim().bytes().all(|b| b.is_ascii_digit());
        digits(beats) && digits(unit)
    });
    if is_meter || bare.starts_with(char::is_alphabetic) {
        let text = bare.trim_end_matches(['"', '\'']);
        return Fault::new(bare_span, "words stand in straight quotes")
            .hint(format!("write {key} = \"{text}\""));
    }
    if message.contains("unexpected key or value") {
        return too_much(place);
    }
    Fault::new(place, "this value is not understood").hint(format!(
        "text stands in straight quotes, a number alone, a list in brackets: {key} = {}",
        example(key)
    ))
}

fn too_much(place: Span) -> Fault {
    Fault::new(place, "there is more in this row than a name and its value")
        .hint("write the next name in a row of its own; a remark starts with #")
}

/// What the value of an entry may look like.
fn example(key: &str) -> &'static str {
    match key {
        "format" => "1",
        "tempo" => "72",
        "times" | "count_in" => "2",
        "half_steps" => "[0, -1, -2]",
        "tubes" => "[\"0\", \"2\", \"1\"]",
        _ => "\"…\"",
    }
}

/// A character in the row that nobody can see, and that is no blank.
fn unseen(row: &str, row_at: usize) -> Option<Fault> {
    let (at, c) = row.char_indices().find(|(_, c)| is_unseen(*c))?;
    let span = Span::new(row_at + at, row_at + at + c.len_utf8());
    Some(
        Fault::new(span, "a character that cannot be seen stands here")
            .hint("delete it, and type anew what is around it"),
    )
}

/// True for characters without a look of their own that are no blanks either: they come with text
/// copied from elsewhere.
pub fn is_unseen(c: char) -> bool {
    c.is_control() && !c.is_whitespace()
        || matches!(
            c,
            '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
                | '\u{feff}'
        )
}

/// The first backslash of a text in quotes that stands for nothing.
fn lone_backslash(text: &str) -> Option<usize> {
    if text.starts_with('\'') {
        return None;
    }
    let mut at = 0;
    while let Some(found) = text[at..].find('\\') {
        at += found;
        let after = &text[at + 1..];
        let digits = |n: usize| {
            after
                .get(1..=n)
                .is_some_and(|d| d.bytes().all(|b| b.is_ascii_hexdigit()))
        };
        let known = match after.chars().next() {
            Some('b' | 't' | 'n' | 'f' | 'r' | 'e' | '"' | '\\') => true,
            Some('x') => digits(2),
            Some('u') => digits(4),
            Some('U') => digits(8),
            _ => false,
        };
        if !known {
            return Some(at);
        }
        at += 2;
    }
    None
}

/// A row without an equals sign.
fn without_equals(row: &str, at: Span) -> Fault {
    let fault = Fault::new(at, "this row is not understood");
    if row.starts_with('[') {
        return fault.hint("a line is opened by [[line]] in a row of its own");
    }
    let name_end = row.find([' ', ':', '\t']).unwrap_or(row.len());
    let (name, rest) = row.split_at(name_end);
    let value = rest.trim_start_matches([':', ' ', '\t']);
    if is_known(name) && !value.is_empty() {
        return fault.hint(format!(
            "an equals sign parts a name from its value: {name} = {value}"
        ));
    }
    fault.hint(A_ROW)
}

/// A row whose name is none.
fn odd_name(key: &str, value: &str, row: Span, source: &str) -> Fault {
    let joined = key.split_whitespace().collect::<Vec<_>>().join("_");
    if is_known(&joined) && joined != key {
        let row_text = &source[row.start..row.end];
        let at = row.start + row_text.len() - row_text.trim_start().len();
        return Fault::new(Span::new(at, at + key.len()), "a name is one word")
            .hint(format!("write {joined} = {value}"));
    }
    Fault::new(row, "this row is not understood").hint(A_ROW)
}

fn is_known(name: &str) -> bool {
    HEAD_KEYS.contains(&name) || LINE_KEYS.contains(&name)
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
