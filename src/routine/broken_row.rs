//! Explains rows that are not valid TOML, in a teacher's words.

use super::fault::{Fault, Span};
use super::suggest::number_in;
use crate::words::tell;

/// The vocabulary of a kind of file: a routine, a pencil, a class list.
#[derive(Clone, Copy)]
pub struct Dialect {
    /// The word for the file: "routine".
    pub file: &'static str,
    /// The header of one of its tables: `[[line]]`.
    pub opens: &'static str,
    /// The word for such a table: "a line".
    pub table: &'static str,
    /// The names of entries, at the head and in tables.
    pub keys: [&'static [&'static str]; 2],
}

impl Dialect {
    /// True if `name` is the name of an entry.
    pub fn knows(&self, name: &str) -> bool {
        self.keys.iter().any(|keys| keys.contains(&name))
    }
}

/// What is wrong with a row for which the TOML parser reports `message` at `span`.
pub fn explain(
    source: &str,
    whole_row: Span,
    span: Span,
    message: &str,
    dialect: &Dialect,
) -> Fault {
    let row_at = whole_row.start;
    let row = &source[whole_row.start..whole_row.end];
    if let Some(fault) = unseen(row, row_at) {
        return fault;
    }
    let Some((key, value)) = row.split_once('=') else {
        return without_equals(row.trim(), whole_row, dialect);
    };
    let (key, value) = (key.trim(), value.trim());
    if message.contains("duplicate key") {
        return Fault::new(span, tell::written_twice(key))
            .hint(tell::keep_one_under(dialect.opens));
    }
    let plain = |c: char| c.is_alphanumeric() || "_-.\"'".contains(c);
    if key.is_empty() || !key.chars().all(plain) {
        return odd_name(key, value, whole_row, source, dialect);
    }
    let at_value = row_at + row.find('=').map_or(0, |i| i + 1);
    let at_value = at_value + source[at_value..].len() - source[at_value..].trim_start().len();
    let value_span = Span::new(at_value.min(whole_row.end), whole_row.end);
    let place = span_or(span, whole_row);
    let bare = value.split('#').next().unwrap_or(value).trim();
    if value.is_empty() {
        return Fault::new(whole_row, tell::has_no_value(key))
            .hint(tell::value_after_equals(key, example(key)));
    }
    if matches!(key, "half_steps" | "tubes" | "articulation")
        && bare.contains(',')
        && !bare.starts_with('[')
    {
        return Fault::new(
            Span::new(value_span.start, value_span.start + bare.len()),
            tell::list_in_brackets(),
        )
        .hint(tell::write_list(key, bare));
    }
    if let Some(fault) = unclosed(key, value, bare, value_span) {
        return fault;
    }
    if value.starts_with(['"', '\'']) {
        return in_quotes(value, at_value, message, place);
    }
    let bare_span = Span::new(value_span.start, value_span.start + bare.len());
    if let Some(fault) = without_quotes(key, bare, bare_span, place) {
        return fault;
    }
    if message.contains("unexpected key or value") {
        return too_much(place);
    }
    Fault::new(place, tell::value_not_understood()).hint(tell::how_values_stand(key, example(key)))
}

/// What is wrong with a value that goes on for rows or should be closed: a lone quote, a list without its end.
fn unclosed(key: &str, value: &str, bare: &str, value_span: Span) -> Option<Fault> {
    if value == "\"" || value == "'" {
        return Some(
            Fault::new(value_span, tell::text_over_rows()).hint(tell::open_with_three(key)),
        );
    }
    if bare.starts_with('[') && !bare.ends_with(']') {
        return Some(
            Fault::new(value_span, tell::list_not_closed())
                .hint(tell::list_ends_with(key, example(key))),
        );
    }
    None
}

/// What is wrong with a value that begins with a quote.
fn in_quotes(value: &str, at_value: usize, message: &str, place: Span) -> Fault {
    if let Some(backslash) = lone_backslash(value) {
        let at = at_value + backslash;
        Fault::new(Span::new(at, at + 1), tell::backslash()).hint(tell::backslash_twice())
    } else if message.contains("unexpected") {
        too_much(place)
    } else {
        Fault::new(place, tell::text_not_closed()).hint(tell::text_in_quotes())
    }
}

/// What is wrong with a value without quotes, if the value shows it.
fn without_quotes(key: &str, bare: &str, bare_span: Span, place: Span) -> Option<Fault> {
    if bare.contains(['–', '—', '−']) {
        let hint = tell::plain_hyphen(key, bare.replace(['–', '—', '−'], "-"));
        return Some(Fault::new(bare_span, tell::longer_dash()).hint(hint));
    }
    let decimal_comma = bare.split_once(',').is_some_and(|(whole, part)| {
        [whole, part]
            .iter()
            .all(|p| !p.is_empty() && p.bytes().all(|b| b.is_ascii_digit()))
    });
    if decimal_comma {
        let hint = tell::write_value(key, bare.replace(',', "."));
        return Some(Fault::new(bare_span, tell::decimal_point()).hint(hint));
    }
    // "quarter = 60", but not "60 meter = …", which is two rows in one.
    if key == "tempo" && (!bare.contains('=') || bare.starts_with(char::is_alphabetic)) {
        let number = number_in(bare).unwrap_or("72");
        let message = tell::tempo_alone();
        return Some(Fault::new(bare_span, message).hint(tell::write_tempo(number)));
    }
    if bare.contains('=') {
        return Some(too_much(place));
    }
    let is_meter = bare.split_once('/').is_some_and(|(beats, unit)| {
        let digits = |t: &str| t.trim().bytes().all(|b| b.is_ascii_digit());
        digits(beats) && digits(unit)
    });
    let measured = bare.starts_with(|c: char| c.is_ascii_digit())
        && bare.contains(char::is_alphabetic)
        && !bare.contains(['"', '\'', '[']);
    if is_meter || measured || bare.starts_with(char::is_alphabetic) {
        let text = bare.trim_end_matches(['"', '\'']);
        let hint = tell::write_in_quotes(key, text);
        return Some(Fault::new(bare_span, tell::words_in_quotes()).hint(hint));
    }
    None
}

fn too_much(place: Span) -> Fault {
    Fault::new(place, tell::too_much_in_row()).hint(tell::next_in_own_row())
}

/// An example of a correct value for the entry.
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

/// An invisible character in the row that is not a space.
fn unseen(row: &str, row_at: usize) -> Option<Fault> {
    let (at, c) = row.char_indices().find(|(_, c)| is_unseen(*c))?;
    let span = Span::new(row_at + at, row_at + at + c.len_utf8());
    Some(Fault::new(span, tell::unseen_here()).hint(tell::delete_unseen()))
}

/// True for invisible characters that are not spaces; they come with text copied from elsewhere.
pub fn is_unseen(c: char) -> bool {
    c.is_control() && !c.is_whitespace()
        || matches!(
            c,
            '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
                | '\u{feff}'
        )
}

/// The first invalid escape in a text in quotes.
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
fn without_equals(row: &str, at: Span, dialect: &Dialect) -> Fault {
    let fault = Fault::new(at, tell::row_not_understood());
    let opener = dialect.opens.trim_matches(['[', ']']);
    if row.starts_with('[') || row == opener {
        return fault.hint(tell::opened_by(dialect.table, dialect.opens));
    }
    let name_end = row.find([' ', ':', '\t']).unwrap_or(row.len());
    let (name, rest) = row.split_at(name_end);
    let value = rest.trim_start_matches([':', ' ', '\t']);
    if dialect.knows(name) && !value.is_empty() {
        let quoted = value.starts_with(char::is_alphabetic) && name != "tempo";
        let value = if quoted {
            format!("\"{value}\"")
        } else {
            value.to_owned()
        };
        return fault.hint(tell::equals_parts(name, &value));
    }
    fault.hint(tell::a_row())
}

/// A row with an invalid name.
fn odd_name(key: &str, value: &str, row: Span, source: &str, dialect: &Dialect) -> Fault {
    let joined = key.split_whitespace().collect::<Vec<_>>().join("_");
    if dialect.knows(&joined) && joined != key {
        let row_text = &source[row.start..row.end];
        let at = row.start + row_text.len() - row_text.trim_start().len();
        return Fault::new(Span::new(at, at + key.len()), tell::name_is_one_word())
            .hint(tell::write_joined(&joined, value));
    }
    Fault::new(row, tell::row_not_understood()).hint(tell::a_row())
}

fn span_or(span: Span, row: Span) -> Span {
    if span.start < span.end { span } else { row }
}
