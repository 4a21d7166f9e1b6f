//! From the text inside a TOML string back to its place in the file.

use super::fault::Span;
use std::ops::Range;

/// The text of a TOML string, with the place in the file of every byte of it.
#[derive(Clone, Debug)]
pub struct Placed {
    /// The text, escapes resolved.
    pub text: String,
    /// For each byte of `text`, where the character it belongs to starts and ends in the file.
    places: Vec<(usize, usize)>,
    /// Where the text ends in the file.
    end: usize,
}

impl Placed {
    /// Decodes the TOML string that stands, quotes included, at `span` of `source`.
    ///
    /// The string has been accepted by the TOML parser, or repaired by it; whatever is not understood
    /// is taken as it stands.
    pub fn decode(source: &str, span: Range<usize>) -> Placed {
        let raw = &source[span.clone()];
        let (quote, literal) = match raw.as_bytes() {
            [b'"', b'"', b'"', ..] => (3, false),
            [b'\'', b'\'', b'\'', ..] => (3, true),
            [b'\'', ..] => (1, true),
            [b'"', ..] => (1, false),
            _ => (0, true),
        };
        let close = &raw[..quote];
        let inner = &raw[quote..];
        let inner = inner.strip_suffix(close).unwrap_or(inner);
        let mut start = span.start + quote;
        let mut rest = inner;
        if quote == 3 {
            // A line end right after the opening quotes is no part of the text.
            for line_end in ["\r\n", "\n"] {
                if let Some(after) = rest.strip_prefix(line_end) {
                    start += line_end.len();
                    rest = after;
                    break;
                }
            }
        }
        let mut placed = Placed {
            text: String::with_capacity(rest.len()),
            places: Vec::new(),
            end: start,
        };
        let mut at = 0;
        while let Some(c) = rest[at..].chars().next() {
            let (decoded, used) = if c == '\\' && !literal {
                unescape(&rest[at..])
            } else {
                (Some(c), c.len_utf8())
            };
            if let Some(c) = decoded {
                placed.text.push(c);
                let place = (start + at, start + at + used);
                placed.places.resize(placed.text.len(), place);
            }
            at += used;
        }
        placed.end = start + at;
        placed
    }

    /// The place in the file of a range of the text.
    pub fn span(&self, range: Range<usize>) -> Span {
        let start = self
            .places
            .get(range.start)
            .map_or(self.end, |place| place.0);
        // The last character's own end: what follows it may begin after a swallowed line end.
        let end = match range.end.checked_sub(1) {
            Some(last) if !range.is_empty() => self.places[last].1,
            _ => start,
        };
        Span::new(start, end)
    }

    /// The place of all of it, without quotes.
    pub fn whole(&self) -> Span {
        self.span(0..self.text.len())
    }
}

/// What the escape at the start of `text` stands for, and how many bytes it takes.
/// A line end that is escaped stands for nothing.
fn unescape(text: &str) -> (Option<char>, usize) {
    let simple = |c| (Some(c), 2);
    match text.as_bytes().get(1) {
        Some(b'b') => simple('\u{8}'),
        Some(b't') => simple('\t'),
        Some(b'n') => simple('\n'),
        Some(b'f') => simple('\u{c}'),
        Some(b'r') => simple('\r'),
        Some(b'e') => simple('\u{1b}'),
        Some(b'"') => simple('"'),
        Some(b'\\') => simple('\\'),
        Some(&kind @ (b'x' | b'u' | b'U')) => {
            let digits = match kind {
                b'x' => 2,
                b'u' => 4,
                _ => 8,
            };
            let code = text
                .get(2..2 + digits)
                .and_then(|d| u32::from_str_radix(d, 16).ok());
            match code.and_then(char::from_u32) {
                Some(c) => (Some(c), 2 + digits),
                None => (Some('\\'), 1),
            }
        }
        Some(b' ' | b'\t' | b'\n' | b'\r') => {
            let blanks = text[1..].len() - text[1..].trim_start().len();
            (None, 1 + blanks)
        }
        _ => (Some('\\'), 1),
    }
}

/// Row and column of a byte of a text, both from 1, the column in characters.
pub fn row_and_column(text: &str, byte: usize) -> (usize, usize) {
    let before = &text[..boundary(text, byte)];
    let row_start = before.rfind('\n').map_or(0, |i| i + 1);
    let row = before.bytes().filter(|b| *b == b'\n').count() + 1;
    (row, before[row_start..].chars().count() + 1)
}

/// `byte`, or the start of the character it lies in, or the end of the text.
pub fn boundary(text: &str, byte: usize) -> usize {
    let byte = byte.min(text.len());
    (0..=byte)
        .rev()
        .find(|b| text.is_char_boundary(*b))
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decode(raw: &str) -> Placed {
        let source = format!("notes = {raw}\n");
        let start = "notes = ".len();
        Placed::decode(&source, start..start + raw.len())
    }

    #[test]
    fn plain_text_keeps_its_places() {
        let placed = decode("\"C4 D4\"");
        assert_eq!(placed.text, "C4 D4");
        assert_eq!(placed.span(3..5), Span::new(12, 14));
    }

    #[test]
    fn escapes_are_longer_in_the_file() {
        let placed = decode(r#""C4\tF\u00234 E4""#);
        assert_eq!(placed.text, "C4\tF#4 E4");
        assert_eq!(placed.span(3..6), Span::new(13, 21));
        assert_eq!(placed.span(7..9), Span::new(22, 24));
    }

    #[test]
    fn long_strings_drop_their_first_line_end() {
        let placed = decode("\"\"\"\nC4\\\n   D4\n\"\"\"");
        assert_eq!(placed.text, "C4D4\n");
        assert_eq!(placed.span(0..2), Span::new(12, 14));
        let placed = decode("'''C4 \\t'''");
        assert_eq!(placed.text, "C4 \\t");
    }
}
